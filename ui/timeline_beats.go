package ui

import (
	"fmt"

	"stillbeat/board"
)

// beatAt returns the beat that can be grabbed at x on the ruler of beats, -1
// where there is none or they are too crowded to be told apart.
func (v *timelineView) beatAt(x float64) int {
	if !v.board.OnGrid() {
		return -1
	}
	if beatW, _ := v.spacing(); beatW < 9 {
		return -1
	}
	offset := v.board.SongOffset()
	i := v.board.Grid.Near(v.sec(x)-offset, 1).Beat
	if i < 0 || i >= len(v.board.Grid.Beats) {
		return -1
	}
	if d := v.x(offset+v.board.Grid.Beats[i].Time) - x; d > 4 || d < -4 {
		return -1
	}
	return i
}

func (t *timeline) grabBeat(i int) {
	t.drag = dragState{mode: dragBeat, start: i, before: t.view.board}
}

// moveBeat shows the grabbed beat at x, with the starts that are anchored to
// it.
func (t *timeline) moveBeat(x float64) {
	d, v := &t.drag, &t.view
	b := d.before
	room, err := b.Grid.BeatRoom(d.start)
	if err != nil {
		return
	}
	to := min(max(v.sec(x)-b.SongOffset(), room.From), room.To)
	shown, err := board.MoveBeat(d.start, to).Apply(b)
	if err != nil {
		return
	}
	d.time, d.moved = to, true
	v.board, v.starts, v.beatHover = shown, shown.Starts(), d.start+1
	t.Refresh()
	if t.OnHint != nil {
		t.OnHint(fmt.Sprintf("Beat %d at %.3f s of the song (%+.0f ms)", d.start+1, to, 1000*(to-b.Grid.Beats[d.start].Time)))
	}
}

// beatHint describes the beat under the pointer.
func (t *timeline) beatHint(i int) string {
	b := t.view.board
	beat := b.Grid.Beats[i]
	how := ""
	if beat.Hand {
		how = ", set by hand"
	}
	frame := b.Rate.Nearest(b.SongOffset() + beat.Time)
	off := 1000 * (b.Rate.Seconds(frame) - b.SongOffset() - beat.Time)
	return fmt.Sprintf("Beat %d, %s, at %.3f s%s; the nearest frame is %d, %+.0f ms off. Drag to move it.",
		i+1, beatName(b, board.Anchor{Beat: i, Of: 1}), beat.Time, how, frame, off)
}
