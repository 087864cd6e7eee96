package ui

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// speeds are those the film can be played at, of its own.
var speeds = []float64{0.25, 0.5, 0.75, 1, 1.25, 1.5, 2}

// speedWords writes a speed: "0.5×".
func speedWords(s float64) string { return strconv.FormatFloat(s, 'f', -1, 64) + "×" }

// setSpeed sets the speed, while it plays too.
func (w *window) setSpeed(s float64) {
	w.transport.speed = s
	w.showTransport()
	words := "the sound keeps its pitch"
	if w.transport.kept.Bends {
		words = "the pitch of the sound goes with it"
	}
	if s == 1 {
		w.foot.Say("Playing at the film's own speed.")
	} else {
		w.foot.Say(fmt.Sprintf("Playing at %s of the film's speed; %s.", speedWords(s), words))
	}
}

// stepSpeed goes to the next slower or faster speed.
func (w *window) stepSpeed(by int) {
	i := slices.Index(speeds, w.transport.speed) + by
	w.setSpeed(speeds[max(0, min(i, len(speeds)-1))])
}

// followMode says how the timeline scrolls with the playhead while it plays.
type followMode int

const (
	followPage   followMode = iota // a page on when it leaves
	followSmooth                   // it stays in the middle
	followNot
	followModes // how many there are
)

var followNames = [followModes]string{"The timeline follows by pages", "The timeline glides under the playhead", "The timeline stays where it is"}

// keptTransport is what the program keeps of how films are played.
type keptTransport struct {
	Bends  bool       `json:"bends"`  // the pitch goes with the speed
	Silent bool       `json:"silent"` // scrubbing makes no sound
	Follow followMode `json:"follow"`
}

// transportKey is where the program keeps it.
const transportKey = "transport"

// takeTransport sets all up as it was left.
func (w *window) takeTransport() {
	t := transport{speed: 1}
	if json.Unmarshal([]byte(w.app.Preferences().String(transportKey)), &t.kept) != nil || t.kept.Follow < 0 || t.kept.Follow >= followModes {
		t.kept = keptTransport{}
	}
	w.transport = t
	w.timeline.follow = t.kept.Follow
}

// keepTransport has the program remember it, and everything show it.
func (w *window) keepTransport() {
	w.timeline.follow = w.transport.kept.Follow
	if data, err := json.Marshal(w.transport.kept); err == nil {
		w.app.Preferences().SetString(transportKey, string(data))
	}
	w.showTransport()
}

// showTransport brings deck, menus and sound in line with how it is played.
func (w *window) showTransport() {
	w.replan()
	w.deck.PresentTransport(w.transport)
	refreshMenus(w.menu, w.commands)
}

// menuOf opens the entries of the commands with these names under a button.
func (w *window) menuOf(under fyne.CanvasObject, names []string) {
	menu := fyne.NewMenu("")
	for _, name := range names {
		if c := w.keys.named[name]; c != nil {
			menu.Items = append(menu.Items, c.item())
		}
	}
	widget.ShowPopUpMenuAtRelativePosition(menu, w.win.Canvas(), fyne.NewPos(0, under.Size().Height), under)
}
