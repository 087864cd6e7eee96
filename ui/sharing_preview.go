package ui

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/share"
	"stillbeat/board/share/guess"
	"stillbeat/board/share/printed"
)

// sharePreview shows how an export will be: a picture of it or the beginning
// of its text, and how large it gets.
type sharePreview struct {
	root  *fyne.Container
	room  *fyne.Container // for picture or text
	image *canvas.Image
	text  *widget.Label
	which *widget.Label // of the frames is shown
	facts *widget.Label
	size  *widget.Label
}

const (
	previewLines = 60                     // of a text
	toldNotes    = 2                      // on what does not fit into it
	previewWait  = 200 * time.Millisecond // for the next change
	previewSide  = 480                    // pixels of a picture whose room is not known yet
)

func newSharePreview() *sharePreview {
	p := &sharePreview{image: canvas.NewImageFromImage(nil), text: widget.NewLabel("")}
	p.image.FillMode, p.image.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	p.text.TextStyle, p.text.SizeName = fyne.TextStyle{Monospace: true}, theme.SizeNameCaptionText
	line := func(name fyne.ThemeSizeName) *widget.Label {
		l := widget.NewLabel("")
		l.Wrapping, l.SizeName = fyne.TextWrapWord, name
		return l
	}
	p.which, p.facts, p.size = line(theme.SizeNameCaptionText), line(theme.SizeNameText), line(theme.SizeNameText)
	p.size.TextStyle.Bold = true
	below := container.NewVBox(p.which, p.facts, p.size)
	p.room = container.NewStack(canvas.NewRectangle(paperDark), padded(6, 6, container.NewStack(p.image, container.NewScroll(p.text))))
	p.root = container.NewBorder(nil, below, nil, nil, p.room)
	return p
}

// Clear shows nothing.
func (p *sharePreview) Clear() {
	p.show(nil)
	p.text.SetText("")
	for _, l := range []*widget.Label{p.which, p.facts, p.size} {
		l.SetText("")
	}
}

func (p *sharePreview) show(img image.Image) {
	p.image.Image, p.image.Hidden = img, img == nil
	p.image.Refresh()
}

// Present shows the export that is chosen. The picture and the size of a film
// come later, unless ctx ends. It returns why a text cannot be written.
func (p *sharePreview) Present(ctx context.Context, d *shareDialog, opts share.Options) error {
	f := d.format
	p.text.SetText("")
	p.facts.SetText(d.facts(opts))
	p.which.SetText("")
	p.size.SetText("")
	p.room.Hidden = f.list == nil && f.seen == nil
	p.root.Refresh()
	if f.seen == nil {
		p.show(nil)
	}
	if f.list != nil {
		return p.presentList(d, opts)
	}
	n := d.frame()
	if f.seen != nil {
		p.which.SetText(d.seenWords(n))
	}
	p.size.SetText("Working out the size…")
	p.draw(ctx, d, n, opts)
	return nil
}

// presentList shows how a text begins.
func (p *sharePreview) presentList(d *shareDialog, opts share.Options) error {
	parts, notes, err := d.format.list(d.w.board, opts.Silent)
	if err != nil {
		return err
	}
	lines := strings.SplitN(string(bytes.ToValidUTF8(parts[0], nil)), "\n", previewLines+1)
	p.text.SetText(strings.ReplaceAll(strings.Join(lines[:min(len(lines), previewLines)], "\n"), "\t", "  "))
	size := int64(0)
	for _, part := range parts {
		size += int64(len(part))
	}
	p.size.SetText(fileSize(size))
	if len(notes) > 0 {
		p.facts.SetText(notesWords(notes))
	}
	return nil
}

// notesWords tells what does not fit into a list, in short.
func notesWords(notes []string) string {
	told := notes[:min(len(notes), toldNotes)]
	words := "Not all of it fits in: " + strings.Join(told, "; ")
	if more := len(notes) - len(told); more > 0 {
		words += fmt.Sprintf("; and %d more", more)
	}
	return words + "."
}

// draw draws the picture and works out the size on a goroutine of its own.
func (p *sharePreview) draw(ctx context.Context, d *shareDialog, n board.Frame, opts share.Options) {
	w := d.w
	e := w.newExport(d.format, d.choice, opts)
	wide, high := p.pixels(w)
	then := func(do func()) {
		w.post(func() {
			if ctx.Err() == nil {
				do()
			}
		})
	}
	go func() {
		select {
		case <-ctx.Done():
			return
		case <-time.After(previewWait):
		}
		if e.format.seen != nil {
			img, unread := e.format.seen(e, n, wide, high)
			then(func() {
				if unread != nil {
					p.show(nil)
					p.which.SetText("This picture cannot be read.")
					return
				}
				p.show(img)
			})
		}
		if ctx.Err() != nil {
			return
		}
		size, err := e.format.guess(ctx, e)
		then(func() {
			if err != nil { // writing it would fail as well
				d.say(err)
				return
			}
			p.size.SetText(guessWords(size, opts.Under))
		})
	}()
}

// pixels returns the room for the picture.
func (p *sharePreview) pixels(w *window) (wide, high int) {
	room, scale := p.image.Size(), w.win.Canvas().Scale()
	wide, high = int(room.Width*scale), int(room.Height*scale)
	if wide < leastPicture || high < leastPicture {
		return previewSide, previewSide
	}
	return wide, high
}

// guessWords says how large a file gets.
func guessWords(g guess.Size, under int64) string {
	switch about := "About " + fileSize(g.Bytes); {
	case under > 0 && g.Bytes >= under:
		return fmt.Sprintf("At most %s", fileSize(under))
	case g.Within < g.Bytes/50:
		return about
	default:
		return fmt.Sprintf("%s, give or take %s", about, fileSize(g.Within))
	}
}

// seenWords says what is seen of the export at frame n.
func (d *shareDialog) seenWords(n board.Frame) string {
	if !d.format.has(takesPages) {
		return fmt.Sprintf("Frame %d, %s, as it will be", n, d.w.board.Rate.Timecode(n))
	}
	return fmt.Sprintf("Page %d of %d; bars stand for words", 2+board.PanelAt(d.w.starts, n)/d.choice.PerPage, 1+d.paperPages())
}

// paperPages is how many pages of panels there are on paper.
func (d *shareDialog) paperPages() int {
	return printed.Options{PerPage: d.choice.PerPage}.Pages(d.w.board)
}

// frame is the one at the playhead, or else the nearest that is written.
func (d *shareDialog) frame() board.Frame {
	w, span := d.w, d.span()
	n := max(span.Start, min(w.at, span.End-1))
	if d.format.has(takesEach) && d.choice.Each != eachFrame { // each panel as its hold begins
		if i := board.PanelAt(w.starts, n); i >= 0 {
			n = max(span.Start, w.starts[i])
		}
	}
	return n
}

// facts says how long or how many it is.
func (d *shareDialog) facts(o share.Options) string {
	w, span := d.w, d.span()
	seconds := w.board.Rate.Seconds(span.Len())
	panels := int64(board.PanelAt(w.starts, span.End-1) - board.PanelAt(w.starts, span.Start) + 1)
	long := fmt.Sprintf("%d %s at %s fps, %.1f s", span.Len(), plural(int64(span.Len()), "frame"), w.board.Rate, seconds)
	switch f := d.format; {
	case f.has(takesEach) && d.choice.Each == eachFrame:
		return fmt.Sprintf("%d %s of %d x %d", span.Len(), plural(int64(span.Len()), "picture"), o.Width, o.Height)
	case f.has(takesEach):
		return fmt.Sprintf("%d %s of %d x %d", panels, plural(panels, "picture"), o.Width, o.Height)
	case f.has(takesPages):
		pages := int64(d.paperPages())
		return fmt.Sprintf("A cover and %d %s with %d %s", pages, plural(pages, "page"), len(w.board.Panels), plural(int64(len(w.board.Panels)), "panel"))
	case f.has(takesHeight):
		return fmt.Sprintf("%d x %d, %s", o.Width, o.Height, long)
	}
	return long
}
