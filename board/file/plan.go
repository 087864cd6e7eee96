package file

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"slices"

	"stillbeat/board"
)

// MaxPast is how many bytes the steps of a film's history take, packed; their
// number is that of board.MaxHistory.
const MaxPast = 32 << 20

// spareEvery is the number of steps after which the whole board is stored
// again beside the patches: from it the board is rebuilt if its own row is
// damaged.
const spareEvery = 32

// row is a step of the history as it is stored: how the patch with its id
// changes the board.
type row struct {
	id            board.StepID
	name          string
	before, after []byte // hashes of the boards on both sides
	size          int    // of the patch
}

// spare is a whole board as it is stored.
type spare struct {
	id   board.StepID
	hash []byte
	size int
}

// change is what a save does.
type change struct {
	now     text
	at      board.StepID
	rows    []row // of the film afterwards
	spares  []spare
	patches map[board.StepID][]byte // of new rows
	spare   []byte                  // of the current board, if a new one is due
	texts   map[*board.Board]text   // of the boards that were encoded
}

// plan prepares a save: what can be kept of the history on disk and what has
// to be added.
func (f *File) plan(p board.Past) (*change, error) {
	c := &change{at: p.Steps[p.At].ID, patches: map[board.StepID][]byte{}, texts: map[*board.Board]text{}}
	var err error
	if c.now, err = f.textOf(p.Steps[p.At].Board, c); err != nil {
		return nil, err
	}
	place := make(map[board.StepID]int, len(p.Steps))
	for i, s := range p.Steps[1:] {
		place[s.ID] = i + 1
	}
	for _, r := range f.rows {
		if place[r.id] > 0 {
			c.rows = append(c.rows, r)
		}
	}
	if len(c.rows) > 0 && p.At < place[c.rows[0].id]-1 {
		c.rows = nil // undone to where the disk has no steps any more
	}
	for i := 1; i < len(p.Steps); i++ {
		if p.Steps[i].ID > f.newest {
			if err := f.planStep(c, p.Steps[i-1], p.Steps[i]); err != nil {
				return nil, err
			}
		}
	}
	c.planSpare(f.spares)
	return c, nil
}

// planStep adds a step to what is stored.
func (f *File) planStep(c *change, from, to board.Step) error {
	before, err := f.textOf(from.Board, c)
	if err != nil {
		return err
	}
	after, err := f.textOf(to.Board, c)
	if err != nil {
		return err
	}
	r := row{id: to.ID, name: to.Name, before: before.hash(), after: after.hash()}
	if n := len(c.rows); n > 0 && !bytes.Equal(c.rows[n-1].after, r.before) {
		c.rows = nil
	}
	patch := before.patchTo(after)
	r.size = len(patch)
	c.patches[r.id] = patch
	c.rows = append(c.rows, r)
	return nil
}

// planSpare sees to it that the board can be rebuilt from a spare one and few
// steps, and that all together takes no more than MaxPast.
func (c *change) planSpare(had []spare) {
	now := c.now.hash()
	if c.spares = c.linked(had, now); c.sinceSpare(now) > spareEvery {
		if data := c.now.spare(); len(data) <= MaxPast/4 {
			c.spare = data
			c.spares = append(slices.DeleteFunc(c.spares, func(s spare) bool { return s.id == c.at }), spare{c.at, now, len(data)})
		}
	}
	for c.size() > MaxPast && len(c.rows) > 0 {
		c.rows = c.rows[1:]
		c.spares = c.linked(c.spares, now)
	}
}

// linked returns the spares from which the stored steps or the board start.
func (c *change) linked(spares []spare, now []byte) (out []spare) {
	known := map[string]bool{string(now): true}
	for _, r := range c.rows {
		known[string(r.before)], known[string(r.after)] = true, true
	}
	for _, s := range spares {
		if known[string(s.hash)] {
			out = append(out, s)
		}
	}
	return out
}

// sinceSpare counts the steps since the newest spare; without one they are
// more than any number of steps.
func (c *change) sinceSpare(now []byte) int {
	is := func(hash []byte) bool {
		return slices.ContainsFunc(c.spares, func(s spare) bool { return bytes.Equal(s.hash, hash) })
	}
	for i := len(c.rows) - 1; i >= 0; i-- {
		if is(c.rows[i].after) {
			return len(c.rows) - 1 - i
		}
	}
	if is(now) || len(c.rows) > 0 && is(c.rows[0].before) {
		return len(c.rows)
	}
	return board.MaxHistory + 1
}

func (c *change) size() (n int) {
	for _, r := range c.rows {
		n += r.size
	}
	for _, s := range c.spares {
		n += s.size
	}
	return n
}

// textOf encodes a board, unless that is done already.
func (f *File) textOf(b *board.Board, c *change) (text, error) {
	t, ok := c.texts[b]
	if !ok {
		if t, ok = f.texts[b]; !ok {
			var err error
			if t, err = newText(*b, f.now); err != nil {
				return text{}, err
			}
		}
		c.texts[b] = t
	}
	return t, nil
}

// writePast makes the history on disk that of the change.
func (c *change) writePast(tx *sql.Tx) error {
	steps, spares := []board.StepID{}, []board.StepID{}
	for _, r := range c.rows {
		steps = append(steps, r.id)
	}
	for _, s := range c.spares {
		spares = append(spares, s.id)
	}
	if err := deleteOthers(tx, "history", steps); err != nil {
		return err
	}
	if err := deleteOthers(tx, "spare", spares); err != nil {
		return err
	}
	for _, r := range c.rows {
		if patch, ok := c.patches[r.id]; ok {
			if err := insertStep(tx, r, patch); err != nil {
				return err
			}
		}
	}
	if c.spare == nil {
		return nil
	}
	_, err := tx.Exec(`INSERT INTO spare (id, hash, data) VALUES (?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET hash = excluded.hash, data = excluded.data`, int64(c.at), c.now.hash(), c.spare)
	return err
}

func insertStep(tx *sql.Tx, r row, patch []byte) error {
	if _, err := tx.Exec(`INSERT INTO history (id, name, before, after) VALUES (?, ?, ?, ?)`, int64(r.id), r.name, r.before, r.after); err != nil {
		return err
	}
	_, err := tx.Exec(`INSERT INTO patch (id, data) VALUES (?, ?)`, int64(r.id), patch)
	return err
}

func deleteOthers(tx *sql.Tx, table string, keep []board.StepID) error {
	ids, err := json.Marshal(keep)
	if err != nil {
		return err
	}
	_, err = tx.Exec(`DELETE FROM `+table+` WHERE id NOT IN (SELECT value FROM json_each(?))`, string(ids))
	return err
}

// took notes that a change is on disk.
func (f *File) took(c *change) {
	f.shelf.Lock()
	f.rows = c.rows
	f.shelf.Unlock()
	for id := range c.patches {
		f.newest = max(f.newest, id)
	}
	f.now, f.at, f.spares = c.now, c.at, c.spares
	f.texts = c.texts
	if len(f.texts) > 2 { // a burst: only the newest is needed again
		f.texts = nil
	}
}
