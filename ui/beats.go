package ui

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// barsName is the name of the command that says where bars start.
const barsName = "A bar starts here…"

// beatCommands is the menu of the grid: all that a hand can do to the beats.
func (w *window) beatCommands() []*command {
	grid := func() bool { return w.board.OnGrid() }
	song := func() bool { return w.board.Song != nil }
	panel := func() bool { return w.chosen >= 0 && w.board.OnGrid() }
	c := []*command{
		{menu: "Beats", name: "Tap the beat while it plays", key: fyne.KeyT, do: w.tap, can: song},
		{menu: "Beats", name: "Set the tempo…", near: nearMusic, do: w.tempoDialog},
		{menu: "Beats", name: "Listen to the song again", do: func() {
			w.listenAgain(func(heard board.Grid) { w.do(board.MergeGrid(heard)); w.foot.Say(keptWords(w.board.Grid)) })
		}, can: song},
		{menu: "Beats", name: "Listen again, forget all set by hand", do: func() {
			w.listenAgain(func(heard board.Grid) { w.do(board.SetSong(w.board.Song, heard)) })
		}, can: song},
		{menu: "Beats"},
	}
	for _, s := range []struct {
		name     string
		num, den int
	}{{"Twice as many beats", 2, 1}, {"Half as many beats", 1, 2}, {"Three beats for two", 3, 2}, {"Two beats for three", 2, 3}} {
		c = append(c, &command{menu: "Beats", name: s.name, do: func() { w.do(board.ScaleTempo(s.num, s.den)) }, can: grid})
	}
	return append(c, []*command{
		{menu: "Beats"},
		{menu: "Beats", name: "All beats 10 ms earlier", key: fyne.KeyLeftBracket, do: func() { w.do(board.SlideGrid(-0.01)) }, can: grid},
		{menu: "Beats", name: "All beats 10 ms later", key: fyne.KeyRightBracket, do: func() { w.do(board.SlideGrid(0.01)) }, can: grid},
		{menu: "Beats", name: "Slide all beats…", do: w.slideDialog, can: grid},
		{menu: "Beats"},
		{menu: "Beats", name: "Add a beat at the playhead", near: nearMusic, key: fyne.KeyInsert, do: func() { w.do(board.AddBeat(w.songTime())) }},
		{menu: "Beats", name: "Take the nearest beat out", near: nearMusic, key: fyne.KeyH, mod: shift,
			do: func() { w.onNearestBeat(board.RemoveBeat) }, can: grid},
		{menu: "Beats", name: "Move the nearest beat here", near: nearMusic, key: fyne.KeyH,
			do: func() { w.onNearestBeat(func(i int) board.Edit { return board.MoveBeat(i, w.songTime()) }) }, can: grid},
		{menu: "Beats", name: barsName, near: nearMusic, key: fyne.KeyR, do: w.barsDialog, can: grid},
		{menu: "Beats"},
		{menu: "Beats", name: "Lock the beats under this panel", key: fyne.KeyL, do: func() { w.lockPanel(board.LockBeats) }, can: panel},
		{menu: "Beats", name: "Unlock the beats under this panel", key: fyne.KeyL, mod: shift, do: func() { w.lockPanel(board.UnlockBeats) }, can: panel},
		{menu: "Beats"},
		{menu: "Beats", name: "Frame rates for this music…", looks: true, do: w.ratesDialog, can: grid},
	}...)
}

// songTime returns the second of song at the playhead.
func (w *window) songTime() float64 { return w.board.Rate.Seconds(w.at) - w.board.SongOffset() }

// onNearestBeat edits the beat nearest to the playhead.
func (w *window) onNearestBeat(edit func(i int) board.Edit) {
	if w.board.OnGrid() {
		w.do(edit(w.board.Grid.Near(w.songTime(), 1).Beat))
	}
}

// lockPanel locks or unlocks the beats under the chosen panel.
func (w *window) lockPanel(edit func(from, to float64) board.Edit) {
	if w.chosen < 0 {
		return
	}
	// From halfway before the beat it starts on, so that a beat on the edge
	// is in or out whole.
	b := w.board
	edge := func(f board.Frame) float64 {
		t := b.Rate.Seconds(f) - b.SongOffset()
		beat := b.Grid.Near(t, 1).Beat
		return (b.Grid.Time(beat-1, 0, 1) + b.Grid.Time(beat, 0, 1)) / 2
	}
	w.do(edit(edge(w.starts[w.chosen]), edge(w.starts[w.chosen+1])))
}

// listenAgain analyses the song anew and lays the beats as told.
func (w *window) listenAgain(lay func(heard board.Grid)) {
	d, b := w.desk, w.board
	var song *desk.Heard
	w.jobs.Run("Listening to "+b.Song.Name, func(ctx context.Context, p desk.Progress) (err error) {
		song, err = d.LoadSong(ctx, b, w.ear, desk.Wish{Beats: true}, p)
		return err
	}, func(err error) {
		switch {
		case d != w.desk:
		case err != nil:
			w.trouble("The song could not be listened to", err)
		default:
			lay(song.Grid)
		}
	})
}

// keptWords says what of a grid a new analysis left alone.
func keptWords(g board.Grid) string {
	hand := 0
	for _, b := range g.Beats {
		if b.Hand {
			hand++
		}
	}
	words := fmt.Sprintf("Listened again: %d beats", len(g.Beats))
	if hand > 0 {
		words += fmt.Sprintf(", of which %d stayed as set by hand", hand)
	}
	if n := len(g.Locks); n > 0 {
		words += fmt.Sprintf("; locked parts left alone: %d", n)
	}
	return words + "."
}

// tempoDialog asks for a tempo in beats a minute or as a film click.
func (w *window) tempoDialog() {
	at := w.songTime()
	tempo := newField("108, or a film click such as 13-3", 1)
	if t := w.board.Grid.Tempo; t > 0 {
		tempo.SetText(strconv.FormatFloat(t, 'f', -1, 64))
	}
	w.ask("Set the tempo", "Lay it", []askRow{
		{"Tempo", tempo},
		{"", small("in beats a minute, or as a film click: frames and eighths for a beat at 24 fps")},
		{"", small(fmt.Sprintf("A bar starts at the playhead, %.3f s into the song.", at))},
	}, func() error {
		edit, err := tempoEdit(tempo.Text, at)
		if err != nil {
			return err
		}
		return w.desk.Do(edit)
	})
}

// tempoEdit reads a tempo as typed.
func tempoEdit(s string, at float64) (board.Edit, error) {
	s = strings.TrimSpace(s)
	if strings.Contains(strings.TrimLeft(s, "-"), "-") {
		c, err := board.ParseClick(s)
		if err != nil {
			return board.Edit{}, err
		}
		return board.SetClick(c, at), nil
	}
	bpm, err := typedNumber(s)
	if err != nil {
		return board.Edit{}, fmt.Errorf("%q is neither a tempo nor a film click", s)
	}
	return board.SetTempo(bpm, at), nil
}

func (w *window) slideDialog() {
	by := newField("milliseconds, negative for earlier", 1)
	w.ask("Slide all beats", "Slide", []askRow{{"By", by}}, func() error {
		ms, err := typedNumber(by.Text)
		if err != nil {
			return err
		}
		return w.desk.Do(board.SlideGrid(ms / 1000))
	})
}

func (w *window) barsDialog() {
	i := w.board.Grid.Near(w.songTime(), 1).Beat
	beats := newField("2 to 12, or 0 to go on as before", 1)
	beats.SetText(strconv.Itoa(max(4, w.board.Grid.Metre)))
	w.ask("A bar starts here", "Count so", []askRow{
		{"Beats in a bar", beats},
		{"", small(fmt.Sprintf("From beat %d on, to the next place where it is said otherwise.", i+1))},
	}, func() error {
		n, err := strconv.Atoi(strings.TrimSpace(beats.Text))
		if err != nil {
			return fmt.Errorf("%q is not a number of beats", beats.Text)
		}
		return w.desk.Do(board.SetBars(i, n))
	})
}

// typedNumber reads a number as a person types it, with a point or a comma.
func typedNumber(s string) (float64, error) {
	v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(s), ",", "."), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return v, nil
}

// askRow is a line of a small dialog: a label and what stands beside it.
type askRow struct {
	label string
	field fyne.CanvasObject
}

// ask shows a small dialog. The button does the work; an error is said in the
// dialog, which stays.
func (w *window) ask(title, button string, rows []askRow, do func() error) {
	form, first := askForm(rows)
	wrong := written("", red, 12, false)
	form.Add(label(""))
	form.Add(wrong)
	box := dialog.NewCustomWithoutButtons(title, padded(4, 4, form), w.win)
	finish := func() {
		if err := do(); err != nil {
			setText(wrong, sentence(err.Error()))
			return
		}
		box.Hide()
	}
	box.SetButtons(buttons(quiet("Cancel", box.Hide), strong(button, finish)))
	for _, r := range rows {
		if f, ok := r.field.(*field); ok {
			f.OnReturn, f.OnEscape = finish, box.Hide
		}
	}
	box.Resize(fyne.NewSize(480, 0))
	box.Show()
	if first != nil {
		first.opener = w.pressed
		w.win.Canvas().Focus(first)
		first.selectAll()
	}
}
