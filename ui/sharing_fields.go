package ui

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/share/printed"
)

// shareFields is what there is to choose of a format.
type shareFields struct {
	d     *shareDialog
	root  *fyne.Container
	under *field
	mark  *field
}

func newShareFields(d *shareDialog) *shareFields {
	return &shareFields{d: d, root: container.NewVBox()}
}

// Present shows the fields of the dialog's format: only what it takes.
func (s *shareFields) Present() {
	d, c := s.d, &s.d.choice
	f := d.format
	form := container.New(layout.NewFormLayout())
	row := func(name string, o fyne.CanvasObject) { form.Add(label(name)); form.Add(o) }
	if f.has(takesRange) {
		var names []string
		for _, p := range d.parts {
			names = append(names, p.name)
		}
		row("Part", s.choose(names, d.part, func(i int) { d.part = i }))
	}
	if f.has(takesEach) {
		row("Pictures", s.choose(eachNames, c.Each, func(i int) { c.Each = i }))
	}
	if f.has(takesHeight) {
		names, at := s.sizes()
		row("Size", s.choose(names, at, func(i int) { c.Lines[f.ending] = f.lines[i] }))
	}
	if f.has(takesQuality) {
		s.under = s.write("", c.Under, func(text string) { c.Under = text })
		size := container.NewHBox(fixedWidth(64, s.under), label("MB"))
		size.Hidden = c.Quality != underSize
		row("Quality", container.NewBorder(nil, nil, nil, size, s.choose(qualityNames, c.Quality, func(i int) {
			c.Quality = i
			size.Hidden = i != underSize
			s.root.Refresh()
		})))
	}
	if f.has(takesPages) {
		var counts []string
		for n := range printed.MostPerPage {
			counts = append(counts, strconv.Itoa(n+1))
		}
		row("Panels a page", s.choose(counts, c.PerPage-1, func(i int) { c.PerPage = i + 1 }))
		row("Paper", s.choose(paperNames(), c.Paper, func(i int) { c.Paper = i }))
		row("", s.tick("landscape", c.Landscape, true, func(on bool) { c.Landscape = on }))
	}
	if f.has(takesSound) {
		name := "with the song"
		if f.has(takesPages) {
			name = "with the song's waveform"
		}
		song := d.w.board.Song != nil
		row("Sound", s.tick(name, !c.Silent && song, song, func(on bool) { c.Silent = !on }))
	}
	if f.has(takesClick) {
		beats := !d.w.board.Grid.Empty()
		row("", s.tick("a click on each beat", c.Click && beats, beats, func(on bool) { c.Click = on }))
	}
	s.root.Objects = []fyne.CanvasObject{form}
	if f.has(takesBurn) {
		s.burns()
	}
	if len(form.Objects) == 0 {
		s.root.Add(small("There is nothing to choose: it is all of the film."))
	}
	s.root.Refresh()
}

// burns adds what can stand over the pictures.
func (s *shareFields) burns() {
	b := &s.d.choice.Burn
	grid := container.New(layout.NewGridLayoutWithColumns(2))
	for _, t := range []struct {
		name string
		on   *bool
	}{
		{"panel number", &b.Words.Number}, {"timecode", &b.Words.Timecode},
		{"title", &b.Words.Title}, {"frame number", &b.Words.Frame},
		{"notes", &b.Note}, {"bar and beat", &b.Words.Beat},
		{"safe areas", &b.Safe}, {"exposure", &b.Words.Exposure},
	} {
		grid.Add(s.tick(t.name, *t.on, true, func(on bool) { *t.on = on }))
	}
	s.mark = s.write("words of your own, at the top", b.Mark, func(text string) {
		if r := []rune(text); len(r) > mostMark {
			text = string(r[:mostMark])
			s.mark.SetText(text)
		}
		b.Mark = text
	})
	s.root.Add(label("Over the pictures"))
	s.root.Add(grid)
	s.root.Add(padded(2, 4, s.mark))
}

// sizes returns the sizes to choose from in the film's shape, and the one that
// is chosen.
func (s *shareFields) sizes() (names []string, at int) {
	f := s.d.format
	for i, lines := range f.lines {
		w, h := f.size(s.d.w.board.Aspect, lines)
		names = append(names, fmt.Sprintf("%d x %d", w, h))
		if lines == s.d.choice.Lines[f.ending] {
			at = i
		}
	}
	return names, at
}

// choose is a choice of names, of which one is chosen.
func (s *shareFields) choose(names []string, at int, picked func(int)) *widget.Select {
	c := widget.NewSelect(names, nil)
	c.SetSelectedIndex(at)
	c.OnChanged = func(string) {
		picked(c.SelectedIndex())
		s.d.changed()
	}
	return c
}

// tick is a choice of yes or no; one that cannot be made is grey.
func (s *shareFields) tick(name string, on, can bool, picked func(bool)) *widget.Check {
	c := widget.NewCheck(name, nil)
	c.Checked = on
	c.OnChanged = func(on bool) {
		picked(on)
		s.d.changed()
	}
	if !can {
		c.Disable()
	}
	return c
}

// write is a field of text.
func (s *shareFields) write(placeHolder, text string, typed func(string)) *field {
	f := newField(placeHolder, 1)
	f.SetText(text)
	f.OnChanged = func(text string) {
		typed(text)
		s.d.changed()
	}
	f.OnReturn, f.OnEscape = s.d.finish, s.d.leave
	return f
}
