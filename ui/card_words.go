package ui

import (
	"fmt"

	"stillbeat/board"
)

// sizeSuggestions are the usual sizes of a shot with what they mean.
func sizeSuggestions() []suggestion {
	var out []suggestion
	for _, s := range board.Sizes {
		out = append(out, suggestion{s[0], s[1]})
	}
	return out
}

// moveSuggestions are the usual moves of a camera.
func moveSuggestions() []suggestion {
	var out []suggestion
	for _, m := range board.Moves {
		out = append(out, suggestion{text: m})
	}
	return out
}

// sizeHint says what the field is for, or what the size in it means.
func sizeHint(size string) string {
	for _, s := range board.Sizes {
		if s[0] == size {
			return s[0] + ", " + s[1] + ". Down lists the sizes."
		}
	}
	return "How much is in the frame. Down lists the sizes, or write your own."
}

// holdWords gives a hold in the other units: "frames · 1.25 s · 2.5 beats"; of
// several panels the time they take together.
func holdWords(b board.Board, starts []board.Frame, set []int) string {
	if len(set) == 1 {
		from, to := starts[set[0]], starts[set[0]+1]
		words := fmt.Sprintf("%s · %.2f s", plural(int64(to-from), "frame"), b.Rate.Seconds(to-from))
		if b.OnGrid() {
			if n := beatsBetween(b, from, to); n > 0 {
				words += fmt.Sprintf(" · %.3g %s", n, beatPlural(n))
			}
		}
		return words
	}
	var all board.Frame
	for _, i := range set {
		all += starts[i+1] - starts[i]
	}
	return fmt.Sprintf("frames each · %d in all, %.2f s", all, b.Rate.Seconds(all))
}

// beatPlural is "beats" but for one, and for parts of one.
func beatPlural(n float64) string {
	if n <= 1 {
		return "beat"
	}
	return "beats"
}

// beatsBetween counts the beats from frame a to frame z, a part of a beat as
// its share.
func beatsBetween(b board.Board, a, z board.Frame) float64 {
	at := func(f board.Frame) float64 {
		n := b.Grid.Near(b.Rate.Seconds(f)-b.SongOffset(), 12)
		return float64(n.Beat) + float64(n.Part)/float64(n.Of)
	}
	return at(z) - at(a)
}

// exposureWords counts the photographs of the panels: "on twos: 58 exposures".
func exposureWords(b board.Board, starts []board.Frame, set []int) string {
	var n board.Frame
	on, same := b.StepOf(set[0]), true
	for _, i := range set {
		step := b.StepOf(i)
		same = same && step == on
		n += (starts[i+1] - starts[i] + board.Frame(step) - 1) / board.Frame(step)
	}
	count := fmt.Sprintf("%d %s", n, plural(int64(n), "exposure"))
	switch {
	case !same || len(set) > 1 || b.Panels[set[0]].Step > 0:
		return count
	case on <= len(stepNames):
		return stepNames[on-1] + " · " + count
	}
	return fmt.Sprintf("on %ds · %s", on, count)
}

// startWords says where a panel begins: "on bar 3, beat 2 · frame 96 · 4.00 s";
// of several, how they are tied to the music.
func startWords(b board.Board, starts []board.Frame, set []int) string {
	if len(set) > 1 {
		anchored := 0
		for _, i := range set {
			if i > 0 && b.OnGrid() && b.Panels[i].Start.Anchored() {
				anchored++
			}
		}
		last := set[len(set)-1]
		words := fmt.Sprintf("%d anchored, %d free", anchored, len(set)-anchored)
		switch anchored {
		case 0:
			words = "all free"
		case len(set):
			words = "all anchored"
		}
		return fmt.Sprintf("%s · frames %d to %d", words, starts[set[0]], starts[last+1]-1)
	}
	i := set[0]
	at := fmt.Sprintf("frame %d · %.2f s", starts[i], b.Rate.Seconds(starts[i]))
	switch s := b.Panels[i].Start; {
	case i == 0:
		return "the film"
	case !s.Anchored() || !b.OnGrid():
		return "free · " + at
	case s.Anchor.Offset != 0:
		off, side := s.Anchor.Offset, "after"
		if off < 0 {
			off, side = -off, "before"
		}
		return fmt.Sprintf("%d %s %s %s · frame %d", off, plural(int64(off), "frame"), side, beatName(b, s.Anchor), starts[i])
	default:
		return "on " + beatName(b, s.Anchor) + " · " + at
	}
}

// fitWords says how far the starts are from the beats nearest to them, of
// several panels the furthest off; fighting is one that is against the music.
func fitWords(b board.Board, starts []board.Frame, set []int) (words string, fighting bool) {
	worst, ms, found := 0, 0.0, false
	half := 500 / b.Rate.Float()
	fight := 0
	for _, i := range set {
		off, ok := b.OffBeat(starts, i)
		if !ok || i == 0 {
			continue
		}
		if fights(off, half) {
			fight++
		}
		if !found || max(off, -off) > max(ms, -ms) {
			worst, ms, found = i, off, true
		}
	}
	switch {
	case !found:
		return "", false
	case len(set) > 1 && fight == 1:
		return fmt.Sprintf("panel %s fights the music, %s", b.Number(worst), distanceWords(b, ms, "late", "early")), true
	case len(set) > 1 && fight > 1:
		return fmt.Sprintf("%d fight the music, most %s, %s", fight, b.Number(worst), distanceWords(b, ms, "late", "early")), true
	case len(set) > 1 && max(ms, -ms) < 0.5:
		return "exact on the music", false
	case len(set) > 1:
		return fmt.Sprintf("furthest off %s, %s", b.Number(worst), distanceWords(b, ms, "late", "early")), false
	}
	near := nearest(b, starts, worst)
	switch {
	case fight > 0:
		return distanceWords(b, ms, "late", "early") + ": fights the music", true
	case max(ms, -ms) > half:
		return distanceWords(b, ms, "after", "before") + " " + beatName(b, near), false
	}
	words = "on the beat"
	if near.Part > 0 {
		words = "on its place between two beats"
	}
	if max(ms, -ms) >= 0.5 {
		words += ", " + distanceWords(b, ms, "late", "early")
	}
	return words, false
}

// distanceWords says how far off a start is: "1.5 frames (62 ms) late".
func distanceWords(b board.Board, ms float64, late, early string) string {
	side := late
	if ms < 0 {
		ms, side = -ms, early
	}
	return fmt.Sprintf("%.1f frames (%.0f ms) %s", ms*b.Rate.Float()/1000, ms, side)
}

// nearest returns the beat nearest to start i, or the part of one where the
// start is anchored to such a part.
func nearest(b board.Board, starts []board.Frame, i int) board.Anchor {
	of := 1
	if s := b.Panels[i].Start; s.Anchored() {
		of = s.Anchor.Of
	}
	return b.Grid.Near(b.Rate.Seconds(starts[i])-b.SongOffset(), of)
}

func plural(n int64, s string) string {
	if n == 1 {
		return s
	}
	return s + "s"
}
