package board

import (
	"fmt"
	"sort"
)

// At returns the beat that is sounding at t seconds of song, -1 before the
// first.
func (g Grid) At(t float64) int {
	return sort.Search(len(g.Beats), func(i int) bool { return g.Beats[i].Time > t+1e-6 }) - 1
}

// Place returns the bar a beat is in and its place there, both from 1. Without
// bars, and before the first, the bar is 0 and the beat is counted from the
// start of the song. Past the last beat bars go on as long as they were.
func (g Grid) Place(beat int) (bar, place int) {
	last := -1
	for i := 0; i <= beat && i < len(g.Beats); i++ {
		if g.Beats[i].Bar {
			bar, last = bar+1, i
		}
	}
	if last < 0 {
		return 0, beat + 1
	}
	if metre := g.barLines().metre; beat >= len(g.Beats) && beat-last >= metre {
		bar += (beat - last) / metre
		last += (beat - last) / metre * metre
	}
	return bar, beat - last + 1
}

// BeatAt returns the beat that counts at frame f, -1 before the first or
// without beats. A beat counts from the frame nearest to it.
func (b Board) BeatAt(f Frame) int {
	if !b.OnGrid() {
		return -1
	}
	return b.Grid.At(b.Rate.Seconds(f) + 0.5/b.Rate.Float() - b.SongOffset())
}

// BeatFrame returns the frame nearest to a beat of the grid.
func (b Board) BeatFrame(beat int) Frame {
	return b.Rate.Nearest(b.SongOffset() + b.Grid.Beats[beat].Time)
}

// BeatWords says which beat counts at frame f: "bar 2, beat 3", "beat 3"
// without bars, nothing before the first beat.
func (b Board) BeatWords(f Frame) string {
	beat := b.BeatAt(f)
	if beat < 0 {
		return ""
	}
	bar, place := b.Grid.Place(beat)
	if bar == 0 {
		return fmt.Sprintf("beat %d", place)
	}
	return fmt.Sprintf("bar %d, beat %d", bar, place)
}
