package printed

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"stillbeat/board"
)

// beatWords says on which beat a start at frame f lies: "bar 2, beat 3 + 1/2, 2
// frames early" if it follows the music, else the beat that counts there.
func beatWords(b board.Board, s board.Start, f board.Frame) string {
	a := s.Anchor
	if !s.Anchored() || !b.OnGrid() || a.Beat < 0 {
		return b.BeatWords(f)
	}
	bar, place := b.Grid.Place(a.Beat)
	out := fmt.Sprintf("beat %d", place)
	if bar > 0 {
		out = fmt.Sprintf("bar %d, beat %d", bar, place)
	}
	if a.Part > 0 {
		out += fmt.Sprintf(" + %d/%d", a.Part, a.Of)
	}
	switch {
	case a.Offset < 0:
		out += fmt.Sprintf(", %s early", counted(int64(-a.Offset), "frame"))
	case a.Offset > 0:
		out += fmt.Sprintf(", %s late", counted(int64(a.Offset), "frame"))
	}
	return out
}

// beatsHeld says how many beats panel i holds, "" without beats: exactly between
// anchored starts, else as many as its frames last.
func beatsHeld(b board.Board, starts []board.Frame, i int) string {
	if !b.OnGrid() {
		return ""
	}
	end := b.End
	if i+1 < len(b.Panels) {
		end = b.Panels[i+1].Start
	}
	n := beatPosition(b, end, starts[i+1]) - beatPosition(b, b.Panels[i].Start, starts[i])
	if words := strconv.FormatFloat(math.Round(100*n)/100, 'f', -1, 64); words != "1" {
		return words + " beats"
	}
	return "1 beat"
}

// beatPosition returns where a start at frame f lies in beats of the grid. A
// frame that is the nearest to a beat lies on it.
func beatPosition(b board.Board, s board.Start, f board.Frame) float64 {
	if a := s.Anchor; s.Anchored() {
		return float64(a.Beat) + float64(a.Part)/float64(a.Of)
	}
	t, g := b.Rate.Seconds(f)-b.SongOffset(), b.Grid
	n := len(g.Beats)
	k := min(max(sort.Search(n, func(i int) bool { return g.Beats[i].Time > t })-1, 0), n-2)
	x := float64(k) + (t-g.Beats[k].Time)/(g.Beats[k+1].Time-g.Beats[k].Time)
	if near := math.Round(x); math.Abs(near) < board.MaxBeats && b.Rate.Nearest(b.SongOffset()+g.Time(int(near), 0, 1)) == f {
		return near
	}
	return x
}
