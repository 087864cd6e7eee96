package ui

import (
	"encoding/json"
	"math"
)

// place is where one left off in a film. The film keeps it as a setting.
type place struct {
	At     float64 `json:"at"`     // second of the playhead
	Chosen int     `json:"chosen"` // panel, -1 none
	From   float64 `json:"from"`   // second at the timeline's left edge
	PerSec float64 `json:"perSec"` // units of its width for a second; 0: the whole film is in sight
}

// placeSetting is the setting's key.
const placeSetting = "place"

// keepPlace has the film remember where one is.
func (w *window) keepPlace() {
	p := place{At: w.board.Rate.Seconds(w.at), Chosen: w.chosen}
	if v := &w.timeline.view; !w.timeline.whole {
		p.From, p.PerSec = v.from, v.perSec
	}
	if data, err := json.Marshal(p); err == nil {
		w.desk.SetSetting(placeSetting, string(data))
	}
}

// takePlace goes where one left off, or to the start of a film that knows no
// such place.
func (w *window) takePlace() {
	p := place{}
	if json.Unmarshal([]byte(w.desk.Setting(placeSetting)), &p) != nil || !(math.Abs(p.At) < 1e9) {
		p = place{}
	}
	w.choose(max(0, min(p.Chosen, len(w.board.Panels)-1)))
	if !(p.PerSec >= minPerSec && p.PerSec <= maxPerSec) {
		w.timeline.FitAll()
	} else {
		w.timeline.ShowFrom(p.From, p.PerSec)
	}
	w.goTo(max(0, min(w.board.Rate.Nearest(p.At), w.lastFrame())), false)
}
