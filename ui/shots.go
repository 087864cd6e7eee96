package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// shotCommands is the menu of shots, scenes, their numbers, and markers.
func (w *window) shotCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	opens := func() bool { return panel() && w.board.Opening(w.chosen) != board.GoesOn }
	later := func() bool { return w.chosen > 0 }
	markers := func() bool { return len(w.board.Markers) > 0 }
	open := func(o board.Opening) func() {
		return func() { w.onSelection(func(set []int) board.Edit { return board.Open(set[:1], o) }) }
	}
	c := []*command{
		{menu: "Shots", name: "A new shot begins here", near: nearPanel, key: fyne.KeyN, do: open(board.OpensShot), can: later},
		{menu: "Shots", name: "A new scene begins here", near: nearPanel, key: fyne.KeyN, mod: shift, do: open(board.OpensScene), can: later},
		{menu: "Shots", name: "One shot with the panel before", near: nearPanel, key: fyne.KeyU, do: func() {
			w.onSelection(func(set []int) board.Edit { return board.Open(set, board.GoesOn) })
		}, can: later},
		{menu: "Shots", name: "Heading of the shot or scene…", do: w.headingDialog, can: opens},
		{menu: "Shots", name: "Choose the whole shot", looks: true, key: fyne.KeyW, mod: shift, do: w.chooseShot, can: panel},
		{menu: "Shots"},
		{menu: "Shots", name: "Fix the numbers in use", do: func() { w.onSelection(board.FixNumbers) }, can: panel},
		{menu: "Shots", name: "Count the numbers again", do: func() { w.onSelection(board.CountNumbers) }, can: panel},
		{menu: "Shots", name: "Number of this panel…", near: nearPanel, do: w.numberDialog, can: panel},
		{menu: "Shots"},
	}
	for _, t := range board.Passages {
		c = append(c, &command{menu: "Shots", name: "Into this panel by a " + passageName(t), do: func() {
			w.onSelection(func(set []int) board.Edit {
				return board.SetTransition(set, usualTransition(t, w.board.Rate))
			})
		}, can: panel, ticked: func() bool { return panel() && w.board.Panels[w.chosen].Into.Kind == t }})
	}
	return append(c, []*command{
		{menu: "Shots"},
		{menu: "Shots", name: "Put a marker at the playhead", near: nearMusic, key: fyne.KeyM, do: w.addMarker},
		{menu: "Shots", name: "Marker at the playhead…", near: nearMusic, key: fyne.KeyM, mod: shift, do: w.markerDialog, can: markers},
		{menu: "Shots", name: "Take the nearest marker out", near: nearMusic, do: w.removeMarker, can: markers},
		{menu: "Shots", name: "To the marker before", looks: true, key: fyne.KeyPageUp, do: func() { w.stepMarker(-1) }, can: markers},
		{menu: "Shots", name: "To the next marker", looks: true, key: fyne.KeyPageDown, do: func() { w.stepMarker(1) }, can: markers},
	}...)
}

func passageName(p board.Passage) string {
	if p == board.Cut {
		return "cut"
	}
	return string(p)
}

// chooseShot chooses all panels of the shot the chosen one is in.
func (w *window) chooseShot() {
	shots := w.board.Shots()
	k, found := slices.BinarySearch(shots, w.chosen)
	if !found {
		k--
	}
	w.choosePut(shots[k], shots[k+1]-shots[k])
}

func (w *window) headingDialog() {
	i := w.chosen
	heading := newField("what it is called", 1)
	heading.SetText(w.board.Panels[i].Heading)
	what := map[board.Opening]string{board.OpensShot: "shot", board.OpensScene: "scene"}[w.board.Opening(i)]
	w.ask("Heading of the "+what, "Set", []askRow{{"Heading", heading}}, func() error {
		return w.desk.Do(board.SetHeading(i, strings.TrimSpace(heading.Text)))
	})
}

// numberDialog asks for the numbers of the chosen panel; empty ones are
// counted.
func (w *window) numberDialog() {
	i := w.chosen
	n, opening := w.board.Panels[i].Fixed, w.board.Opening(i)
	scene, shot, panel := newField("counted", 1), newField("counted", 1), newField("counted", 1)
	scene.SetText(n.Scene)
	shot.SetText(n.Shot)
	panel.SetText(n.Panel)
	var rows []askRow
	if opening == board.OpensScene {
		rows = append(rows, askRow{"Scene", scene})
	}
	if opening != board.GoesOn {
		rows = append(rows, askRow{"Shot", shot})
	}
	rows = append(rows, askRow{"Panel", panel}, askRow{"", small("What is left empty is counted. What is written stays.")})
	w.ask("Number of panel "+w.numbers[i], "Set", rows, func() error {
		text := func(f *field) string { return strings.ToUpper(strings.TrimSpace(f.Text)) }
		return w.desk.Do(board.SetNumbers(i, board.Numbers{Scene: text(scene), Shot: text(shot), Panel: text(panel)}))
	})
}

// addMarker puts a marker at the playhead: on the beat that is there, else
// free.
func (w *window) addMarker() {
	start := board.Free(w.board.Rate.Seconds(w.at))
	if l, ok := board.NearestLanding(w.board.Landings(board.ToBeat), w.at, 0); ok {
		start = l.Start
	}
	w.do(board.AddMarker(board.Marker{Start: start, Name: fmt.Sprintf("Marker %d", len(w.board.Markers)+1)}))
	words := "A marker stands at the playhead."
	if key := w.keys.of("Marker at the playhead…"); key != "" {
		words += " " + key + " names it."
	}
	w.foot.Say(words)
}

// markerAt returns the marker nearest to the playhead.
func (w *window) markerAt() int {
	best := 0
	away := func(i int) board.Frame {
		f := w.board.Frame(w.board.Markers[i].Start)
		return max(f-w.at, w.at-f)
	}
	for i := range w.board.Markers {
		if away(i) < away(best) {
			best = i
		}
	}
	return best
}

func (w *window) markerDialog() {
	i := w.markerAt()
	m := w.board.Markers[i]
	name := newField("what happens there", 1)
	name.SetText(m.Name)
	w.ask(fmt.Sprintf("Marker at frame %d", w.board.Frame(m.Start)), "Name it", []askRow{{"Name", name}}, func() error {
		m.Name = strings.TrimSpace(name.Text)
		return w.desk.Do(board.SetMarker(i, m))
	})
}

// removeMarker takes out the marker nearest to the playhead.
func (w *window) removeMarker() { w.do(board.RemoveMarker(w.markerAt())) }

func (w *window) stepMarker(by int) {
	frames := make([]board.Frame, len(w.board.Markers))
	for i, m := range w.board.Markers {
		frames[i] = w.board.Frame(m.Start)
	}
	slices.SortFunc(frames, func(a, b board.Frame) int { return by * cmp.Compare(a, b) })
	for _, f := range frames {
		if by > 0 && f > w.at || by < 0 && f < w.at {
			w.seek(f)
			return
		}
	}
}
