package ui

import (
	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// allCommands lists what the window can do, menu by menu.
func (w *window) allCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	panels := func() bool { return len(w.board.Panels) > 0 }
	song := func() bool { return w.board.Song != nil }
	c := []*command{
		{menu: "File", name: "New film", key: fyne.KeyN, mod: ctrl, do: w.newFilm},
		{menu: "File", name: "Open film…", key: fyne.KeyO, mod: ctrl, do: w.openFilmDialog},
		{menu: "File", name: "Films opened lately…", key: fyne.KeyO, mod: ctrlShift, do: w.recentDialog},
		{menu: "File"},
		{menu: "File", name: "Save as…", key: fyne.KeyS, mod: ctrl, do: w.saveAs},
		{menu: "File", name: "Save a copy…", key: fyne.KeyS, mod: ctrlShift, do: w.saveCopy},
		{menu: "File"},
		{menu: "File", name: "Compact…", do: w.compactDialog, can: func() bool { return w.desk.ReadOnly() == nil }},
		{menu: "File", name: "Write as a folder…", do: w.writeFolder, can: panels},
		{menu: "File", name: "Read from a folder…", do: w.readFolder},
		{menu: "File"},
		{menu: "File", name: "Share animatic…", key: fyne.KeyE, mod: ctrl, do: w.shareDialog, can: panels},
	}
	c = append(c, w.shareCommands(panels)...)
	c = append(c, []*command{
		{menu: "File", name: "Lay the timing of a list on the film…", do: w.layTimingDialog, can: func() bool { return panels() && w.desk.ReadOnly() == nil }},
		{menu: "File", name: printSheet, do: w.sheet.printDialog, can: panels},
		{menu: "File", name: sheetAsTable, do: w.sheet.csvDialog, can: panels},
		{menu: "File", name: callSheets, do: w.planPage.printDialog, can: panels},
		{menu: "File", name: takeRemarksName, do: w.pickRemarks, can: func() bool { return w.desk.ReadOnly() == nil }},
		{menu: "File"},
		{menu: "File", name: "Quit", key: fyne.KeyQ, mod: ctrl, do: w.close, quits: true},

		{menu: "Edit", name: "Undo", key: fyne.KeyZ, mod: ctrl, do: func() { w.desk.Undo() },
			can: func() bool { return w.desk.UndoName() != "" }, label: func() string { return named("Undo", w.desk.UndoName()) }},
		{menu: "Edit", name: "Redo", key: fyne.KeyY, mod: ctrl, do: func() { w.desk.Redo() },
			can: func() bool { return w.desk.RedoName() != "" }, label: func() string { return named("Redo", w.desk.RedoName()) }},
		{menu: "Edit", name: "What was done…", looks: true, do: w.historyDialog, can: func() bool { return w.desk.UndoName() != "" || w.desk.RedoName() != "" }},
		{menu: "Edit"},
		{menu: "Edit", name: "Cut panels", key: fyne.KeyX, mod: ctrl, do: w.cutPanels, can: panel},
		{menu: "Edit", name: "Copy panels", looks: true, near: nearPanel, key: fyne.KeyC, mod: ctrl, do: w.copyPanels, can: panel},
		{menu: "Edit", name: "Paste panels", near: nearPanel, key: fyne.KeyV, mod: ctrl, do: w.pastePanels},
		{menu: "Edit"},
		{menu: "Edit", name: "Choose all panels", looks: true, key: fyne.KeyA, mod: ctrl, do: w.chooseAll, can: panels},
		{menu: "Edit", name: "Choose up to the panel before", looks: true, key: fyne.KeyUp, mod: shift, do: func() { w.chooseBy(-1) }, can: panel},
		{menu: "Edit", name: "Choose up to the next panel", looks: true, key: fyne.KeyDown, mod: shift, do: func() { w.chooseBy(1) }, can: panel},
		{menu: "Edit"},
		{menu: "Edit", name: "Write on the card", looks: true, near: nearPanel, key: fyne.KeyReturn, do: w.writeOnCard, can: panel},
		{menu: "Edit", name: "Everything that can be done…", looks: true, key: fyne.KeyK, mod: ctrl, do: w.findCommand},

		{menu: "Panel", name: "Add pictures…", key: fyne.KeyP, mod: ctrl, do: w.addPictures},
		{menu: "Panel", name: "Add a blank panel after", near: nearPanel, key: fyne.KeyB, do: func() { w.addBlank(false) }},
		{menu: "Panel", name: "Add a blank panel before", key: fyne.KeyB, mod: shift, do: func() { w.addBlank(true) }},
		{menu: "Panel", name: "Replace picture…", near: nearPanel, key: fyne.KeyR, mod: ctrl, do: w.replacePicture, can: panel},
		{menu: "Panel"},
		{menu: "Panel", name: "Duplicate", near: nearPanel, key: fyne.KeyD, mod: ctrl, do: w.duplicate, can: panel},
		{menu: "Panel", name: "Split at the playhead", near: nearPanel, key: fyne.KeyS, do: w.split, can: panels},
		{menu: "Panel", name: "Join", near: nearPanel, key: fyne.KeyJ, do: w.join, can: panel},
		{menu: "Panel", name: "Delete: the panel before holds on", near: nearPanel, key: fyne.KeyDelete, do: func() { w.takeOut(board.Delete) }, can: panel},
		{menu: "Panel", name: "Cut out: what comes after moves up", near: nearPanel, key: fyne.KeyX, do: func() { w.takeOut(board.CloseUp) }, can: panel},
		{menu: "Panel"},
		{menu: "Panel", name: "Move earlier", key: fyne.KeyLeft, mod: ctrl, do: func() { w.movePanel(-1) }, can: panel},
		{menu: "Panel", name: "Move later", key: fyne.KeyRight, mod: ctrl, do: func() { w.movePanel(1) }, can: panel},
		{menu: "Panel"},
	}...)
	for n, name := range append([]string{"as the film"}, stepNames...) {
		c = append(c, &command{menu: "Panel", name: "Exposed " + name, do: func() {
			w.onSelection(func(set []int) board.Edit { return board.SetPanelStep(set, n) })
		}, can: panel, ticked: func() bool { return panel() && w.board.Panels[w.chosen].Step == n }})
	}
	c = append(c, w.stillCommand(), w.noteCommand())
	c = append(c, w.checkCommands()...)
	c = append(c, w.timingCommands()...)
	c = append(c, w.shotCommands()...)
	c = append(c, w.remarkCommands()...)
	c = append(c, w.frameCommands()...)
	c = append(c, w.letterCommands()...)
	c = append(c, w.motionCommands()...)
	c = append(c, w.shapeCommands()...)
	c = append(c, w.drawCommands()...)
	c = append(c, []*command{
		{menu: "Music", name: "Bring in a song…", key: fyne.KeyM, mod: ctrl, do: w.openSong},
		{menu: "Music", name: "The song: place, trims, fades, gain…", do: w.songDialog, can: song},
		{menu: "Music", name: "Begin the song at the playhead", near: nearMusic, do: w.songHere, can: song},
		{menu: "Music", name: "Take the song away", do: func() { w.do(board.SetSong(nil, board.Grid{})) }, can: song},
		{menu: "Music"},
	}...)
	for _, t := range append([]board.Target{""}, board.Targets...) {
		c = append(c, &command{menu: "Music", name: "A dragged start lands on " + targetName(t), looks: true,
			do:     func() { w.timeline.target = t; refreshMenus(w.menu, w.commands) },
			ticked: func() bool { return w.timeline.target == t }})
	}
	c = append(c, w.beatCommands()...)
	return append(c, w.playCommands()...)
}

func (w *window) playCommands() []*command {
	play := append(append(w.transportCommands(), w.clickCommands()...), []*command{
		{menu: "View", name: "Closer", key: fyne.KeyPlus, do: func() { w.zoomBy(1.5) }},
		{menu: "View", name: "Further away", key: fyne.KeyMinus, do: func() { w.zoomBy(1 / 1.5) }},
		{menu: "View", name: "The whole film", key: fyne.KeyF, do: w.fitAll},
		{menu: "View", name: "The chosen panels", key: fyne.KeyF, mod: shift, do: w.fitSelection, can: func() bool { return w.chosen >= 0 }},
		{menu: "View"},
		{menu: "View", name: "All onsets", do: func() { w.showOnsets(0) }, ticked: func() bool { return w.timeline.view.onsets == 0 }},
		{menu: "View", name: "Strong onsets", do: func() { w.showOnsets(strongOnset) }, ticked: func() bool { return w.timeline.view.onsets == strongOnset }},
		{menu: "View", name: "No onsets", do: func() { w.showOnsets(noOnsets) }, ticked: func() bool { return w.timeline.view.onsets == noOnsets }},
	}...)
	play = append(play, w.aidCommands()...)
	play = append(play, w.screenCommands()...)
	play = append(append(append(play, w.pages.commands()...), append(w.wallCommands(), w.sheetCommands()...)...), w.faces.commands()...)
	return append(append(play, w.lookCommands()...), []*command{
		{menu: "Help", name: "Keys", key: fyne.KeyF1, do: w.showKeys},
		{menu: "Help", name: "Change the keys…", do: func() { w.keysDialog() }},
		{menu: "Help", name: "About Stillbeat", do: w.showAbout},
	}...)
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
