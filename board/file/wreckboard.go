package file

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"fmt"

	"stillbeat/board"
)

const hashSize = sha256.Size

// readBoard finds the board: in its own row or, where that is damaged, by way
// of the history.
func (r *wreck) readBoard() {
	r.readSteps()
	own, target := r.ownRow()
	if own.board != nil && own.grid != nil {
		r.settle(own, target, "")
		return
	}
	found, at := r.rebuild(own, target)
	switch {
	case own.board != nil && bytes.Equal(found.gridHash, own.gridHash):
		own.grid = found.grid
		r.settle(own, target, "")
	case own.board != nil:
		own.grid = []byte("{}")
		own.gridHash = sum(own.grid)
		r.settle(own, target, "the beats of the song are lost; every panel keeps its time")
	case found.board != nil && at == target:
		r.settle(found, at, "")
	case found.board != nil:
		r.settle(found, at, "the board is damaged: it was rebuilt from the undo history, and the last edits may be missing")
	}
}

// ownRow reads the board's row and its grid: what is damaged of them is nil.
// Without a place in the history the number of steps before the board is -1.
func (r *wreck) ownRow() (t text, place int) {
	if !r.tables["board"] || !r.tables["grid"] {
		return text{}, -1
	}
	_ = r.db.QueryRowContext(r.ctx, `SELECT hash, grid FROM board WHERE id = 1`).Scan(&t.boardHash, &t.gridHash)
	if data := r.blob(`SELECT json FROM board WHERE id = 1`); data != nil && bytes.Equal(sum(data), t.boardHash) {
		t.board = data
	}
	if data := r.blob(`SELECT json FROM grid NOT INDEXED LIMIT 1`); data != nil && bytes.Equal(sum(data), t.gridHash) {
		t.grid = data
	}
	var step sql.NullInt64
	place = -1
	if r.db.QueryRowContext(r.ctx, `SELECT step FROM board WHERE id = 1`).Scan(&step) == nil {
		place = 0
		for i, s := range r.steps {
			if s.id == board.StepID(step.Int64) {
				place = i + 1
			}
		}
	}
	return t, place
}

// rebuild looks through the boards that the spare ones and the history give,
// for the one with the grid that own names or at the place that is wanted; else
// it returns the newest. place is the number of steps before it.
func (r *wreck) rebuild(own text, want int) (best text, place int) {
	place = -1
	var spares []int64
	if r.tables["spare"] {
		r.both(`SELECT id FROM spare`, "id", board.MaxHistory, func(rows *sql.Rows) error {
			var id int64
			err := rows.Scan(&id)
			spares = append(spares, id)
			return err
		})
	}
	fits := func(at int, t text) bool {
		if own.board != nil {
			return bytes.Equal(t.gridHash, own.gridHash)
		}
		return at == want
	}
	done := false
	visit := func(at int, t text) bool {
		if done = fits(at, t); done || at > place {
			best, place = t, at
		}
		return !done
	}
	for _, id := range spares {
		t, err := fromSpare(r.blob(`SELECT data FROM spare WHERE id = ?`, id))
		if err != nil || done || r.ctx.Err() != nil {
			continue
		}
		at := r.placeOf(t.hash())
		if visit(at, t) && r.walk(at, t, false, visit) {
			r.walk(at, t, true, visit)
		}
	}
	return best, place
}

// placeOf returns the number of steps before the board with a hash; one that
// no step leads to or from stands before all.
func (r *wreck) placeOf(hash []byte) int {
	for i := len(r.steps) - 1; i >= 0; i-- {
		if bytes.Equal(r.steps[i].after, hash) {
			return i + 1
		}
	}
	return 0
}

// walk goes through the boards on one side of one that has at steps before it,
// as far as they can be read or until visit says no, which it reports.
func (r *wreck) walk(at int, t text, back bool, visit func(at int, t text) bool) bool {
	for r.ctx.Err() == nil {
		i, next := at, at+1
		if back {
			i, next = at-1, at-1
		}
		if i < 0 || i >= len(r.steps) {
			return true
		}
		here, there := r.steps[i].before, r.steps[i].after
		if back {
			here, there = there, here
		}
		if !bytes.Equal(here, t.hash()) {
			return true
		}
		patch := r.blob(`SELECT data FROM patch WHERE id = ?`, int64(r.steps[i].id))
		after, err := t.patched(patch, back)
		if err != nil || !bytes.Equal(after.hash(), there) {
			return true
		}
		r.steps[i].size = len(patch)
		at, t = next, after
		if !visit(at, t) {
			return false
		}
	}
	return false
}

// settle takes a text for the board, with the history that leads to and from
// it, and says what is lost. A text that is no board by the rules is not taken.
func (r *wreck) settle(t text, at int, lost string) {
	b, err := t.decode(text{})
	if err != nil {
		return
	}
	if lost != "" {
		r.say("%s", lost)
	}
	if at < 0 {
		at = r.placeOf(t.hash())
	}
	first, last := at, at
	through := func(at int, _ text) bool {
		first, last = min(first, at), max(last, at)
		return true
	}
	r.walk(first, t, true, through)
	r.walk(last, t, false, through)
	r.now = t
	if at > 0 {
		r.at = r.steps[at-1].id
	}
	r.rows, r.past = joined(r.steps[first:last], r.at, t.hash(), &b)
	switch kept := len(r.rows); {
	case r.first, kept == len(r.steps) && r.allSteps:
	case kept == 0:
		r.say("the undo history is lost")
	default:
		r.say("the undo history is lost but for %s", count(kept, "step"))
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
