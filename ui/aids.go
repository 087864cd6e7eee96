package ui

import (
	"encoding/json"
	"slices"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// aids are what helps to look and to listen, beside the film itself. The
// program keeps them in its own settings; nothing that is shared has them.
type aids struct {
	Click   int          `json:"click"`   // level of the click, dB above the usual
	CountIn int          `json:"countIn"` // bars
	Dot     bool         `json:"dot"`     // on the beats
	Flash   bool         `json:"flash"`   // of the picture's border, on the beats
	Words   board.BurnIn `json:"words"`
	Onion   bool         `json:"onion"` // the panels before and after
	guides
}

// guides are lines and masks over the picture.
type guides struct {
	Action bool   `json:"action"` // safe areas
	Title  bool   `json:"title"`
	Thirds bool   `json:"thirds"`
	Mask   string `json:"mask"` // name of a shape, empty for none
}

// Limits of the aids.
const (
	softestClick = -24 // dB
	loudestClick = 3   // the bar's tone stays below full scale
	clickStep    = 3
	mostCountIn  = 2
)

// aidsKey is where the program keeps them.
const aidsKey = "aids"

// readAids reads aids that were kept; what makes no sense is left out.
func readAids(data string) aids {
	var a aids
	if json.Unmarshal([]byte(data), &a) != nil {
		return aids{}
	}
	a.Click = max(softestClick, min(a.Click, loudestClick))
	a.CountIn = max(0, min(a.CountIn, mostCountIn))
	if shapeNamed(a.Mask) == 0 {
		a.Mask = ""
	}
	return a
}

// heard returns the aids with nothing over the picture.
func (a aids) heard() aids { return aids{Click: a.Click, CountIn: a.CountIn} }

// shapeNamed returns width by height of a shape, 0 for none.
func shapeNamed(name string) float64 {
	i := slices.IndexFunc(picture.Shapes, func(s picture.Shape) bool { return s.Name == name })
	if i < 0 {
		return 0
	}
	return picture.Shapes[i].Ratio
}

// aid changes the aids, and keeps and shows them.
func (w *window) aid(change func(*aids)) {
	change(&w.aids)
	w.takeAids()
	if data, err := json.Marshal(w.aids); err == nil {
		w.app.Preferences().SetString(aidsKey, string(data))
	}
}

// takeAids brings sound and picture in line with the aids.
func (w *window) takeAids() {
	w.clickLevel.Set(w.aids.Click)
	w.showFrame(w.at)
	refreshMenus(w.menu, w.commands)
}
