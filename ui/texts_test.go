package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"stillbeat/board"
)

func TestTimeLabel(t *testing.T) {
	film := board.FrameRate{Num: 24, Den: 1}
	for _, tt := range []struct {
		t, step float64
		want    string
	}{
		{0, 5, "0:00"}, {65, 5, "1:05"}, {3599, 1, "59:59"},
		{0.5, 0.5, "+12 f"}, {61, 0.5, "1:01"}, {1. / 24, 1. / 24, "+1 f"},
	} {
		if got := timeLabel(film, tt.t, tt.step); got != tt.want {
			t.Errorf("timeLabel(%g, %g) = %q, want %q", tt.t, tt.step, got, tt.want)
		}
	}
}

func TestShortened(t *testing.T) {
	test.NewTempApp(t)
	for _, s := range []string{"tea", "The teapot considers the empty cup", "чайник думает о чашке", "茶壺在想茶杯"} {
		for _, width := range []float32{0, 20, 60, 400} {
			got := shortened(s, width, 11)
			if w := fyne.MeasureText(got, 11, fyne.TextStyle{}).Width; got != "" && w > width {
				t.Errorf("shortened(%q, %g) = %q, which is %g wide", s, width, got, w)
			}
		}
		if got := shortened(s, 4000, 11); got != s {
			t.Errorf("shortened(%q, 4000) = %q: there was room", s, got)
		}
	}
}

func TestWordsForPeople(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{sentence("open song \"x\": no beat"), "Open song \"x\": no beat."},
		{sentence("Écoute."), "Écoute."},
		{fileName(`tea/time: "one"`), `tea-time- -one-`},
		{plural(1, "frame"), "frame"}, {plural(0, "frame"), "frames"},
		{sizeWords(900), "900 B"}, {sizeWords(5 << 20), "5.0 MB"},
		{wrapped("one two three four", 9), "one two\nthree\nfour"},
		{named("Undo", ""), "Undo"}, {named("Undo", "move panel 2"), "Undo: move panel 2"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
