package demo

import (
	"fmt"
	"image"
	"slices"
	"testing"
)

func TestPanelsFillTheTune(t *testing.T) {
	panels := Panels()
	if len(panels) < 16 || len(panels) > 20 {
		t.Errorf("%d panels, want 16 to 20", len(panels))
	}
	next := 0
	titles := map[string]bool{}
	for i, p := range panels {
		if p.Start != next {
			t.Errorf("panel %d %q starts at beat %d, want %d, the end of the one before", i, p.Title, p.Start, next)
		}
		if p.Beats < 1 || p.Title == "" || p.Action == "" || p.Sound == "" || p.Shot == "" {
			t.Errorf("panel %d lacks words or length: %+v", i, p)
		}
		if titles[p.Title] {
			t.Errorf("two panels are called %q", p.Title)
		}
		titles[p.Title] = true
		next += p.Beats
	}
	if next != len(Beats()) {
		t.Errorf("the panels last %d beats, the tune %d", next, len(Beats()))
	}
}

// The action of these panels is heard on its first beat: the score has a note
// of the story there.
func TestTheGagFallsOnTheBeat(t *testing.T) {
	start := map[string]int{}
	for _, p := range Panels() {
		start[p.Title] = p.Start
	}
	for title, beat := range map[string]int{
		"Four hops": 20, "Launch": 38, "Flight": 40, "Not the cup": 46, "Nobody moves": 48, "The lamp bows": 52, "Plop": 54, "Evening": 64,
	} {
		if start[title] != beat {
			t.Errorf("%q starts at beat %d, the tune has it at %d", title, start[title], beat)
		}
	}
}

// The pictures are drawn small here, which is what makes the test quick; that
// small and large are the same picture is TestPictureAtTwoSizes.
func TestPanelsDraw(t *testing.T) {
	panels := Panels()
	tones := make([][]float64, len(panels))
	for i, p := range panels {
		m := image.NewRGBA(image.Rect(0, 0, Width/4, Height/4))
		p.Draw(m)
		checkOpaque(t, p.Title, m)
		tones[i] = shrink(m, 5)
		if s := spread(tones[i]); s < 12 {
			t.Errorf("%q is nearly blank: its tones spread by %.1f", p.Title, s)
		}
		for j := range i {
			if d := apart(tones[i], tones[j]); d < 4 {
				t.Errorf("%q and %q are nearly the same: mean difference %.2f", p.Title, panels[j].Title, d)
			}
		}
	}
}

func checkOpaque(t *testing.T, title string, m *image.RGBA) {
	t.Helper()
	for o := 3; o < len(m.Pix); o += 4 {
		if m.Pix[o] != 255 {
			t.Fatalf("%q is not opaque at byte %d", title, o)
		}
	}
}

func TestPictureIsTheSameEveryTime(t *testing.T) {
	for _, p := range Panels()[17:18] {
		a, b := image.NewRGBA(image.Rect(0, 0, 320, 180)), image.NewRGBA(image.Rect(0, 0, 320, 180))
		p.Draw(a)
		p.Draw(b)
		if !slices.Equal(a.Pix, b.Pix) {
			t.Errorf("%q changes from one drawing to the next", p.Title)
		}
	}
}

func TestPictureAtTwoSizes(t *testing.T) {
	whole := Picture(1)
	if whole.Bounds() != image.Rect(0, 0, 1280, 720) {
		t.Fatalf("the picture is %v, want 1280 by 720", whole.Bounds())
	}
	checkOpaque(t, "picture 1", whole)
	small := image.NewRGBA(image.Rect(0, 0, Width/4, Height/4))
	Panels()[1].Draw(small)
	if d := apart(shrink(whole, 40), shrink(small, 10)); d > 3 {
		t.Errorf("the picture at a quarter of the size differs from the whole by %.2f", d)
	}
}

// shrink returns the mean tone of each square of the picture, red, green, blue.
func shrink(m *image.RGBA, square int) []float64 {
	w, h := m.Bounds().Dx()/square, m.Bounds().Dy()/square
	out := make([]float64, 3*w*h)
	for y := range h * square {
		for x := range w * square {
			o := m.PixOffset(x, y)
			k := 3 * (y/square*w + x/square)
			for ch := range 3 {
				out[k+ch] += float64(m.Pix[o+ch]) / float64(square*square)
			}
		}
	}
	return out
}

// apart is the mean absolute difference.
func apart(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += max(a[i]-b[i], b[i]-a[i])
	}
	return sum / float64(len(a))
}

// spread is the mean distance of the values from their mean.
func spread(a []float64) float64 {
	mean := 0.0
	for _, v := range a {
		mean += v / float64(len(a))
	}
	flat := make([]float64, len(a))
	for i := range flat {
		flat[i] = mean
	}
	return apart(a, flat)
}

func ExamplePanels() {
	for _, p := range Panels()[10:14] {
		fmt.Printf("beat %d, %d long: %s\n", p.Start, p.Beats, p.Title)
	}
	// Output:
	// beat 36, 2 long: The teapot gathers itself
	// beat 38, 2 long: Launch
	// beat 40, 4 long: Flight
	// beat 44, 2 long: Past the cup
}

func BenchmarkPicture(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Picture(3)
	}
}
