package paper_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"stillbeat/board/internal/paper"
)

// The font's own table: the advance of H in Noto Sans 2.000 is 741 of 1000
// units, of i 258, of a space 260; a point is 25.4/72 mm.
func TestWidths(t *testing.T) {
	d := page(paper.A4)
	for text, want := range map[string]float64{"H": 0.741, "i": 0.258, "H H": 1.742, "": 0} {
		if got := d.Width(text, paper.Style{Points: 20}); math.Abs(got-want*20*25.4/72) > 0.01 {
			t.Errorf("%q is %.3f mm wide, want %.3f", text, got, want*20*25.4/72)
		}
	}
	small, large := d.Width("الكوب", paper.Style{Points: 5}), d.Width("الكوب", paper.Style{Points: 10})
	if small <= 0 || math.Abs(large-2*small) > 1e-9 {
		t.Errorf("at twice the size a word is %g wide, not twice %g", large, small)
	}
}

func TestCutEndsWithAnEllipsisAndFits(t *testing.T) {
	d := page(paper.A4)
	for _, text := range append(slices.Clone(words), "e\u0323\u0301e\u0323\u0301e\u0323\u0301e\u0323\u0301e\u0323\u0301e\u0323\u0301") {
		whole := d.Width(text, paper.Style{})
		if got := d.Cut(text, whole, paper.Style{}); d.Width(got, paper.Style{}) != whole || strings.HasSuffix(got, "…") {
			t.Errorf("%q fits and is cut to %q", text, got)
		}
		for _, part := range []float64{0.8, 0.5, 0.3} {
			got := d.Cut(text, whole*part, paper.Style{})
			if !strings.HasSuffix(got, "…") || d.Width(got, paper.Style{}) > whole*part {
				t.Errorf("%q cut to %.1f of its width is %q", text, part, got)
			}
		}
	}
	for wide, want := range map[float64]string{0: "", 1: "", 4: "…"} {
		if got := d.Cut("mmmm", wide, paper.Style{}); got != want {
			t.Errorf("in %g mm there is %q, want %q", wide, got, want)
		}
	}
}

func TestWrap(t *testing.T) {
	d := page(paper.A4)
	s := paper.Style{}
	for _, c := range []struct {
		name, text string
		wide       float64
		want       []string
	}{
		{"between words", "the cup turns slowly", 18, []string{"the cup", "turns", "slowly"}},
		{"at line ends, empty lines kept", "cup\r\n\nspoon", 50, []string{"cup", "", "spoon"}},
		{"within a word too long", "teapotteapot", 12, []string{"teapot", "teapot"}},
		{"controls are spaces", "a\tb", 50, []string{"a b"}},
		{"nothing", "", 50, []string{""}},
		{"a line keeps the direction of its paragraph", "כוס cup", 8, []string{"כוס", "\u200fcup"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := d.Wrap(c.text, c.wide, s)
			if !slices.Equal(got, c.want) {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
	for _, w := range words {
		for _, l := range d.Wrap(w+" "+w, 25, s) {
			if got := d.Width(l, s); got > 25.05 {
				t.Errorf("the line %q of %q is %.2f mm wide, want at most 25", l, w, got)
			}
		}
	}
}

func TestFitKeepsTheShape(t *testing.T) {
	for _, c := range []struct {
		name       string
		wide, high float64
		want       paper.Box
	}{
		{"wide", 200, 50, paper.Box{X: 10, Y: 35, Wide: 40, High: 10}},
		{"tall", 20, 40, paper.Box{X: 15, Y: 10, Wide: 30, High: 60}},
		{"none", 0, 0, paper.Box{X: 10, Y: 10, Wide: 40, High: 60}},
	} {
		if got := (paper.Box{X: 10, Y: 10, Wide: 40, High: 60}).Fit(c.wide, c.high); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func FuzzText(f *testing.F) {
	for _, w := range words {
		f.Add(w, 30.0)
	}
	f.Add("\xff\x00\u202e\U0001F375", 1.0)
	f.Fuzz(func(t *testing.T, text string, wide float64) {
		if len(text) > 500 || !(wide > 0 && wide < 1000) {
			return
		}
		d := page(paper.A4)
		d.Text(10, 10, text, paper.Style{Align: paper.Middle})
		d.Bookmark(0, text, 0)
		if got := d.Cut(text, wide, paper.Style{}); d.Width(got, paper.Style{}) > wide+1e-9 {
			t.Errorf("%q cut to %g mm is %q", text, wide, got)
		}
		for _, l := range d.Wrap(text, wide, paper.Style{}) {
			d.Text(10, 20, l, paper.Style{})
		}
		bytesOf(t, d)
	})
}
