package ui

import (
	"errors"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// until does what was posted until something holds.
func until(t *testing.T, what string, holds func() bool) {
	t.Helper()
	end := time.After(20 * time.Second)
	for !holds() {
		select {
		case f := <-posted:
			f()
		case <-end:
			t.Fatal(what)
		}
	}
}

// openShare opens the dialog at a format.
func openShare(t *testing.T, w *window, ending string) *shareDialog {
	t.Helper()
	d := w.shareAs(ending)
	if d == nil {
		t.Fatal("the dialog does not open")
	}
	t.Cleanup(d.leave)
	return d
}

// labels returns the words of what can be chosen.
func labels(o fyne.CanvasObject) (out []string) {
	switch o := o.(type) {
	case *widget.Check:
		return []string{o.Text}
	case *widget.Select:
		return []string{o.Selected}
	case *field:
		return []string{"field"}
	case *fyne.Container:
		for _, c := range o.Objects {
			out = append(out, labels(c)...)
		}
	case *container.Scroll:
		return labels(o.Content)
	}
	return out
}

func ticks(o fyne.CanvasObject, name string) (found *widget.Check) {
	switch o := o.(type) {
	case *widget.Check:
		if o.Text == name {
			return o
		}
	case *fyne.Container:
		for _, c := range o.Objects {
			if x := ticks(c, name); x != nil {
				return x
			}
		}
	}
	return nil
}

func TestAFormatShowsWhatItTakesAndNoMore(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	over := []string{"panel number", "timecode", "title", "frame number", "notes", "bar and beat", "safe areas", "exposure", "field"}
	for ending, want := range map[string][]string{
		".mp4":       append([]string{"the whole film", "1280 x 720", "field", "standard", "with the song", "a click on each beat"}, over...),
		".gif":       append([]string{"the whole film", "640 x 360"}, over...),
		".png":       append([]string{"the whole film", "of each panel", "1280 x 720"}, over...),
		".wav":       {"the whole film", "with the song", "a click on each beat"},
		".html":      {"960 x 540", "with the song"},
		".pdf":       {"6", "A4", "landscape", "with the song's waveform"},
		".otio":      {"with the song"},
		".edl":       {"with the song"},
		".srt":       nil,
		".vtt":       nil,
		".csv":       nil,
		".beats.csv": nil,
	} {
		d := openShare(t, w, ending)
		got := labels(d.options.root)
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s has %q,\nwant %q", ending, got, want)
		}
		d.leave()
	}
}

func TestSharingIsRememberedFromFilmToFilm(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	d := openShare(t, w, ".gif")
	d.choice.Lines[".gif"] = 240
	ticks(d.options.root, "notes").SetChecked(true)
	d.options.mark.SetText("draft 2")
	w.selectSet([]int{0, 1}, 1)
	d.leave()

	w.openFilm("")
	if w.shareAs("") != nil {
		t.Error("a film without panels can be shared")
	}
	w.bringPictures(writePictures(t, 2))
	settle(t, w)
	d = openShare(t, w, "")
	if d.format.ending != ".gif" || d.choice.Lines[".gif"] != 240 || !d.choice.Burn.Note || d.options.mark.Text != "draft 2" {
		t.Errorf("remembered: %+v", d.choice)
	}
	if d.part != 0 {
		t.Error("the part of another film is chosen")
	}
}

func TestKeptSharingThatMakesNoSense(t *testing.T) {
	for _, data := range []string{"", "tea", `{"format":".spoon","lines":{".mp4":7},"quality":9,"under":"lots","each":-1,"perPage":99,"paper":5}`} {
		s := readSharing(data)
		if s.Format != ".mp4" || s.Lines[".mp4"] != 720 || s.Quality != 0 || s.Under != "10" || s.Each != 0 || s.PerPage != 6 || s.Paper != 0 {
			t.Errorf("%q is read as %+v", data, s)
		}
	}
}

func TestPartsOfTheFilm(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	w.selectSet([]int{1, 2}, 2)
	w.transport.in, w.transport.out = 1, 2
	d := openShare(t, w, ".mp4")
	if len(d.parts) != 3 || d.parts[1].name != "panels 2 to 3" {
		t.Fatalf("the parts are %+v", d.parts)
	}
	for i, want := range []board.Span{{Start: 0, End: 96}, {Start: 24, End: 72}, {Start: 24, End: 48}} {
		d.part = i
		o, err := d.choice.options(d.format, w.board, d.span())
		if err != nil || o.From != want.Start || o.To != want.End {
			t.Errorf("%s: frames %d to %d, %v; want %v", d.parts[i].name, o.From, o.To, err, want)
		}
	}
	w.at = 5
	if got := d.frame(); got != 24 {
		t.Errorf("the playhead is before the part: frame %d is shown, want its first, 24", got)
	}
}

// flashingPictures are black and white in turn.
func flashingPictures(t *testing.T, n int) (paths []string) {
	t.Helper()
	dir := t.TempDir()
	for i := range n {
		img := image.NewGray(image.Rect(0, 0, 32, 18))
		for p := range img.Pix {
			img.Pix[p] = uint8(255 * (i % 2))
		}
		img.SetGray(0, 0, color.Gray{uint8(i)})
		path := filepath.Join(dir, string(rune('a'+i))+".png")
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(png.Encode(f, img), f.Close()); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	return paths
}

func TestTheCautionOnFlashing(t *testing.T) {
	w := openWindow(t)
	w.bringPictures(flashingPictures(t, 16))
	settle(t, w)
	for i := range w.board.Panels {
		w.do(board.SetHold([]int{i}, 2)) // at 24 fps six flashes a second
	}
	d := openShare(t, w, ".html")
	if d.warning.looking.Text != "Looking for flashing…" {
		t.Errorf("at first it says %q", d.warning.looking.Text)
	}
	until(t, "nothing is found", func() bool { return d.warning.sign.Visible() })
	if got := d.warning.words.Text; !strings.Contains(got, "At panel ") || !strings.Contains(got, "seizures") {
		t.Errorf("it says %q", got)
	}
	opts, _ := d.choice.options(d.format, w.board, d.span())
	_, at := formatNamed(".wav")
	d.list.Select(at)
	if d.warning.sign.Visible() {
		t.Error("a sound has a caution on flashing")
	}
	caution, checked := d.warning.Found()
	d.leave()
	f, _ := formatNamed(".html")
	for _, known := range []bool{true, false} { // or it is looked for while it is written
		e := w.newExport(f, d.choice, opts)
		e.path = filepath.Join(t.TempDir(), "lamp.html")
		if known {
			e.caution, e.checked = caution, checked
		}
		w.queueShare(e)
		settle(t, w)
		text, err := os.ReadFile(e.path)
		if err != nil || !strings.Contains(string(text), "set off seizures") {
			t.Errorf("the page does not tell of the flashing (known before: %v): %v", known, err)
		}
		if !strings.HasPrefix(w.foot.words.Text, "Caution: it flashes.") {
			t.Errorf("the foot says %q", w.foot.words.Text)
		}
	}
}

func TestTheDialogByTheKeyboard(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	d := openShare(t, w, ".mp4")
	c := w.win.Canvas()
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if d.format.ending != ".gif" {
		t.Errorf("Down shows %s", d.format.ending)
	}
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	named, ok := c.Focused().(*field)
	if !ok || named.Text != w.shareName(d.format) {
		t.Fatalf("Return does not ask for the file: %T", c.Focused())
	}
	named.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c.Overlays().Top() != nil {
		t.Error("Escape leaves a dialog open")
	}
}

func TestTheDialogFitsASmallWindowWithLargeText(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.wear(looks[0], 140)
	defer w.wear(looks[0], 100)
	d := openShare(t, w, ".mp4")
	if got := d.box.MinSize(); got.Width > 1045 || got.Height > 630 {
		t.Errorf("it needs %v", got)
	}
	if least, room := d.options.root.MinSize().Width, d.scroll.Size().Width; least > room {
		t.Errorf("the options need %g and have %g", least, room)
	}
}
