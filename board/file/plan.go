package file

import (
	"bytes"

	"stillbeat/board"
)

// MaxPast is how many bytes the steps of a film's history take, packed; their
// number is that of board.MaxHistory.
const MaxPast = 32 << 20

var pastRoom = MaxPast // smaller in tests

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

// newRow is a step that is to be stored.
type newRow struct {
	row
	patch []byte
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
	s, ok := f.unsaved[to.ID]
	if !ok {
		before, err := f.textOf(from.Board, c)
		if err != nil {
			return err
		}
		after, err := f.textOf(to.Board, c)
		if err != nil {
			return err
		}
		s.patch = before.patchTo(after)
		s.row = row{id: to.ID, name: to.Name, before: before.hash(), after: after.hash(), size: len(s.patch)}
	}
	if n := len(c.rows); n > 0 && !bytes.Equal(c.rows[n-1].after, s.before) {
		c.rows = nil
	}
	c.patches[s.id] = s.patch
	c.rows = append(c.rows, s.row)
	return nil
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
	f.unsaved = nil
}

// holdOver keeps the steps of a change that could not be made, so that the next
// save need not write them anew.
func (f *File) holdOver(c *change) {
	f.unsaved = map[board.StepID]newRow{}
	for _, r := range c.rows {
		if patch, ok := c.patches[r.id]; ok {
			f.unsaved[r.id] = newRow{r, patch}
		}
	}
}
