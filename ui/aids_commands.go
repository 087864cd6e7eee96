package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stillbeat/board/picture"
)

// clickCommands is the part of the Play menu on the click and the count-in.
func (w *window) clickCommands() []*command {
	const group = "Click and count-in"
	beats := func() bool { return w.board.OnGrid() }
	c := []*command{
		{menu: "Play", group: group, name: "Louder click", do: func() { w.stepClick(clickStep) }, can: func() bool { return w.aids.Click < loudestClick }},
		{menu: "Play", group: group, name: "Softer click", do: func() { w.stepClick(-clickStep) }, can: func() bool { return w.aids.Click > softestClick }},
		{menu: "Play", group: group, name: "Usual click", do: func() { w.stepClick(-w.aids.Click) }, can: func() bool { return w.aids.Click != 0 }},
		{menu: "Play", group: group},
	}
	for bars, name := range []string{"No count-in", "Count-in: one bar", "Count-in: two bars"} {
		c = append(c, &command{menu: "Play", group: group, name: name, can: beats,
			do: func() { w.aid(func(a *aids) { a.CountIn = bars }) }, ticked: func() bool { return w.aids.CountIn == bars }})
	}
	return c
}

// stepClick makes the click so many dB louder.
func (w *window) stepClick(by int) {
	w.aid(func(a *aids) { a.Click = max(softestClick, min(a.Click+by, loudestClick)) })
	if w.aids.Click == 0 {
		w.foot.Say("The click is as loud as usual.")
		return
	}
	w.foot.Say(fmt.Sprintf("The click is at %+d dB.", w.aids.Click))
}

// toggleFlash has the border light on the beats, with a caution, or no more.
func (w *window) toggleFlash() {
	w.aid(func(a *aids) { a.Flash = !a.Flash })
	if w.aids.Flash {
		w.foot.Say("The border lights on the beats, three times a second at most: flashing can harm people with photosensitive epilepsy.")
	}
}

// aidCommands is the part of the View menu on what stands over the picture.
func (w *window) aidCommands() []*command {
	const beside, words, mask = "Over the picture", "Words over the picture", "Mask on the picture"
	toggle := func(group, name string, on func(*aids) *bool) *command {
		return &command{menu: "View", group: group, name: name, ticked: func() bool { return *on(&w.aids) },
			do: func() { w.aid(func(a *aids) { *on(a) = !*on(a) }) }}
	}
	c := []*command{
		{menu: "View"},
		{menu: "View", name: seeRates, key: fyne.KeyV, do: w.seeNextRate, can: func() bool { return len(w.board.Panels) > 0 },
			ticked: func() bool { return w.seen != nil }, label: w.seenLabel},
		{menu: "View", name: "Two frame rates side by side", key: fyne.KeyV, mod: shift, do: w.togglePair,
			can: func() bool { return len(w.board.Panels) > 0 || w.paired }, ticked: func() bool { return w.paired }},
		toggle(beside, "Dot on the beats", func(a *aids) *bool { return &a.Dot }),
		{menu: "View", group: beside, name: "Flash of the border on the beats", do: w.toggleFlash, ticked: func() bool { return w.aids.Flash }},
		{menu: "View", group: beside},
		toggle(beside, "Onion: the panels before and after", func(a *aids) *bool { return &a.Onion }),
		{menu: "View", group: beside},
		toggle(beside, "Action safe area", func(a *aids) *bool { return &a.Action }),
		toggle(beside, "Title safe area", func(a *aids) *bool { return &a.Title }),
		toggle(beside, "Thirds", func(a *aids) *bool { return &a.Thirds }),
		{menu: "View", group: beside},
		{menu: "View", group: beside, name: "Nothing over the picture", do: func() { w.aid(func(a *aids) { *a = a.heard() }) },
			can: func() bool { return w.aids != w.aids.heard() }},
		toggle(words, "Words: panel number", func(a *aids) *bool { return &a.Words.Number }),
		toggle(words, "Words: title", func(a *aids) *bool { return &a.Words.Title }),
		toggle(words, "Words: timecode", func(a *aids) *bool { return &a.Words.Timecode }),
		toggle(words, "Words: frame number", func(a *aids) *bool { return &a.Words.Frame }),
		toggle(words, "Words: exposure", func(a *aids) *bool { return &a.Words.Exposure }),
		toggle(words, "Words: bar and beat", func(a *aids) *bool { return &a.Words.Beat }),
	}
	for _, s := range append([]picture.Shape{{}}, picture.Shapes...) {
		name := "Mask: " + s.Name
		if s.Name == "" {
			name = "No mask"
		}
		c = append(c, &command{menu: "View", group: mask, name: name, ticked: func() bool { return w.aids.Mask == s.Name },
			do: func() { w.aid(func(a *aids) { a.Mask = s.Name }) }})
	}
	return c
}
