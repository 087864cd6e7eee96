package ui

import (
	"context"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/share/guess"
)

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
