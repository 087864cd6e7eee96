package ui

import (
	"context"
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
	"stillbeat/board/desk"
	"stillbeat/board/share/guess"
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

func TestSizesInTheFilmsShape(t *testing.T) {
	for _, tt := range []struct {
		ending string
		shape  board.Aspect
		lines  int
		w, h   int
	}{
		{".mp4", board.Aspect{W: 16, H: 9}, 1080, 1920, 1080},
		{".mp4", board.Aspect{W: 9, H: 16}, 1080, 1080, 1920}, // upright: as many pixels
		{".mp4", board.Aspect{W: 1, H: 1}, 720, 720, 720},
		{".gif", board.Aspect{W: 9, H: 16}, 360, 360, 640},
		{".html", board.Aspect{W: 9, H: 16}, 540, 540, 960},
		{".html", board.Aspect{W: 239, H: 100}, 540, 1290, 540},
	} {
		f, _ := formatNamed(tt.ending)
		if w, h := f.size(tt.shape, tt.lines); w != tt.w || h != tt.h {
			t.Errorf("%s of a film of %v, %d lines: %d x %d, want %d x %d", tt.ending, tt.shape, tt.lines, w, h, tt.w, tt.h)
		}
	}
}

func TestTheSizeOfAFilmIsTold(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	d := openShare(t, w, ".mp4")
	if got := d.seen.size.Text; got != "Working out the size…" {
		t.Errorf("at first it says %q", got)
	}
	until(t, "no size is told", func() bool { return strings.HasPrefix(d.seen.size.Text, "About ") })
	plain := d.seen.image.Image.(*image.RGBA)
	ticks(d.options.root, "timecode").SetChecked(true)
	until(t, "the picture does not change", func() bool {
		img, _ := d.seen.image.Image.(*image.RGBA)
		return img != nil && img != plain
	})
	if slices.Equal(plain.Pix, d.seen.image.Image.(*image.RGBA).Pix) {
		t.Error("the timecode is not in the picture")
	}

	// A change gives up what was being worked out for the choice before.
	ctx, cancel := context.WithCancel(context.Background())
	d.cancel = cancel
	d.changed()
	if ctx.Err() == nil {
		t.Error("what was worked out before goes on")
	}
	d.choice.Quality = underSize
	for text, ok := range map[string]bool{"10": true, "2,5": true, "much": false, "0": false, "-1": false, "NaN": false} {
		d.choice.Under = text
		d.changed()
		if d.write.Disabled() == ok || d.wrong.Visible() == ok {
			t.Errorf("under %q MB: it can be written %v, want %v; it says %q", text, !d.write.Disabled(), ok, d.wrong.Text)
		}
	}
}

// TestEveryFormatTellsItsSize has a size told for each before it is written,
// which what is written then keeps to.
func TestEveryFormatTellsItsSize(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.Write([]int{1}, "words", func(w *board.Words) { w.Sound = "tea?" }))
	dir := t.TempDir()
	for _, f := range shareFormats {
		d := openShare(t, w, f.ending)
		until(t, f.ending+": no size is told", func() bool { return strings.HasSuffix(d.seen.size.Text, "B") })
		if f.seen != nil {
			if d.seen.image.Image == nil || d.seen.which.Text == "" {
				t.Errorf("%s: nothing is seen of it; it says %q", f.ending, d.seen.which.Text)
			}
		}
		if f.guess != nil {
			opts, err := d.choice.options(f, w.board, d.span())
			if err != nil {
				t.Fatal(err)
			}
			e := w.newExport(f, d.choice, opts)
			g, err := f.guess(t.Context(), e)
			if err != nil {
				t.Fatal(err)
			}
			e.path = filepath.Join(dir, "film"+f.ending)
			if err := e.run(t.Context(), nil); err != nil {
				t.Fatal(err)
			}
			size := int64(0)
			files, _ := filepath.Glob(e.path)
			if f.folder() {
				files, _ = filepath.Glob(filepath.Join(e.path, "*"))
			}
			for _, path := range files {
				if info, err := os.Stat(path); err == nil {
					size += info.Size()
				}
			}
			if off := size - g.Bytes; max(off, -off) > g.Within+size/20 {
				t.Errorf("%s: %d bytes, told %d within %d", f.ending, size, g.Bytes, g.Within)
			}
		}
		d.leave()
	}
}

func TestASizeInWords(t *testing.T) {
	for _, tt := range []struct {
		g     guess.Size
		under int64
		want  string
	}{
		{guess.Size{Bytes: 2_400_000, Within: 75_000}, 0, "About 2.4 MB, give or take 75 kB"},
		{guess.Size{Bytes: 2_400_000, Within: 20_000}, 0, "About 2.4 MB"},
		{guess.Size{Bytes: 5e6, Within: 1e6}, 5e6, "At most 5.0 MB"},
	} {
		if got := guessWords(tt.g, tt.under); got != tt.want {
			t.Errorf("%+v under %d: %q, want %q", tt.g, tt.under, got, tt.want)
		}
	}
	for want, notes := range map[string][]string{
		"Not all of it fits in: reels are cut.":          {"reels are cut"},
		"Not all of it fits in: cup; spoon; and 2 more.": {"cup", "spoon", "lamp", "kettle"},
	} {
		if got := notesWords(notes); got != want {
			t.Errorf("of %q: %q, want %q", notes, got, want)
		}
	}
}

func TestWhatCannotBeWrittenIsTold(t *testing.T) {
	w := openWindow(t)
	w.bringPictures(writePictures(t, 2)) // no song, no beats, nothing said
	settle(t, w)
	for _, ending := range []string{".wav", ".srt", ".vtt", ".beats.csv"} {
		d := openShare(t, w, ending)
		if !d.write.Disabled() || !d.wrong.Visible() || d.wrong.Text == "" {
			t.Errorf("%s can be written; it says %q", ending, d.wrong.Text)
		}
		d.list.Select(0) // a film can
		if d.write.Disabled() || d.wrong.Visible() {
			t.Errorf("after %s a film cannot be written: %q", ending, d.wrong.Text)
		}
		d.leave()
	}
}

// What only the working out of the size finds is told before a file is chosen.
func TestAPageThatWouldBeTooLargeIsTold(t *testing.T) {
	w := openWindow(t)
	w.bringPictures(writePictures(t, 1))
	settle(t, w)
	w.do(board.SetMove([]int{0}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	w.do(board.SetHold([]int{0}, 4000))
	if w.board.Frames() != 4000 {
		t.Fatalf("the film has %d frames", w.board.Frames())
	}
	d := openShare(t, w, ".html")
	until(t, "it is not told", d.write.Disabled)
	if !strings.Contains(d.wrong.Text, "the most are 3000") || !d.wrong.Visible() {
		t.Errorf("it says %q", d.wrong.Text)
	}
	d.list.Select(0)
	if d.write.Disabled() || d.wrong.Visible() {
		t.Errorf("as a film it cannot be written: %q", d.wrong.Text)
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

func TestEveryFormatIsWritten(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.Write([]int{1}, "words", func(w *board.Words) { w.Sound = "tea?" }))
	w.do(board.SetTitle("Чай / 茶"))
	dir := t.TempDir()
	for _, f := range shareFormats {
		d := openShare(t, w, f.ending)
		if len(f.lines) > 0 {
			d.choice.Lines[f.ending] = f.lines[0]
		}
		opts, err := d.choice.options(f, w.board, d.span())
		if err != nil || d.write.Disabled() {
			t.Fatalf("%s: %v, %q", f.ending, err, d.wrong.Text)
		}
		e := w.newExport(f, d.choice, opts)
		d.leave()
		e.path = filepath.Join(dir, w.shareName(f))
		w.queueShare(e)
		settle(t, w)
		info, err := os.Stat(e.path)
		if err != nil || !info.IsDir() && info.Size() == 0 || info.IsDir() != f.folder() {
			t.Errorf("%s: %v; the foot says %q", f.ending, err, w.foot.words.Text)
		}
		if !strings.Contains(w.foot.words.Text, filepath.Base(e.path)) {
			t.Errorf("%s: the foot says %q", f.ending, w.foot.words.Text)
		}
	}
}

func TestNamesOfferedForFiles(t *testing.T) {
	w := openWindow(t)
	f, _ := formatNamed(".beats.csv")
	w.do(board.SetTitle(strings.Repeat("чайник ", 20)))
	if name := w.shareName(f); len(name) > 255 || !strings.HasSuffix(name, ".beats.csv") || !strings.HasPrefix(name, "чайник чайник") {
		t.Errorf("of a long title: %q, %d bytes", name, len(name))
	}
	for _, tt := range [][3]string{
		{"/a/cup", ".mp4", "/a/cup.mp4"}, {"/a/cup.MP4", ".mp4", "/a/cup.MP4"}, {"/a/cup.csv", ".beats.csv", "/a/cup.csv.beats.csv"},
		{"/a/.mp4", ".mp4", "/a/.mp4.mp4"}, {"/a/cup", "", "/a/cup"},
	} {
		if got := withEnding(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%s with %q is %s, want %s", tt[0], tt[1], got, tt[2])
		}
	}
}

// TestExportsQueue has one export under way, two that wait, and other work go
// before those.
func TestExportsQueue(t *testing.T) {
	w := openWindow(t)
	j := w.jobs
	var order []string
	gates := map[string]chan struct{}{}
	job := func(name string) (string, func(context.Context, desk.Progress) error, func(error)) {
		gate := make(chan struct{})
		gates[name] = gate
		return name, func(ctx context.Context, p desk.Progress) error {
			select {
			case <-gate:
				return nil
			case <-ctx.Done():
				return ctx.Err()
			}
		}, func(error) { order = append(order, name) }
	}
	j.Queue(job("cup"))
	j.Queue(job("spoon"))
	j.Queue(job("lamp"))
	j.Run(job("picture"))
	if j.more.Text != "3 more wait" || j.stopAll.Hidden || j.Queued() != 3 {
		t.Errorf("it says %q of %d exports", j.more.Text, j.Queued())
	}
	close(gates["cup"])
	until(t, "the picture is not next", func() bool { return j.now.what == "picture" })
	j.Stop()
	until(t, "the spoon is not next", func() bool { return j.now.what == "spoon" })
	if j.more.Text != "1 more waits" {
		t.Errorf("it says %q", j.more.Text)
	}
	j.StopAll()
	until(t, "it is not stopped", func() bool { return !j.Busy() })
	if !slices.Equal(order, []string{"cup"}) || j.row.Visible() {
		t.Errorf("done: %q", order)
	}
}

func TestAStoppedExportLeavesNothing(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	dir := t.TempDir()
	f, _ := formatNamed(".mp4")
	s := readSharing("")
	opts, err := s.options(f, w.board, board.Span{End: w.board.Frames()})
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"cup.mp4", "spoon.mp4"} {
		e := w.newExport(f, s, opts)
		e.path = filepath.Join(dir, name)
		w.queueShare(e)
	}
	w.jobs.StopAll()
	settle(t, w)
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left are %v", left)
	}
	if got := w.foot.words.Text; got != "cup.mp4 was stopped: nothing of it is left." {
		t.Errorf("the foot says %q", got)
	}
}

func TestLeavingAsksWhileSomethingIsWritten(t *testing.T) {
	w := openWindow(t)
	left := false
	w.jobs.Queue("Writing cup.mp4", func(ctx context.Context, _ desk.Progress) error {
		<-ctx.Done()
		return ctx.Err()
	}, func(error) {})
	w.leave(func() { left = true })
	top := w.win.Canvas().Overlays().Top()
	if left || top == nil || !slices.Contains(textsIn(top), "Something is still being written") {
		t.Error("the film is left without a question")
	}
	w.jobs.StopAll()
	settle(t, w)
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
