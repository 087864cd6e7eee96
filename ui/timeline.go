package ui

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/picture"
)

var (
	_ fyne.Draggable     = (*timeline)(nil)
	_ fyne.Scrollable    = (*timeline)(nil)
	_ desktop.Mouseable  = (*timeline)(nil)
	_ desktop.Hoverable  = (*timeline)(nil)
	_ desktop.Cursorable = (*timeline)(nil)
)

// timeline shows the film along its music: rulers, waveform, panels and an
// overview. It is painted as one picture of the part in sight; only the
// playhead and the titles are objects of their own. What the user does leaves
// through the On functions; setters never call them.
type timeline struct {
	widget.BaseWidget

	OnScrub  func(board.Frame)
	OnChoose func(panel int, how choice)
	OnMove   func(start int, to board.Start)
	OnOrder  func(panel, before int)     // a panel was dragged before another
	OnBeat   func(beat int, sec float64) // a beat was dragged to a second of song
	OnOpen   func(panel int)             // double click
	OnMenu   func(onPanel bool, at fyne.Position)
	OnRemark func(id string) // the flag of a note of others was clicked
	OnHint   func(string)

	view     timelineView
	target   board.Target // what a dragged start lands on; "" nothing
	pushing  bool         // a dragged start takes all after it along
	at       board.Frame  // playhead
	follow   followMode
	unit     float64 // units of the window for one of the view's
	whole    bool    // the whole film is kept in sight until the user zooms or scrolls
	drag     dragState
	buffer   *image.RGBA
	cursor   desktop.Cursor
	raster   *canvas.Raster
	renderer *timelineRenderer
	titles   []*canvas.Text
	lastTap  tapMemory
	flagHint string // said of the flag under the pointer, "" for none
}

func newTimeline(get func(s picture.Shot, w, h int) *image.RGBA) *timeline {
	t := &timeline{target: board.ToBeat, cursor: desktop.DefaultCursor}
	t.view = timelineView{timescale: timescale{perSec: 40}, chosen: -1, hover: -1, caret: -1, thumbs: newThumbs(get)}
	t.view.setBoard(board.New(), []board.Frame{0}, picture.NewFilm(nil, board.New()))
	t.ExtendBaseWidget(t)
	return t
}

// SetBoard shows another state of the film.
func (t *timeline) SetBoard(b board.Board, starts []board.Frame, film *picture.Film) {
	t.view.setBoard(b, starts, film)
	t.view.drag = nil
	if t.view.hover > 0 && t.drag.mode == dragNone && t.OnHint != nil {
		t.OnHint(t.hint(t.view.hover)) // it may stand elsewhere now
	}
	if t.whole {
		t.FitAll()
		return
	}
	t.Refresh()
}

// SetWave shows the song's waveform, nil for none, scaled so that its loudest
// moment fills the band.
func (t *timeline) SetWave(w *audio.Pyramid) {
	t.view.wave, t.view.gain = w, 1
	if w != nil {
		var whole [1]audio.Column
		w.Columns(whole[:], 0, t.view.board.Song.Seconds)
		if peak := max(whole[0].Max, -whole[0].Min); peak > 0 {
			t.view.gain = min(8, 1/peak)
		}
	}
	t.Refresh()
}

// SetChosen marks panels: the one the card shows, -1 for none, and all that
// are chosen. It scrolls the one into sight if asked.
func (t *timeline) SetChosen(i int, set []int, show bool) {
	if t.view.chosen == i && slices.Equal(t.view.selected, set) {
		return
	}
	t.view.chosen, t.view.selected = i, set
	if show && i >= 0 && i < len(t.view.board.Panels) {
		r := t.view.board.Rate
		t.reveal(r.Seconds(t.view.starts[i]))
	}
	t.Refresh()
}

// SetPlayhead moves the red line; follow keeps it in sight, as is set.
func (t *timeline) SetPlayhead(f board.Frame, follow bool) {
	was := t.at
	t.at = f
	if follow && t.follow == followSmooth && t.glide() {
		return
	}
	if follow && t.follow == followPage {
		x := t.view.frameX(f)
		if x < 0 || x > t.view.width-24 {
			place := 0.08
			if back := was - f; back > 0 && t.view.board.Rate.Seconds(back)*t.view.perSec < t.view.width/2 {
				place = 0.92 // more steps back are to come
			}
			t.whole = false
			t.view.from = t.view.board.Rate.Seconds(f) - place*t.view.width/t.view.perSec
			t.keepInSight()
			t.Refresh()
			return
		}
	}
	t.placePlayhead()
}

// glide scrolls so that the playhead is in the middle, and reports whether
// that moved anything.
func (t *timeline) glide() bool {
	if t.whole {
		return false
	}
	was := t.view.from
	t.view.from = t.view.board.Rate.Seconds(t.at) - t.view.width/t.view.perSec/2
	t.keepInSight()
	if t.view.from == was {
		return false
	}
	t.Refresh()
	return true
}

// reveal scrolls so that second sec is in sight.
func (t *timeline) reveal(sec float64) {
	if x := t.view.x(sec); x < 10 || x > t.view.width-40 {
		t.view.from = sec - 0.25*t.view.width/t.view.perSec
		t.keepInSight()
	}
}

// FitAll shows the whole film and song, and goes on doing so.
func (t *timeline) FitAll() {
	t.view.timescale = t.view.fit(0, t.view.length())
	t.whole = true
	t.Refresh()
}

// Fit shows the film from one second to another.
func (t *timeline) Fit(from, to float64) {
	t.whole = false
	t.view.timescale = t.view.fit(from, to)
	t.keepInSight()
	t.Refresh()
}

// ShowFrom shows the film from second from on, perSec units of width to a second.
func (t *timeline) ShowFrom(from, perSec float64) {
	t.whole = false
	t.view.from, t.view.perSec = from, perSec
	if t.view.width > 0 {
		t.keepInSight()
	}
	t.Refresh()
}

// ZoomBy zooms around the playhead if it is in sight, else the middle.
func (t *timeline) ZoomBy(factor float64) {
	x := t.view.frameX(t.at)
	if x < 0 || x > t.view.width {
		x = t.view.width / 2
	}
	t.zoom(factor, x)
}

func (t *timeline) zoom(factor, x float64) {
	t.whole = false
	t.view.timescale = t.view.zoomed(factor, x)
	t.keepInSight()
	t.Refresh()
}

func (t *timeline) keepInSight() {
	t.view.timescale = t.view.kept(t.view.length())
}

// MinSize keeps every band of the timeline legible: those with words grow with
// the text, waveform and panels get by with what they have. Without panels it
// leaves the room to what is below.
func (t *timeline) MinSize() fyne.Size {
	rest := float32(leastWave + leastPanel)
	if len(t.view.board.Panels) == 0 {
		rest = 56
	}
	return fyne.NewSize(300, textUnits(timelineMinHeight-leastWave-leastPanel)+rest)
}

// CreateRenderer makes the objects the timeline is made of.
func (t *timeline) CreateRenderer() fyne.WidgetRenderer {
	t.raster = newPainted(t.draw)
	r := &timelineRenderer{t: t, line: canvas.NewRectangle(red), head: canvas.NewRectangle(red)}
	r.head.CornerRadius = 4.5
	t.renderer = r
	return r
}

func (t *timeline) draw(w, h int) image.Image {
	if t.buffer == nil || t.buffer.Rect.Dx() != w || t.buffer.Rect.Dy() != h {
		t.buffer = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if w > 0 && t.view.width > 0 {
		t.view.paint(t.buffer, float64(w)/t.view.width)
	}
	return t.buffer
}

// Cursor tells what a press here would do.
func (t *timeline) Cursor() desktop.Cursor { return t.cursor }

func (t *timeline) placePlayhead() {
	if r := t.renderer; r != nil {
		r.placePlayhead()
		canvas.Refresh(r.line)
	}
}
