package board

import (
	"fmt"
	"testing"
)

// checkPassings fails unless every passage lies in the panel before and its
// own and no frame is in two.
func checkPassings(t testing.TB, b Board) {
	t.Helper()
	starts := b.Starts()
	passings := b.Passings(starts)
	for i, p := range passings {
		least := starts[max(0, i-1)]
		if p.Start < least || p.Start > starts[i] || p.End < starts[i] || p.End > starts[i+1] {
			t.Fatalf("the passage into panel %d is %v among starts %v", i+1, p, starts)
		}
		if i > 0 && p.Start < passings[i-1].End {
			t.Fatalf("passages %v and %v have frames in common", passings[i-1], p)
		}
		if b.Panels[i].Into.Kind == Cut && p.Len() != 0 {
			t.Fatalf("a cut takes the frames %v", p)
		}
		if seen := b.SeenIn(i, starts, passings); seen.Start > starts[i] || seen.End < starts[i+1] {
			t.Fatalf("panel %d is seen in %v but holds from %d to %d", i+1, seen, starts[i], starts[i+1])
		}
	}
}

func TestPassings(t *testing.T) {
	for _, c := range []struct {
		name   string
		starts []Frame
		into   []Transition
		want   []Span // of each panel
		seen   []Span
	}{
		{"cuts", []Frame{0, 10, 20}, []Transition{{}, {}}, []Span{{0, 0}, {10, 10}}, []Span{{0, 10}, {10, 20}}},
		{"a dissolve half before and half after", []Frame{0, 48, 96}, []Transition{{}, {Dissolve, 24}}, []Span{{0, 0}, {36, 60}}, []Span{{0, 60}, {36, 96}}},
		{"the odd frame lies after", []Frame{0, 48, 96}, []Transition{{}, {Dissolve, 5}}, []Span{{0, 0}, {46, 51}}, []Span{{0, 51}, {46, 96}}},
		{"one frame", []Frame{0, 48, 96}, []Transition{{}, {Wipe, 1}}, []Span{{0, 0}, {48, 49}}, []Span{{0, 49}, {48, 96}}},
		{"clipped to what the panels hold", []Frame{0, 4, 10}, []Transition{{}, {Dissolve, 24}}, []Span{{0, 0}, {0, 10}}, []Span{{0, 10}, {0, 10}}},
		{"into the first panel", []Frame{0, 48}, []Transition{{Fade, 16}}, []Span{{0, 8}}, []Span{{0, 48}}},
		{"two meet in a short panel", []Frame{0, 48, 56, 96}, []Transition{{}, {Dissolve, 24}, {Dissolve, 24}},
			[]Span{{0, 0}, {36, 52}, {52, 68}}, []Span{{0, 52}, {36, 68}, {52, 96}}},
		{"a long and a short one meet", []Frame{0, 48, 56, 96}, []Transition{{}, {Dissolve, 48}, {Dissolve, 4}},
			[]Span{{0, 0}, {24, 54}, {54, 58}}, []Span{{0, 54}, {24, 58}, {54, 96}}},
		{"through black only one is seen", []Frame{0, 48, 96}, []Transition{{}, {Fade, 16}}, []Span{{0, 0}, {40, 56}}, []Span{{0, 48}, {48, 96}}},
	} {
		b := atFrames(c.starts...)
		for i, into := range c.into {
			b.Panels[i].Into = into
		}
		checkPassings(t, b)
		starts := b.Starts()
		passings := b.Passings(starts)
		if got, want := fmt.Sprint(passings), fmt.Sprint(c.want); got != want {
			t.Errorf("%s: passages %s, want %s", c.name, got, want)
		}
		for i, want := range c.seen {
			if got := b.SeenIn(i, starts, passings); got != want {
				t.Errorf("%s: panel %d is seen in %v, want %v", c.name, i+1, got, want)
			}
		}
	}
}
