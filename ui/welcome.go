package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// welcome stands where the picture will be until there are panels, and says
// what to do first.
type welcome struct {
	song     *canvas.Text
	songDone *canvas.Text
	lately   *fyne.Container
	open     func(path string)
	films    func() []string
	root     fyne.CanvasObject
}

func newWelcome(w *window) *welcome {
	x := &welcome{song: small(""), songDone: heading("1"), lately: container.NewHBox(), films: w.recentFilms}
	x.open = func(path string) { w.leave(func() { w.openFilm(path) }) }
	step := func(number *canvas.Text, title string, words *canvas.Text, button string, do func()) fyne.CanvasObject {
		var act fyne.CanvasObject = layout.NewSpacer()
		if do != nil {
			act = centredObject(widget.NewButton(button, do))
		}
		return container.NewBorder(nil, nil, fixedWidth(30, number), fixedWidth(150, act), container.NewVBox(written(title, ink, 15, true), words))
	}
	steps := container.New(layout.NewCustomPaddedVBoxLayout(4),
		step(x.songDone, "Bring in the song", x.song, "Song…", w.openSong),
		step(heading("2"), "Add the pictures", small("Photographs or sketches, as many as you like: drop them here"), "Pictures…", w.addPictures),
		step(heading("3"), "Settle the timing", small("Drag the clips on the timeline, or snap all to the beats"), "", nil),
	)
	title := written("What happens, and on which beat?", ink, 21, true)
	open := container.NewHBox(small("Or look at a film that is there:"),
		quiet("Open film…", w.openFilmDialog), quiet("Demo film", w.openDemo))
	sheet := container.NewStack(canvas.NewRectangle(paperLight), padded(26, 6, container.NewVBox(title, padded(0, 2, steps), open, x.lately)))
	x.root = band(paperDark, container.NewVScroll(container.NewCenter(sheet)))
	return x
}

func centredObject(o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewVBox(layout.NewSpacer(), o, layout.NewSpacer())
}

// Present shows the welcome as long as the film has no panels.
func (x *welcome) Present(b board.Board) {
	if len(b.Panels) > 0 {
		x.root.Hide()
		return
	}
	if b.Song == nil {
		setText(x.song, "MP3, WAV, FLAC or OGG Vorbis: drop it here")
		setText(x.songDone, "1")
	} else {
		setText(x.song, shortened(b.Song.Name, textUnits(300), x.song.TextSize))
		setText(x.songDone, "✓")
	}
	x.root.Show()
}

// Lately offers the films opened lately.
func (x *welcome) Lately() {
	x.lately.RemoveAll()
	if films := x.films(); len(films) > 0 {
		x.lately.Add(small("Opened lately:"))
		for _, path := range films[:min(3, len(films))] {
			x.lately.Add(quiet(shortened(filmName(path), textUnits(150), textUnits(13)), func() { x.open(path) }))
		}
	}
}
