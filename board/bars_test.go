package board

import (
	"slices"
	"testing"
)

func TestSetBars(t *testing.T) {
	b := withSong(t, frameRate24, 120, 16) // bars on 0 4 8 12
	for _, c := range []struct {
		name  string
		edits []Edit
		want  []int
	}{
		{"threes from the start", []Edit{SetBars(0, 3)}, []int{0, 3, 6, 9, 12, 15}},
		{"bar 1 is the second beat", []Edit{SetBars(1, 4)}, []int{0, 1, 5, 9, 13}},
		{"different from a place on", []Edit{SetBars(4, 5)}, []int{0, 4, 9, 14}},
		{"up to the next place", []Edit{SetBars(9, 2), SetBars(2, 3)}, []int{0, 2, 5, 8, 9, 11, 13, 15}},
		{"the same place again", []Edit{SetBars(2, 3), SetBars(2, 12)}, []int{0, 2, 14}},
		{"taken back", []Edit{SetBars(0, 4), SetBars(3, 5), SetBars(3, 0)}, []int{0, 4, 8, 12}},
		{"a beat more", []Edit{SetBars(4, 4), AddBeat(2.25)}, []int{0, 4, 8, 12, 16}},
		{"a beat fewer", []Edit{SetBars(4, 4), RemoveBeat(5)}, []int{0, 4, 8, 12}},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := b
			for _, e := range c.edits {
				out = do(t, out, e)
			}
			if got := bars(out.Grid); !slices.Equal(got, c.want) {
				t.Errorf("bars start on %v, want %v", got, c.want)
			}
		})
	}
	if out := do(t, b, SetBars(0, 3)); out.Grid.Metre != 3 || !out.Grid.Beats[0].Hand || out.Grid.Beats[3].Hand {
		t.Errorf("the grid has bars of %d, beats %+v", out.Grid.Metre, out.Grid.Beats[:4])
	}
	if out := do(t, b, SetBars(8, 3)); out.Grid.Metre != b.Grid.Metre {
		t.Errorf("bars from beat 8 on made all bars of %d", out.Grid.Metre)
	}
	undoes(t, b, SetBars(5, 7))
	for _, n := range []int{-1, 1, 13} {
		refused(t, b, SetBars(0, n), "it has 2 to 12")
	}
	refused(t, b, SetBars(16, 4), "no such beat")
}
