package ui

import "fyne.io/fyne/v2"

// transportCommands are those of playing: the Play menu, the Loop menu and the
// Speed menu.
func (w *window) transportCommands() []*command {
	t := &w.transport
	panel := func() bool { return w.chosen >= 0 }
	bars := func() bool { return w.board.OnGrid() }
	marked := func() bool { return t.in > 0 || t.out > 0 }
	toggle := func(v *bool) func() { return func() { *v = !*v; w.keepTransport() } }
	c := []*command{
		{menu: "Play", name: "Play or pause", key: fyne.KeySpace, do: w.togglePlay},
		{menu: "Play", name: "Stop: back to where it began", key: fyne.KeySpace, mod: shift, do: w.stopBack},
		{menu: "Play", name: "Play around the cut", near: nearPanel, key: fyne.KeyC, do: w.playAroundCut, can: panel},
		{menu: "Play", name: playPanelName, near: nearPanel, key: fyne.KeyC, mod: shift, do: w.playPanel, can: panel},
		{menu: "Play", name: "Click on the beats", key: fyne.KeyK, do: w.toggleClick,
			can: func() bool { return w.board.OnGrid() && w.board.Song != nil }, ticked: func() bool { return w.clicking }},
		{menu: "Play"},
		{menu: "Play", name: "To the start", key: fyne.KeyHome, do: func() { w.seek(0) }},
		{menu: "Play", name: "To the end", key: fyne.KeyEnd, do: func() { w.seek(w.lastFrame()) }},
		{menu: "Play", name: "A frame back", key: fyne.KeyLeft, do: func() { w.seek(w.at - 1) }},
		{menu: "Play", name: "A frame on", key: fyne.KeyRight, do: func() { w.seek(w.at + 1) }},
		{menu: "Play", name: "A beat back", key: fyne.KeyLeft, mod: shift, do: func() { w.stepBeat(-1) }},
		{menu: "Play", name: "A beat on", key: fyne.KeyRight, mod: shift, do: func() { w.stepBeat(1) }},
		{menu: "Play", name: "A bar back", key: fyne.KeyLeft, mod: ctrlShift, do: func() { w.stepBar(-1) }, can: bars},
		{menu: "Play", name: "A bar on", key: fyne.KeyRight, mod: ctrlShift, do: func() { w.stepBar(1) }, can: bars},
		{menu: "Play", name: "A second back", do: func() { w.stepSecond(-1) }},
		{menu: "Play", name: "A second on", do: func() { w.stepSecond(1) }},
		{menu: "Play", name: "To the panel before", key: fyne.KeyUp, do: func() { w.stepPanel(-1) }},
		{menu: "Play", name: "To the next panel", key: fyne.KeyDown, do: func() { w.stepPanel(1) }},
		{menu: "Play"},
		{menu: "Play", name: "Sound while scrubbing and stepping", do: toggle(&t.kept.Silent), ticked: func() bool { return !t.kept.Silent }},
		{menu: "Play", name: "Look for a sound device again", do: w.lookForSound, can: func() bool { return w.player.Trouble() != nil }},

		{menu: "Loop", name: "Loop on or off", key: fyne.KeyP, do: w.toggleLoop, ticked: func() bool { return t.loop != loopNone }},
		{menu: "Loop"},
	}
	can := map[loopKind]func() bool{loopChosen: panel, loopBar: bars, loopMarked: marked}
	for k := range loopKinds {
		c = append(c, &command{menu: "Loop", name: loopNames[k], do: func() { w.setLoop(k) }, can: can[k], ticked: func() bool { return t.loop == k }})
	}
	c = append(c, []*command{
		{menu: "Loop"},
		{menu: "Loop", name: "In mark at the playhead", key: fyne.KeyI, do: func() { w.setMark(false) }},
		{menu: "Loop", name: "Out mark at the playhead", key: fyne.KeyO, do: func() { w.setMark(true) }},
		{menu: "Loop", name: "Take the marks away", do: w.clearMarks, can: marked},

		{menu: "Speed", name: "Slower", key: fyne.KeyDown, mod: ctrl, do: func() { w.stepSpeed(-1) }, can: func() bool { return t.speed > speeds[0] }},
		{menu: "Speed", name: "Faster", key: fyne.KeyUp, mod: ctrl, do: func() { w.stepSpeed(1) }, can: func() bool { return t.speed < speeds[len(speeds)-1] }},
		{menu: "Speed"},
	}...)
	for _, s := range speeds {
		c = append(c, &command{menu: "Speed", name: speedName(s), do: func() { w.setSpeed(s) }, ticked: func() bool { return t.speed == s }})
	}
	return append(c, []*command{
		{menu: "Speed"},
		{menu: "Speed", name: "The pitch goes with the speed", do: toggle(&t.kept.Bends), ticked: func() bool { return t.kept.Bends }},
	}...)
}

// speedName is what the command for a speed is called.
func speedName(s float64) string { return "Play at " + speedWords(s) }

// screenCommands is the part of the View menu on following the playhead and on
// other screens.
func (w *window) screenCommands() []*command {
	t := &w.transport
	c := []*command{{menu: "View"}}
	for m := range followModes {
		c = append(c, &command{menu: "View", name: followNames[m], do: func() { t.kept.Follow = m; w.keepTransport() },
			ticked: func() bool { return t.kept.Follow == m }})
	}
	return append(c, []*command{
		{menu: "View"},
		{menu: "View", name: "Full screen", key: fyne.KeyF11, do: w.toggleFull, ticked: func() bool { return w.full != nil }},
		{menu: "View", name: "Second window with the picture", key: fyne.KeyF11, mod: shift, do: w.toggleSecond, ticked: func() bool { return w.second != nil }},
	}...)
}
