package ui

import (
	"fmt"

	"stillbeat/board"
)

// landingWords says where a start stands: "bar 3, beat 2 · frame 96 (-4)".
func landingWords(b board.Board, s board.Start, f, moved board.Frame) string {
	place := "free"
	if s.Anchored() {
		place = beatName(b, s.Anchor)
	}
	return fmt.Sprintf("%s · frame %d (%+d)", place, f, moved)
}

// beatName names a place in the music: "bar 3, beat 2 + 1/3".
func beatName(b board.Board, a board.Anchor) string {
	bar, beat := b.Grid.Place(a.Beat)
	name := fmt.Sprintf("beat %d", beat)
	if bar > 0 {
		name = fmt.Sprintf("bar %d, beat %d", bar, beat)
	}
	if a.Part > 0 {
		name += fmt.Sprintf(" + %d/%d", a.Part, a.Of)
	}
	return name
}

// hint describes the start under the pointer.
func (t *timeline) hint(i int) string {
	b := t.view.board
	if i < 1 || i > len(b.Panels) {
		return ""
	}
	what, s := "The film ends", b.End
	if i < len(b.Panels) {
		what, s = fmt.Sprintf("Panel %s starts", t.view.numbers[i]), b.Panels[i].Start
	}
	place := "freely"
	if s.Anchored() && b.OnGrid() {
		place = "on " + beatName(b, s.Anchor)
		if s.Anchor.Offset != 0 {
			place += fmt.Sprintf(" %+d frames", s.Anchor.Offset)
		}
	}
	return fmt.Sprintf("%s %s, frame %d. Drag to move it; Shift lets go of the beats.", what, place, t.view.starts[i])
}
