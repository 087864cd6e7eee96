package ui

import (
	"encoding/json"
	"fmt"

	"stillbeat/board"
)

// marksSetting is the setting of the film that keeps the In and Out marks.
const marksSetting = "marks"

// keptMarks are the marks as the film keeps them: seconds, 0 for none.
type keptMarks struct {
	In  float64 `json:"in"`
	Out float64 `json:"out"`
}

// setMark puts the In or the Out mark at the playhead; one that the other
// would lie before or on takes it away.
func (w *window) setMark(out bool) {
	t := &w.transport
	at := w.board.Rate.Seconds(w.at)
	if out && w.at == 0 {
		w.foot.Say("Nothing lies before the first frame: the Out mark stands further on.")
		return
	}
	if out {
		t.out = at
		if t.in >= at {
			t.in = 0
		}
	} else {
		t.in = at
		if t.out <= at {
			t.out = 0
		}
	}
	w.showMarks()
	s := markedSpan(w.board.Rate, t.in, t.out, w.lastFrame())
	if s.empty() {
		w.foot.Say("The range begins where the film does: the Out mark says where it ends.")
		return
	}
	w.foot.Say(fmt.Sprintf("Marked: frames %d to %d, %s.", s.from, s.to-1, w.board.Rate.Timecode(s.to-s.from)))
}

// clearMarks takes both marks away.
func (w *window) clearMarks() {
	w.transport.in, w.transport.out = 0, 0
	w.showMarks()
}

// showMarks shows the marks, has the film keep them, and the sound follow.
func (w *window) showMarks() {
	t := &w.transport
	w.timeline.SetMarks(t.in, t.out)
	if data, err := json.Marshal(keptMarks{t.in, t.out}); err == nil {
		w.desk.SetSetting(marksSetting, string(data))
	}
	w.showTransport()
}

// takeMarks takes the marks of a film that was opened.
func (w *window) takeMarks() {
	var m keptMarks
	sane := func(v float64) bool { return v >= 0 && v < board.MaxSeconds }
	if json.Unmarshal([]byte(w.desk.Setting(marksSetting)), &m) != nil || !sane(m.In) || !sane(m.Out) || m.Out > 0 && m.Out <= m.In {
		m = keptMarks{}
	}
	w.transport.in, w.transport.out = m.In, m.Out
	w.timeline.SetMarks(m.In, m.Out)
}

// SetMarks shows the In and Out marks, seconds of film, 0 for none.
func (t *timeline) SetMarks(in, out float64) {
	t.view.in, t.view.out = in, out
	t.Refresh()
}

// paintMarks draws the marked range under the ruler of time, with a corner at
// each mark that points into it.
func (v *timelineView) paintMarks(p pen) {
	if v.in == 0 && v.out == 0 {
		return
	}
	from, to := v.x(v.in), v.width
	if v.out > 0 {
		to = min(to, v.x(v.out))
	}
	const y = timeRulerH
	p.fill(max(0, from), y-3, to, y, straw)
	p.fill(max(0, from), y-1, to, y, ink)
	if v.in > 0 {
		p.shape(ink, from, y, from, y-11, from+7, y)
	}
	if v.out > 0 {
		x := v.x(v.out)
		p.shape(ink, x, y, x, y-11, x-7, y)
	}
}

// paintMarksBelow draws the marked range on the overview, where x maps
// seconds.
func (v *timelineView) paintMarksBelow(p pen, x func(float64) float64) {
	if v.in == 0 && v.out == 0 {
		return
	}
	from, to := x(v.in), x(v.length())
	if v.out > 0 {
		to = x(min(v.out, v.length()))
	}
	y := v.overviewTop() + 3
	p.fill(from, y, to, y+3, straw)
	p.fill(from, y+2, to, y+3, ink)
	p.fill(from-0.75, y, from+0.75, v.height-3, ink)
	p.fill(to-0.75, y, to+0.75, v.height-3, ink)
}
