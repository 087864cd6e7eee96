package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/share"
)

// shareDialog has the formats at the left, what there is to choose of one in
// the middle, and how it will be at the right.
type shareDialog struct {
	w      *window
	choice sharing
	format *shareFormat
	parts  []partOf
	part   int

	list    *keyList
	options *shareFields
	seen    *sharePreview
	warning *shareCaution
	wrong   *widget.Label
	scroll  *container.Scroll
	write   *widget.Button
	box     *dialog.CustomDialog
	cancel  context.CancelFunc // of what is worked out of the choice before
}

func newShareDialog(w *window, choice sharing) *shareDialog {
	d := &shareDialog{w: w, choice: choice, parts: w.shareParts(), cancel: func() {}, wrong: widget.NewLabel("")}
	d.wrong.Wrapping, d.wrong.Importance = fyne.TextWrapWord, widget.DangerImportance
	d.wrong.Hide()
	d.list = newKeyList(func() int { return len(shareFormats) }, newFormatRow, showFormatRow)
	d.list.OnSelected = func(i widget.ListItemID) { d.turn(shareFormats[i]) }
	d.list.OnLeave, d.list.OnTake = d.leave, d.finish
	d.options = newShareFields(d)
	d.seen, d.warning = newSharePreview(), newShareCaution()
	d.write = strong("Choose the file…", d.finish)
	d.scroll = container.NewVScroll(padded(8, 6, container.NewVBox(d.options.root, d.wrong)))
	content := container.New(shareColumns{},
		band(paper, padded(4, 4, d.list)),
		band(paper, d.scroll),
		container.NewBorder(nil, d.warning.root, nil, nil, d.seen.root))
	d.box = dialog.NewCustomWithoutButtons("Share", content, w.win)
	d.box.SetButtons(buttons(quiet("Cancel", d.leave), d.write))
	d.box.SetOnClosed(d.stop)
	size := w.win.Canvas().Size()
	d.box.Resize(fyne.NewSize(min(textUnits(1040), size.Width*0.95), min(textUnits(660), size.Height*0.94)))
	d.warning.Look(d)
	d.box.Show()
	_, at := formatNamed(choice.Format)
	d.list.Select(at)
	d.list.ScrollTo(at)
	w.win.Canvas().Focus(d.list)
	return d
}

// shareColumns lays out formats, options and preview.
type shareColumns struct{}

// MinSize is nearly nothing: the dialog takes what the window has.
func (shareColumns) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 100) }

// Layout gives the preview what the other two leave, a quarter at least.
func (shareColumns) Layout(o []fyne.CanvasObject, s fyne.Size) {
	const gap = 12
	first := min(textUnits(218), s.Width*0.27)
	second := min(textUnits(330), s.Width*0.40)
	x := float32(0)
	for i, width := range []float32{first, second, s.Width - first - second - 2*gap} {
		o[i].Move(fyne.NewPos(x, 0))
		o[i].Resize(fyne.NewSize(width, s.Height))
		x += width + gap
	}
}

// newFormatRow is a line with the format's name and ending, and one with its use.
func newFormatRow() fyne.CanvasObject {
	return padded(4, 2, container.New(layout.NewCustomPaddedVBoxLayout(0),
		container.NewBorder(nil, nil, nil, small(""), written("", ink, 13, true)), small("")))
}

func showFormatRow(i widget.ListItemID, o fyne.CanvasObject) {
	rows := o.(*fyne.Container).Objects[0].(*fyne.Container).Objects
	first := rows[0].(*fyne.Container).Objects
	f := shareFormats[i]
	setText(first[0].(*canvas.Text), f.name)
	setText(first[1].(*canvas.Text), strings.TrimPrefix(f.ending, "."))
	setText(rows[1].(*canvas.Text), f.use)
}

// turn shows another format.
func (d *shareDialog) turn(f *shareFormat) {
	if d.format == f {
		return
	}
	d.format, d.choice.Format = f, f.ending
	d.write.SetText("Choose the file…")
	if f.folder() {
		d.write.SetText("Choose the folder…")
	}
	d.options.Present()
	d.scroll.ScrollToTop()
	d.warning.Present(d)
	d.changed()
}

// span is the part that is chosen, the whole film for formats without parts.
func (d *shareDialog) span() board.Span {
	if !d.format.has(takesRange) {
		return d.parts[0].span
	}
	return d.parts[d.part].span
}

// changed keeps the choice and works out what comes of it.
func (d *shareDialog) changed() {
	d.cancel()
	d.w.app.Preferences().SetString(sharingKey, d.choice.keep())
	opts, err := d.choice.options(d.format, d.w.board, d.span())
	if err == nil && d.format.has(takesSound|takesClick) && !d.format.has(takesHeight) && !d.heard(opts) {
		err = share.ErrNoSound
	}
	var ctx context.Context
	ctx, d.cancel = context.WithCancel(context.Background())
	if err == nil {
		err = d.seen.Present(ctx, d, opts)
	}
	d.say(err)
}

// heard reports whether there is a sound to write.
func (d *shareDialog) heard(o share.Options) bool {
	return d.w.board.Song != nil && !o.Silent || o.Click
}

// say tells why the film cannot be written so, or lets it be written.
func (d *shareDialog) say(err error) {
	setEnabled(d.write, err == nil)
	d.wrong.Hidden = err == nil
	if err != nil {
		d.wrong.SetText(sentence(err.Error()))
		d.seen.Clear()
	}
	d.wrong.Refresh()
}

// finish goes on to where the film is written.
func (d *shareDialog) finish() {
	if d.write.Disabled() {
		return
	}
	opts, err := d.choice.options(d.format, d.w.board, d.span())
	if err != nil {
		d.say(err)
		return
	}
	e := d.w.newExport(d.format, d.choice, opts)
	e.caution, e.checked = d.warning.Found()
	d.leave()
	d.w.shareTo(e)
}

func (d *shareDialog) leave() { d.box.Hide() }

// stop gives up what is being worked out.
func (d *shareDialog) stop() {
	d.cancel()
	d.warning.Stop()
}
