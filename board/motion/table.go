package motion

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"stillbeat/board"
)

// Row is one exposure of a move.
type Row struct {
	Frame  board.Frame // of the film, the first of the exposure
	At     board.Spot
	Along  float64 // mm along the path from its first key, along the arc from straight down of a swing, or the height: see Table.Upright
	Step   float64 // mm from the exposure before, straight; 0 in the first
	Moment string  // what happens there: "lands"; mostly nothing
	Beat   string  // the place in the music it is to meet
}

// Table is a move from exposure to exposure.
type Table struct {
	Move     board.ObjectMove
	Upright  bool // Along is the height above the table
	Rows     []Row
	Findings []Finding

	laid *layout
}

// Space lays a move on exposures, at least one, of which hits are to be met.
func Space(m board.ObjectMove, x Exposures, hits []Hit, limits Limits) Table {
	head, _ := x.steps()
	l := laid(newCourse(m, head/x.Rate.Float()), x, hits)
	t := Table{Move: m, Upright: l.upright, Rows: make([]Row, len(x.Frames)), laid: l}
	for i, f := range x.Frames {
		r := Row{Frame: f}
		r.At, r.Along = l.place(float64(f))
		if i > 0 {
			r.Step = Between(t.Rows[i-1].At, r.At)
		}
		t.Rows[i] = r
	}
	if l.unfit == "" {
		t.name(x)
	}
	t.Findings = append(l.found, tooFar(t.Rows, limits)...)
	for i := range t.Findings {
		t.Findings[i].Move, t.Findings[i].Object = m.ID, m.Object
	}
	return t
}

// name writes what happens to the exposures on which it is seen.
func (t *Table) name(x Exposures) {
	row := make(map[float64]int, len(t.Rows))
	for i, r := range t.Rows {
		row[float64(r.Frame)] = i
	}
	for e, f := range t.laid.at {
		i, ok := row[x.nearest(f)]
		if !ok || t.laid.event(e) == "" {
			continue
		}
		r := &t.Rows[i]
		switch what := t.laid.event(e); {
		case r.Moment == "":
			r.Moment = what
		case !strings.HasSuffix(r.Moment, what):
			r.Moment += ", " + what
		}
		if beat := t.laid.beats[e]; beat != "" {
			r.Beat = beat
		}
	}
}

// Tables returns the table of each move of a film, in the order the board has
// them.
func Tables(b board.Board, limits Limits) []Table {
	starts := b.Starts()
	out := make([]Table, len(b.Moves))
	for i, m := range b.Moves {
		hits := make([]Hit, len(m.Hits))
		for k, h := range m.Hits {
			hits[k] = Hit{h.Moment, b.Frame(h.Start), hitWords(b, h.Start)}
		}
		out[i] = Space(m, ExposuresOf(b, starts, b.Index(m.First), b.Index(m.Last)), hits, limits)
		for k := range out[i].Findings {
			f := &out[i].Findings[k]
			f.Panel = board.PanelAt(starts, f.Frame)
		}
	}
	return out
}

// hitWords says where a hit lies in the music: "bar 2, beat 3 and 1/2".
func hitWords(b board.Board, s board.Start) string {
	if !s.Anchored() || !b.OnGrid() {
		return "a time of its own"
	}
	bar, beat := b.Grid.Place(s.Anchor.Beat)
	words := fmt.Sprintf("beat %d", beat)
	if bar > 0 {
		words = fmt.Sprintf("bar %d, beat %d", bar, beat)
	}
	if s.Anchor.Part > 0 {
		words += fmt.Sprintf(" and %d/%d", s.Anchor.Part, s.Anchor.Of)
	}
	return words
}

// At returns the row of the exposure that shows frame f, false where the move
// has none.
func (t Table) At(f board.Frame) (Row, bool) {
	i := sort.Search(len(t.Rows), func(i int) bool { return t.Rows[i].Frame > f })
	if i == 0 || f >= t.laid.end {
		return Row{}, false
	}
	return t.Rows[i-1], true
}

// Words returns what a column of an exposure sheet says of a row: "12.4 mm, step
// 3.1", "8.2 mm high, step 8.2, lands" of what falls straight, "40.0 mm, 8.2 high,
// step 8.2" of what goes across the set as well, with the object's name before
// it if that is wanted.
func (t Table) Words(r Row, named bool) string {
	words := Tenths(r.Along) + " mm"
	switch {
	case t.Upright && t.across():
		from := t.Move.Keys[0]
		words = Tenths(math.Hypot(r.At.X-from.X, r.At.Y-from.Y)) + " mm, " + Tenths(r.At.Height) + " high"
	case t.Upright:
		words += " high"
	}
	if named && t.Move.Object != "" {
		words = t.Move.Object + " " + words
	}
	if r.Step > 0 {
		words += ", step " + Tenths(r.Step)
	}
	if r.Moment != "" {
		words += ", " + r.Moment
	}
	return words
}

// across reports whether the object does not end over where it began.
func (t Table) across() bool {
	from, to := t.Move.Keys[0], t.Move.Keys[len(t.Move.Keys)-1]
	return from.X != to.X || from.Y != to.Y
}

// Tenths writes millimetres as they are set by hand, to a tenth.
func Tenths(mm float64) string {
	return fmt.Sprintf("%.1f", math.Round(mm*10)/10+0) // no minus before 0
}
