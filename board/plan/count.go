package plan

import "stillbeat/board"

// Panel says what a panel takes to shoot.
type Panel struct {
	Panel   int   // its index on the board
	OnSheet int64 // exposures of its hold, as board.Exposures and the sheet count them
	Take    int64 // photographs that are new
	Still   bool  // it is marked so and nothing moves: one photograph is enough
	Repeats int   // the panel whose photographs are used again, -1: none
}

// counter counts photographs along a film.
type counter struct {
	b        board.Board
	starts   []board.Frame
	passings []board.Span
	objects  [][]string // what moves in each panel, each name once; "" is a name too
	taken    map[shown]*earlier
	every    bool
}

// shown is what makes two panels show the same.
type shown struct {
	picture, sketch board.MediaID
	action          string
}

// earlier is what has been photographed of it.
type earlier struct {
	first, last int // panels
	most        int64
}

func newCounter(b board.Board) *counter {
	c := &counter{b: b, starts: b.Starts(), taken: map[shown]*earlier{}, every: b.Planning().Every}
	c.passings = b.Passings(c.starts)
	c.objects = moving(b)
	return c
}

// moving returns what moves in each panel.
func moving(b board.Board) [][]string {
	out := make([][]string, len(b.Panels))
	if len(b.Moves) == 0 {
		return out
	}
	at := make(map[board.PanelID]int, len(b.Panels))
	for i, p := range b.Panels {
		at[p.ID] = i
	}
	for _, m := range b.Moves {
		for i := at[m.First]; i <= at[m.Last]; i++ {
			out[i] = appendNew(out[i], m.Object)
		}
	}
	return out
}

// moves reports whether an object or the camera does in panel i.
func (c *counter) moves(i int) bool {
	return len(c.objects[i]) > 0 || !c.b.Panels[i].Drawing().Travel.Holds()
}

// panel counts panel i; those before it have been counted.
//
// A still panel takes one photograph however long it holds, any other one for
// each exposure. A dissolve or a wipe shows both panels at once, so each takes
// the frames on the other side of the cut too. A panel that shows again what an
// earlier one did (same picture and sketch, same words of action, nothing that
// moves) takes only as many as it is longer; one right after it goes on with it
// instead and takes its own, unless it is still.
func (c *counter) panel(i int) Panel {
	p, step := c.b.Panels[i], int64(c.b.StepOf(i))
	hold := int64(c.starts[i+1] - c.starts[i])
	out := Panel{Panel: i, OnSheet: (hold + step - 1) / step, Repeats: -1}
	out.Take = (hold + c.beyond(i) + step - 1) / step
	if c.every || c.moves(i) {
		return out
	}
	if out.Still = p.Still; out.Still {
		out.Take = 1
	}
	key := shown{p.Picture, p.Drawing().Sketch, p.Action}
	if key.picture == "" && key.sketch == "" {
		return out
	}
	before := c.taken[key]
	switch {
	case before == nil:
		c.taken[key] = &earlier{i, i, out.Take}
		return out
	case before.last == i-1 && !out.Still: // one action over two panels
		before.last, before.most = i, max(before.most, out.Take)
		return out
	}
	need := out.Take
	out.Repeats, out.Take = before.first, max(0, need-before.most)
	before.last, before.most = i, max(before.most, need)
	return out
}

// beyond returns the frames in which panel i is seen on the other side of its
// cuts.
func (c *counter) beyond(i int) (n int64) {
	both := func(k int) bool {
		return c.b.Panels[k].Into.Kind == board.Dissolve || c.b.Panels[k].Into.Kind == board.Wipe
	}
	if i > 0 && both(i) {
		n += int64(c.starts[i] - c.passings[i].Start)
	}
	if i+1 < len(c.passings) && both(i+1) {
		n += int64(c.passings[i+1].End - c.starts[i+1])
	}
	return n
}

// appendNew appends a word that is not there yet.
func appendNew(words []string, word string) []string {
	for _, w := range words {
		if w == word {
			return words
		}
	}
	return append(words, word)
}
