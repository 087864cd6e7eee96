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
	"stillbeat/board/share/mp4"
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
	f, w := d.format, d.w
	p.text.SetText("")
	p.facts.SetText(d.facts(opts))
	p.which.SetText("")
	p.size.SetText("")
	p.room.Hidden = f.list == nil && !f.has(takesHeight)
	p.root.Refresh()
	switch {
	case f.list != nil:
		p.show(nil)
		return p.presentList(d, opts)
	case !f.has(takesHeight):
		p.show(nil)
		return nil
	}
	n := d.frame()
	p.which.SetText(fmt.Sprintf("Frame %d, %s, as it will be", n, w.board.Rate.Timecode(n)))
	if f.has(takesQuality) {
		p.size.SetText("Working out the size…")
	}
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
		p.facts.SetText(fmt.Sprintf("%d %s not fit in: it is told once it is written.", len(notes), map[bool]string{true: "thing does", false: "things do"}[len(notes) == 1]))
	}
	return nil
}

// draw draws the picture and works out the size on a goroutine of its own.
func (p *sharePreview) draw(ctx context.Context, d *shareDialog, n board.Frame, opts share.Options) {
	w := d.w
	b, pics, sound, estimate := w.board, w.desk.Pictures, w.desk.Sound(), d.format.has(takesQuality)
	small := opts
	small.Width, small.Height = p.pixels(w, b.Aspect)
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
		img, unread := share.Still(b, pics, n, small)
		then(func() {
			if unread != nil {
				p.show(nil)
				p.which.SetText("This picture cannot be read.")
				return
			}
			p.show(img)
		})
		if !estimate || ctx.Err() != nil {
			return
		}
		guess, err := share.Estimate(ctx, b, pics, sound, opts)
		then(func() {
			if err != nil {
				p.size.SetText("How large it gets is not known: " + err.Error() + ".")
				return
			}
			p.size.SetText(guessWords(guess, opts.Under))
		})
	}()
}

// pixels returns how large the picture is drawn: no larger than it is shown.
func (p *sharePreview) pixels(w *window, a board.Aspect) (int, int) {
	room, scale := p.image.Size(), w.win.Canvas().Scale()
	wide, high := int(room.Width*scale), int(room.Height*scale)
	if wide < leastPicture || high < leastPicture {
		wide, high = previewSide, previewSide
	}
	return a.Inside(wide, high)
}

// guessWords says how large a film gets.
func guessWords(g mp4.Guess, under int64) string {
	if under > 0 && g.Bytes >= under {
		return fmt.Sprintf("At most %s", fileSize(under))
	}
	return fmt.Sprintf("About %s, give or take %s", fileSize(g.Bytes), fileSize(g.Within))
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
		pages := int64((len(w.board.Panels) + d.choice.PerPage - 1) / d.choice.PerPage)
		return fmt.Sprintf("A cover and %d %s with %d %s", pages, plural(pages, "page"), len(w.board.Panels), plural(int64(len(w.board.Panels)), "panel"))
	case f.has(takesHeight):
		return fmt.Sprintf("%d x %d, %s", o.Width, o.Height, long)
	}
	return long
}
