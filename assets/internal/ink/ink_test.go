package ink

import (
	"image"
	"math"
	"testing"
)

func blank() *Canvas {
	c := NewCanvas(image.NewRGBA(image.Rect(0, 0, 200, 150)))
	c.Unit = 1
	c.Fill(RGB(0xffffff))
	return c
}

// covered is the area under mask in pixels.
func covered(mask *image.Alpha) float64 {
	sum := 0.0
	if mask != nil {
		for _, a := range mask.Pix {
			sum += float64(a) / 255
		}
	}
	return sum
}

func TestMaskArea(t *testing.T) {
	square := []Pt{{20, 20}, {60, 20}, {60, 60}, {20, 60}}
	backwards := []Pt{{40, 60}, {80, 60}, {80, 20}, {40, 20}}
	backwards[0], backwards[2] = backwards[2], backwards[0]
	tests := []struct {
		name  string
		polys [][]Pt
		want  float64
	}{
		{"a square", [][]Pt{square}, 1600},
		{"overlapping polygons count once, whichever way they turn", [][]Pt{square, backwards}, 2400},
		{"a disc", [][]Pt{Disc(Pt{100, 75}, 40, 40)}, math.Pi * 1600},
		{"nothing outside the picture and its margin", [][]Pt{{{300, 10}, {400, 10}, {350, 90}}}, 0},
		{"a huge square is cut to the picture and its margin", [][]Pt{{{-1e7, -1e7}, {1e7, -1e7}, {1e7, 1e7}, {-1e7, 1e7}}}, (200 + 2*margin) * (150 + 2*margin)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := covered(blank().Mask(tt.polys...)); math.Abs(got-tt.want) > 0.01*tt.want+0.5 {
				t.Errorf("area %.1f, want %.1f", got, tt.want)
			}
		})
	}
}

func TestClipKeepsInside(t *testing.T) {
	c := blank()
	c.Clip = c.Mask([]Pt{{0, 0}, {100, 0}, {100, 150}, {0, 150}})
	got := covered(c.Mask([]Pt{{80, 10}, {120, 10}, {120, 50}, {80, 50}}))
	if math.Abs(got-800) > 2 {
		t.Errorf("area %.1f, want the left half, 800", got)
	}
}

func TestBlurKeepsTheWhole(t *testing.T) {
	m := blank().Mask(Disc(Pt{100, 75}, 30, 30))
	soft := Blur(m, 6)
	if a, b := covered(m), covered(soft); math.Abs(a-b) > 0.04*a {
		t.Errorf("blurred area %.0f, want about %.0f", b, a)
	}
	if soft.AlphaAt(100, 75).A < 250 || soft.AlphaAt(100, 45).A > 160 || soft.AlphaAt(100, 45).A < 90 {
		t.Errorf("middle %d, edge %d: want whole and about half", soft.AlphaAt(100, 75).A, soft.AlphaAt(100, 45).A)
	}
}

func TestContourOfADisc(t *testing.T) {
	loops := Contours(blank().Mask(Disc(Pt{100, 75}, 40, 40)))
	if len(loops) != 1 {
		t.Fatalf("%d outlines, want 1", len(loops))
	}
	for _, p := range loops[0] {
		if r := dist(p, Pt{100, 75}); math.Abs(r-40) > 0.5 {
			t.Fatalf("outline at %v is %.2f from the middle, want 40", p, r)
		}
	}
	if loops[0][0] != loops[0][len(loops[0])-1] {
		t.Error("the outline is not closed")
	}
}

func TestContourOfARing(t *testing.T) {
	c := blank()
	ring := Without(c.Mask(Disc(Pt{100, 75}, 40, 40)), c.Mask(Disc(Pt{100, 75}, 20, 20)))
	if loops := Contours(ring); len(loops) != 2 {
		t.Errorf("%d outlines, want 2", len(loops))
	}
}

func TestStrokeWidth(t *testing.T) {
	c := blank()
	c.Stroke([]Pt{{20, 75}, {180, 75}}, Pen{Width: 6, Even: true})
	dark := 0.0
	for y := range 150 {
		dark += 1 - float64(c.Img.RGBAAt(100, y).R)/255
	}
	if math.Abs(dark-6) > 0.1 {
		t.Errorf("the line is %.2f wide, want 6", dark)
	}
}

func TestSplitCorners(t *testing.T) {
	parts := splitCorners([]Pt{{0, 0}, {10, 0}, {20, 0}, {20, 10}, {20, 20}})
	if len(parts) != 2 || parts[0][len(parts[0])-1] != (Pt{20, 0}) || parts[1][0] != (Pt{20, 0}) {
		t.Errorf("got %v, want two parts meeting at (20, 0)", parts)
	}
}

func TestGlazeMultiplies(t *testing.T) {
	c := blank()
	c.Fill(RGB(0x804020))
	c.Glaze(c.Whole(), RGB(0x80ff00), 1)
	got := c.Img.RGBAAt(10, 10)
	if got.R != 0x40 || got.G != 0x40 || got.B != 0 || got.A != 255 {
		t.Errorf("got %v, want 40 40 00 ff", got)
	}
}

func TestPaperStaysNearTheTone(t *testing.T) {
	c := blank()
	c.Fill(RGB(0x808080))
	c.Paper()
	sum, low, high := 0, 255, 0
	for i := 0; i < len(c.Img.Pix); i += 4 {
		v := int(c.Img.Pix[i])
		sum, low, high = sum+v, min(low, v), max(high, v)
	}
	if mean := float64(sum) / 200 / 150; math.Abs(mean-128) > 2 || low < 118 || high > 138 || low == high {
		t.Errorf("mean %.1f, from %d to %d: want a little grain round 128", mean, low, high)
	}
}

func TestNoiseIsSmooth(t *testing.T) {
	for x := -5.0; x < 5; x += 0.01 {
		a, b := Noise(x, 1), Noise(x+0.01, 1)
		if math.Abs(a) > 1 || math.Abs(a-b) > 0.04 {
			t.Fatalf("noise jumps from %.3f to %.3f at %.2f", a, b, x)
		}
	}
	if Noise(0.5, 1) == Noise(0.5, 2) {
		t.Error("two seeds give the same noise")
	}
}
