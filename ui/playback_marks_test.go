package ui

import (
	"image"
	"testing"
)

// TestMarksArePainted looks at places of the ruler and of the overview, at 100
// units a second.
func TestMarksArePainted(t *testing.T) {
	for _, c := range []struct {
		name    string
		in, out float64
		marked  []float64 // seconds that lie in the range
		free    []float64
	}{
		{"none", 0, 0, nil, []float64{0.5, 2, 9}},
		{"both", 1, 3, []float64{1.2, 2.2, 2.8}, []float64{0.8, 3.3, 9}},
		{"In alone", 4, 0, []float64{4.2, 9.2}, []float64{0.5, 3.7}},
		{"Out alone", 0, 4, []float64{0.2, 3.7}, []float64{4.3, 9}},
	} {
		v := viewOf(filmOf(t, 2, 2, 4))
		v.in, v.out = c.in, c.out
		img := image.NewRGBA(image.Rect(0, 0, int(v.width), int(v.height)))
		v.paint(img, 1)
		below := func(sec float64) (int, int) {
			return int(8 + sec/v.length()*(v.width-16)), int(v.overviewTop()) + 5
		}
		look := func(sec float64, want bool) {
			if got := img.RGBAAt(int(v.x(sec)), timeRulerH-1) == ink.rgba(); got != want {
				t.Errorf("%s: the ruler at second %g is marked %v, want %v", c.name, sec, got, want)
			}
			x, y := below(sec)
			if got := img.RGBAAt(x, y) == ink.rgba(); got != want {
				t.Errorf("%s: the overview at second %g is marked %v, want %v", c.name, sec, got, want)
			}
		}
		for _, sec := range c.marked {
			look(sec, true)
		}
		for _, sec := range c.free {
			look(sec, false)
		}
	}
}
