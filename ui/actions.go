package ui

import (
	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// allCommands lists what the window can do, menu by menu.
func (w *window) allCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	start := func() bool { return w.chosen > 0 }
	panels := func() bool { return len(w.board.Panels) > 0 }
	grid := func() bool { return w.board.OnGrid() }
	song := func() bool { return w.board.Song != nil }
	c := []*command{
		{menu: "File", name: "New film", key: fyne.KeyN, mod: ctrl, do: w.newFilm},
		{menu: "File", name: "Open film…", key: fyne.KeyO, mod: ctrl, do: w.openFilmDialog},
		{menu: "File", name: "Films opened lately…", key: fyne.KeyO, mod: ctrlShift, do: w.recentDialog},
		{menu: "File"},
		{menu: "File", name: "Save as…", key: fyne.KeyS, mod: ctrl, do: w.saveAs},
		{menu: "File", name: "Save a copy…", key: fyne.KeyS, mod: ctrlShift, do: w.saveCopy},
		{menu: "File"},
		{menu: "File", name: "Share animatic…", key: fyne.KeyE, mod: ctrl, do: w.shareDialog, can: panels},
		{menu: "File"},
		{menu: "File", name: "Quit", key: fyne.KeyQ, mod: ctrl, do: w.close, quits: true},

		{menu: "Edit", name: "Undo", key: fyne.KeyZ, mod: ctrl, do: func() { w.desk.Undo() },
			can: func() bool { return w.desk.UndoName() != "" }, label: func() string { return named("Undo", w.desk.UndoName()) }},
		{menu: "Edit", name: "Redo", key: fyne.KeyY, mod: ctrl, do: func() { w.desk.Redo() },
			can: func() bool { return w.desk.RedoName() != "" }, label: func() string { return named("Redo", w.desk.RedoName()) }},
		{menu: "Edit"},
		{menu: "Edit", name: "Write on the card", key: fyne.KeyReturn, do: func() { w.card.Focus(w.win.Canvas()) }, can: panel},

		{menu: "Panel", name: "Add pictures…", key: fyne.KeyP, mod: ctrl, do: w.addPictures},
		{menu: "Panel", name: "Add blank panel", key: fyne.KeyB, do: w.addBlank},
		{menu: "Panel", name: "Replace picture…", key: fyne.KeyR, mod: ctrl, do: w.replacePicture, can: panel},
		{menu: "Panel"},
		{menu: "Panel", name: "Duplicate", key: fyne.KeyD, mod: ctrl, do: w.duplicate, can: panel},
		{menu: "Panel", name: "Split at playhead", key: fyne.KeyS, do: w.split, can: panels},
		{menu: "Panel", name: "Delete", key: fyne.KeyDelete, do: w.deletePanel, can: panel},
		{menu: "Panel"},
		{menu: "Panel", name: "Move earlier", key: fyne.KeyLeft, mod: ctrl, do: func() { w.movePanel(-1) }, can: panel},
		{menu: "Panel", name: "Move later", key: fyne.KeyRight, mod: ctrl, do: func() { w.movePanel(1) }, can: panel},
		{menu: "Panel"},
		{menu: "Panel", name: "Start a frame earlier", key: fyne.KeyComma, do: func() { w.nudge(-1) }, can: start},
		{menu: "Panel", name: "Start a frame later", key: fyne.KeyPeriod, do: func() { w.nudge(1) }, can: start},
		{menu: "Panel", name: "Start a beat earlier", key: fyne.KeyComma, mod: shift, do: func() { w.nudgeBeat(-1) }, can: start},
		{menu: "Panel", name: "Start a beat later", key: fyne.KeyPeriod, mod: shift, do: func() { w.nudgeBeat(1) }, can: start},
		{menu: "Panel", name: "Anchor to the music or set free", key: fyne.KeyA, do: w.toggleAnchor, can: start},

		{menu: "Music", name: "Bring in a song…", key: fyne.KeyM, mod: ctrl, do: w.openSong},
		{menu: "Music", name: "The song: place, trims, fades, gain…", do: w.songDialog, can: song},
		{menu: "Music", name: "Begin the song at the playhead", do: w.songHere, can: song},
		{menu: "Music", name: "Take the song away", do: func() { w.do(board.SetSong(nil, board.Grid{})) }, can: song},
		{menu: "Music"},
	}
	for _, t := range board.Targets {
		key, mod := fyne.KeyName(""), fyne.KeyModifier(0)
		if t == board.ToBeat {
			key, mod = fyne.KeyB, ctrl
		}
		c = append(c, &command{menu: "Music", name: "Snap all to " + targetName(t), key: key, mod: mod,
			do: func() { w.snapAll(t) }, can: func() bool { return panels() && grid() }})
	}
	c = append(c, &command{menu: "Music"})
	for _, t := range append([]board.Target{""}, board.Targets...) {
		c = append(c, &command{menu: "Music", name: "A dragged start lands on " + targetName(t),
			do:     func() { w.timeline.target = t; refreshMenus(w.menu, w.commands) },
			ticked: func() bool { return w.timeline.target == t }})
	}
	c = append(c, w.beatCommands()...)
	return append(c, w.playCommands()...)
}

func (w *window) playCommands() []*command {
	return []*command{
		{menu: "Play", name: "Play or pause", key: fyne.KeySpace, do: w.togglePlay},
		{menu: "Play", name: "Click on the beats", key: fyne.KeyK, do: w.toggleClick,
			can: func() bool { return w.board.OnGrid() && w.board.Song != nil }, ticked: func() bool { return w.clicking }},
		{menu: "Play"},
		{menu: "Play", name: "To the start", key: fyne.KeyHome, do: func() { w.seek(0) }},
		{menu: "Play", name: "To the end", key: fyne.KeyEnd, do: func() { w.seek(w.lastFrame()) }},
		{menu: "Play", name: "A frame back", key: fyne.KeyLeft, do: func() { w.seek(w.at - 1) }},
		{menu: "Play", name: "A frame on", key: fyne.KeyRight, do: func() { w.seek(w.at + 1) }},
		{menu: "Play", name: "A beat back", key: fyne.KeyLeft, mod: shift, do: func() { w.stepBeat(-1) }},
		{menu: "Play", name: "A beat on", key: fyne.KeyRight, mod: shift, do: func() { w.stepBeat(1) }},
		{menu: "Play", name: "To the panel before", key: fyne.KeyUp, do: func() { w.stepPanel(-1) }},
		{menu: "Play", name: "To the next panel", key: fyne.KeyDown, do: func() { w.stepPanel(1) }},

		{menu: "View", name: "Closer", key: fyne.KeyPlus, do: func() { w.timeline.ZoomBy(1.5) }},
		{menu: "View", name: "Further away", key: fyne.KeyMinus, do: func() { w.timeline.ZoomBy(1 / 1.5) }},
		{menu: "View", name: "The whole film", key: fyne.KeyF, do: w.timeline.FitAll},
		{menu: "View"},
		{menu: "View", name: "All onsets", do: func() { w.showOnsets(0) }, ticked: func() bool { return w.timeline.view.onsets == 0 }},
		{menu: "View", name: "Strong onsets", do: func() { w.showOnsets(strongOnset) }, ticked: func() bool { return w.timeline.view.onsets == strongOnset }},
		{menu: "View", name: "No onsets", do: func() { w.showOnsets(2) }, ticked: func() bool { return w.timeline.view.onsets > 1 }},

		{menu: "Help", name: "Keys", key: fyne.KeyF1, do: w.showKeys},
		{menu: "Help", name: "About Stillbeat", do: w.showAbout},
	}
}

func named(verb, what string) string {
	if what == "" {
		return verb
	}
	return verb + ": " + what
}

func targetName(t board.Target) string {
	switch t {
	case "":
		return "any frame"
	case board.ToHalf:
		return "half beats"
	case board.ToThird:
		return "thirds of a beat"
	case board.ToQuarter:
		return "quarters of a beat"
	}
	return string(t) + "s"
}
