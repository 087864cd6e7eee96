package file

import (
	"bytes"
	"database/sql"
	"encoding/hex"
	"fmt"
	"slices"

	"stillbeat/board"
)

const maxMediaRows = 100_000

// readMedia finds out which pictures and songs are whole: those the board
// uses, those that are listed, and, where some of these are not found, all
// others that can be read. Without a board it makes one of the pictures.
func (r *wreck) readMedia() {
	if !r.tables["content"] {
		if r.past.Steps != nil {
			r.sayMissing(r.past.Board(), nil)
		}
		return
	}
	listed := r.listMedia()
	used := map[board.MediaID]bool{}
	if r.past.Steps != nil {
		for _, id := range r.past.Board().Media() {
			used[id] = id != ""
		}
	}
	r.place = map[board.MediaID]int64{}
	seen := map[board.MediaID]bool{}
	for id := range used {
		if _, ok := listed[id]; !ok {
			listed[id] = medium{id: id}
		}
	}
	missing := r.past.Steps == nil
	for id, m := range listed {
		data := r.blob(`SELECT data FROM content WHERE id = ?`, string(id))
		if data == nil && r.tables["alike"] {
			data = r.alike(id)
		}
		if idOf(data) == id && len(data) > 0 {
			seen[id] = true
			r.add(m, data)
		} else if id != "" {
			missing = true
		}
	}
	if missing {
		r.searchMedia(listed, seen)
	}
	slices.SortFunc(r.media, func(a, b medium) int { return int(a.row - b.row) })
	if r.past.Steps == nil {
		r.layPictures()
		return
	}
	r.sayMissing(r.past.Board(), seen)
}

// alike puts a sketch together that is stored as made of others, nil if that
// cannot be done.
func (r *wreck) alike(id board.MediaID) []byte {
	data, _, err := alikeFrom(id, func(id board.MediaID) (base board.MediaID, likeness, whole []byte, err error) {
		if whole = r.blob(`SELECT data FROM content WHERE id = ?`, string(id)); whole == nil {
			base = board.MediaID(r.blob(`SELECT CAST(base AS BLOB) FROM alike WHERE id = ? AND length(base) <= 64`, string(id)))
			likeness = r.blob(`SELECT data FROM alike WHERE id = ? AND length(data) <= ?`, string(id), maxSketch)
		}
		return base, likeness, whole, nil
	})
	if err != nil {
		return nil
	}
	return data
}

func idOf(data []byte) board.MediaID { return board.MediaID(hex.EncodeToString(sum(data))) }

// listMedia returns the kinds and names that can be read.
func (r *wreck) listMedia() map[board.MediaID]medium {
	out := map[board.MediaID]medium{}
	if !r.tables["media"] {
		return out
	}
	r.both(fmt.Sprintf(`SELECT rowid, id, kind, iif(octet_length(name) <= %d, name, '') FROM media NOT INDEXED`, maxSetting), "rowid", maxMediaRows,
		func(rows *sql.Rows) error {
			var m medium
			err := rows.Scan(&m.row, &m.id, &m.kind, &m.name)
			if err == nil && checkID(m.id) == nil {
				out[m.id] = m
			}
			return err
		})
	return out
}

// searchMedia reads every row there may be, whatever its index says.
func (r *wreck) searchMedia(listed map[board.MediaID]medium, seen map[board.MediaID]bool) {
	last := min(maxMediaRows, 32*r.pages)
	var most sql.NullInt64
	if r.db.QueryRowContext(r.ctx, `SELECT max(rowid) FROM content`).Scan(&most) == nil {
		last = min(maxMediaRows, most.Int64)
	}
	for row := int64(1); row <= last && r.ctx.Err() == nil; row++ {
		data := r.blob(`SELECT data FROM content NOT INDEXED WHERE rowid = ?`, row)
		id := idOf(data)
		if len(data) == 0 || seen[id] {
			continue
		}
		m, ok := listed[id]
		if !ok && !r.claims(row, id) {
			continue // bytes that were changed: they are what nobody stored
		}
		seen[id], r.place[id] = true, row
		m.id, m.row = id, row
		r.add(m, data)
	}
}

// claims reports whether a row of contents says that it has an id.
func (r *wreck) claims(row int64, id board.MediaID) bool {
	return string(r.blob(`SELECT CAST(id AS BLOB) FROM content NOT INDEXED WHERE rowid = ?`, row)) == string(id)
}

// add notes a whole medium. Without its kind it goes by its first bytes.
func (r *wreck) add(m medium, data []byte) {
	if m.kind != Picture && m.kind != Song && m.kind != Sketch {
		m.kind = kindOf(data)
	}
	r.media = append(r.media, m)
}

// kindOf tells a medium's kind by its first bytes.
func kindOf(data []byte) string {
	for _, mark := range []string{"\x89PNG", "\xff\xd8\xff", "GIF8", "BM", "II*\x00", "MM\x00*"} {
		if bytes.HasPrefix(data, []byte(mark)) {
			return Picture
		}
	}
	if len(data) > 12 && string(data[8:12]) == "WEBP" {
		return Picture
	}
	if _, err := board.DecodeSketch(data); err == nil {
		return Sketch
	}
	return Song
}

// layPictures makes a board of the pictures, a second each; without any there
// is no board.
func (r *wreck) layPictures() {
	b := board.New()
	for _, m := range r.media {
		if m.kind != Picture || len(b.Panels) == board.MaxPanels {
			continue
		}
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(float64(len(b.Panels))), Picture: m.id})
		b.NextID++
	}
	b.End = board.Free(float64(len(b.Panels)))
	t, err := newText(b, text{})
	if err != nil || len(b.Panels) == 0 {
		return
	}
	r.now, r.past = t, board.NewPast(b)
	r.say("the board is lost, and the undo history with it: the %s that could be read lie in a row, a second each", count(len(b.Panels), "picture"))
}

// sayMissing says which pictures of the board, and whether its song, could not
// be found whole.
func (r *wreck) sayMissing(b board.Board, seen map[board.MediaID]bool) {
	for _, kind := range []struct {
		name string
		of   func(board.Panel) board.MediaID
	}{
		{"picture", func(p board.Panel) board.MediaID { return p.Picture }},
		{"drawing", func(p board.Panel) board.MediaID { return p.Drawing().Sketch }},
	} {
		all, gone := map[board.MediaID]bool{"": true}, 0
		for _, p := range b.Panels {
			if id := kind.of(p); !all[id] {
				all[id] = true
				if !seen[id] {
					gone++
				}
			}
		}
		switch {
		case gone == 1:
			r.say("1 of %s is damaged or missing", count(len(all)-1, kind.name))
		case gone > 1:
			r.say("%d of %s are damaged or missing", gone, count(len(all)-1, kind.name))
		}
	}
	if b.Song != nil && b.Song.Media != "" && !seen[b.Song.Media] {
		r.say("the song is damaged or missing")
	}
}
