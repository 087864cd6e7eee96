package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"math/rand/v2"
	"testing"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"stillbeat/board"
)

// noise returns a picture of random colours; with clear pixels too if it is
// not opaque.
func noise(w, h int, opaque bool) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(uint64(w), uint64(h)))
	for i := range img.Pix {
		img.Pix[i] = uint8(r.IntN(256))
		if i%4 == 3 && opaque {
			img.Pix[i] = 255
		}
	}
	return img
}

func asRGBA(img image.Image) *image.RGBA {
	out := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out
}

func whole(img image.Image) box {
	s := img.Bounds().Size()
	return box{0, 0, float64(s.X), float64(s.Y)}
}

// Half black and half white give the grey of half the light: 188 has 0.5029 of
// it (WCAG 2.2, relative luminance), 128 only 0.2159.
func TestShrinkingAveragesLight(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 64, 64))
	for i := range img.Pix {
		if (i%64+i/64)%2 == 0 {
			img.Pix[i] = 255
		}
	}
	for _, n := range []int{32, 16, 1} {
		got := resample(img, whole(img), n, n)
		if c := got.RGBAAt(n/2, n/2); !near(c, color.RGBA{188, 188, 188, 255}, 0) {
			t.Errorf("to %d pixels: %v, want 188", n, c)
		}
	}
}

func TestSameSizeIsTheSamePicture(t *testing.T) {
	for _, opaque := range []bool{true, false} {
		img := noise(37, 23, opaque)
		if d := furthest(resample(img, whole(img), 37, 23), asRGBA(img)); d > 1 || opaque && d > 0 {
			t.Errorf("opaque %v: it differs by up to %d", opaque, d)
		}
	}
}

// areaMean is what shrinking should come to, worked out pixel by pixel.
func areaMean(img *image.NRGBA, b box, w, h, x, y int) (out [4]float64) {
	x0, x1 := b.x0+(b.x1-b.x0)*float64(x)/float64(w), b.x0+(b.x1-b.x0)*float64(x+1)/float64(w)
	y0, y1 := b.y0+(b.y1-b.y0)*float64(y)/float64(h), b.y0+(b.y1-b.y0)*float64(y+1)/float64(h)
	all := 0.0
	for sy := int(y0); sy < img.Rect.Dy() && float64(sy) < y1; sy++ {
		for sx := int(x0); sx < img.Rect.Dx() && float64(sx) < x1; sx++ {
			part := max(0, min(x1, float64(sx+1))-max(x0, float64(sx))) * max(0, min(y1, float64(sy+1))-max(y0, float64(sy)))
			c := img.NRGBAAt(sx, sy)
			a := part * float64(c.A) / 255
			for i, v := range []uint8{c.R, c.G, c.B} {
				e := float64(v) / 255
				if e <= 0.04045 {
					e /= 12.92
				} else {
					e = math.Pow((e+0.055)/1.055, 2.4)
				}
				out[i] += a * e
			}
			out[3] += a
			all += part
		}
	}
	for i := range 3 {
		out[i] /= out[3]
		if out[i] <= 0.0031308 {
			out[i] *= 12.92
		} else {
			out[i] = 1.055*math.Pow(out[i], 1/2.4) - 0.055
		}
		out[i] *= 255 * out[3] / all
	}
	out[3] *= 255 / all
	return out
}

func TestShrinkingAgainstTheFormula(t *testing.T) {
	for _, c := range []struct {
		name   string
		opaque bool
		b      box
		w, h   int
	}{
		{"to a third", true, box{0, 0, 48, 36}, 16, 12},
		{"by an odd factor", true, box{0, 0, 48, 36}, 19, 11},
		{"a part off the grid", true, box{3.3, 2.7, 40.1, 30.2}, 10, 9},
		{"half clear", false, box{0, 0, 48, 36}, 7, 5},
		{"hardly smaller", true, box{0, 0, 48, 36}, 47, 35},
	} {
		img := noise(48, 36, c.opaque)
		got := resample(img, c.b, c.w, c.h)
		for y := range c.h {
			for x := range c.w {
				want := areaMean(img, c.b, c.w, c.h, x, y)
				p := got.RGBAAt(x, y)
				for i, v := range []uint8{p.R, p.G, p.B, p.A} {
					if math.Abs(float64(v)-want[i]) > 1.6 {
						t.Fatalf("%s: pixel (%d, %d) is %v, want %.1f", c.name, x, y, p, want)
					}
				}
			}
		}
	}
}

// Away from the edges, which it continues otherwise, golang.org/x/image's
// Catmull-Rom kernel makes the same of a picture.
func TestEnlargingIsCatmullRom(t *testing.T) {
	img := noise(24, 18, true)
	got := resample(img, whole(img), 96, 72)
	want := image.NewRGBA(got.Rect)
	xdraw.CatmullRom.Scale(want, want.Rect, img, img.Rect, draw.Src, nil)
	inner := image.Rect(12, 12, 84, 60)
	if d := furthest(asRGBA(got.SubImage(inner)), asRGBA(want.SubImage(inner))); d > 1 {
		t.Errorf("it differs by up to %d", d)
	}
}

func TestPicturesOfAllKindsScaleAlike(t *testing.T) {
	img := gradient(90, 60)
	want := resample(img, whole(img), 33, 22)
	moved := image.NewRGBA(image.Rect(-7, 9, 83, 69))
	draw.Draw(moved, moved.Rect, img, image.Point{}, draw.Src)
	deep := image.NewNRGBA64(img.Rect)
	draw.Draw(deep, deep.Rect, img, image.Point{}, draw.Src)
	for name, same := range map[string]image.Image{"elsewhere": moved, "of 16 bits": deep} {
		if d := furthest(resample(same, whole(same), 33, 22), want); d > 1 {
			t.Errorf("%s: it differs by up to %d", name, d)
		}
	}
}

// A picture laid where it lies is itself; half a pixel on, each is the mean of
// two.
func TestLay(t *testing.T) {
	img := asRGBA(noise(40, 30, true))
	dst := filled(40, 30, Blank)
	lay(dst, dst.Rect, img, affine{a: 1, e: 1})
	if d := furthest(dst, img); d > 0 {
		t.Errorf("where it lies it differs by up to %d", d)
	}
	lay(dst, dst.Rect, img, affine{a: 1, e: 1, c: 0.5})
	for x := 1; x < 38; x++ {
		p, q, got := img.RGBAAt(x, 7), img.RGBAAt(x+1, 7), dst.RGBAAt(x, 7)
		mean := color.RGBA{uint8((int(p.R) + int(q.R)) / 2), uint8((int(p.G) + int(q.G)) / 2), uint8((int(p.B) + int(q.B)) / 2), 255}
		if !near(got, mean, 1) {
			t.Fatalf("half a pixel on, %d is %v, want %v", x, got, mean)
		}
	}
}

// golang.org/x/image's bilinear kernel does the same at about the same size.
func TestLayAgainstAnotherKernel(t *testing.T) {
	img := asRGBA(gradient(200, 150))
	for _, turn := range []float64{0, 10, 90, 133, 180, 271} {
		sin, cos := math.Sincos(turn * math.Pi / 180)
		m := affine{a: cos, b: sin, d: -sin, e: cos}
		m.c, m.f = 100-m.a*80-m.b*60, 75-m.d*80-m.e*60
		got, want := filled(160, 120, Surround), filled(160, 120, Surround)
		lay(got, got.Rect, img, m)
		// Its matrix goes the other way, from the picture to the frame.
		det := m.a*m.e - m.b*m.d
		inv := f64.Aff3{m.e / det, -m.b / det, (m.b*m.f - m.e*m.c) / det, -m.d / det, m.a / det, (m.d*m.c - m.a*m.f) / det}
		xdraw.BiLinear.Transform(want, inv, img, img.Rect, draw.Over, nil)
		worst, at := 0, image.Point{}
		for y := range 120 {
			for x := range 160 {
				u, v := m.a*(float64(x)+0.5)+m.b*(float64(y)+0.5)+m.c, m.d*(float64(x)+0.5)+m.e*(float64(y)+0.5)+m.f
				if in := u > 2 && v > 2 && u < 198 && v < 148; !in && u > -2 && v > -2 && u < 202 && v < 152 {
					continue // edges are not softened there
				}
				p, q := got.RGBAAt(x, y), want.RGBAAt(x, y)
				for _, d := range []int{int(p.R) - int(q.R), int(p.G) - int(q.G), int(p.B) - int(q.B)} {
					if max(d, -d) > worst {
						worst, at = max(d, -d), image.Pt(x, y)
					}
				}
			}
		}
		if worst > 10 { // their kernel widens a little with the turn
			t.Errorf("turned by %g: it differs by %d at %v", turn, worst, at)
		}
	}
}

// The edge of a turned picture covers a part of each pixel.
func TestTurnedEdgesAreSmooth(t *testing.T) {
	img := filled(100, 100, color.RGBA{255, 255, 255, 255})
	sin, cos := math.Sincos(0.3)
	m := affine{a: cos, b: sin, d: -sin, e: cos}
	m.c, m.f = 50-m.a*80-m.b*80, 50-m.d*80-m.e*80
	dst := image.NewRGBA(image.Rect(0, 0, 160, 160))
	lay(dst, dst.Rect, img, m)
	if got := covered(dst); math.Abs(got-10000) > 30 {
		t.Errorf("it covers %.1f pixels, want 10000", got)
	}
	if m := dst.RGBAAt(80, 80); m.A != 255 {
		t.Errorf("its middle is %v", m)
	}
}

// photoOf draws a picture placed in a frame, through a cache.
func photoOf(t *testing.T, img image.Image, p board.Placement, f board.Framing, w, h int) *image.RGBA {
	t.Helper()
	c := NewCache(media{"photo": asPNG(t, img)}, 0)
	s := PictureShot("photo", w, h)
	s.up.placed, s.up.framing = p, f
	got, err := c.Draw(s, w, h)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestPlacement(t *testing.T) {
	img := quartered(40, 40) // a square in a frame of 16:9
	hand := func(p board.Placement) board.Placement { p.Fit = board.ByHand; return p }
	s, q := Surround, quarters
	for _, c := range []struct {
		name string
		p    board.Placement
		f    board.Framing
		want [5]color.RGBA // at 1/5, 2/5 (upper half), 3/5, 4/5 and, lower, 2/5 of the width
	}{
		{"fitted", board.Placement{}, board.Framing{}, [5]color.RGBA{s, q[0], q[1], s, q[2]}},
		{"flipped", board.Placement{Flip: true}, board.Framing{}, [5]color.RGBA{s, q[1], q[0], s, q[3]}},
		{"filled", board.Placement{Fit: board.Filled}, board.Framing{}, [5]color.RGBA{q[0], q[0], q[1], q[1], q[2]}},
		{"by hand as fitted", hand(board.Placement{}), board.Framing{}, [5]color.RGBA{s, q[0], q[1], s, q[2]}},
		{"twice as large", hand(board.Placement{Scale: 2}), board.Framing{}, [5]color.RGBA{q[0], q[0], q[1], q[1], q[2]}},
		{"moved to the right", hand(board.Placement{At: board.Point{X: 0.45}}), board.Framing{}, [5]color.RGBA{s, s, q[0], q[1], s}},
		{"turned to the right", hand(board.Placement{Turn: 90}), board.Framing{}, [5]color.RGBA{s, q[2], q[0], s, q[3]}},
		{"turned over", hand(board.Placement{Turn: -180}), board.Framing{}, [5]color.RGBA{s, q[3], q[2], s, q[1]}},
		{"flipped, then turned to the right", hand(board.Placement{Turn: 90, Flip: true}), board.Framing{}, [5]color.RGBA{s, q[3], q[1], s, q[2]}},
		{"the camera nearer", board.Placement{}, board.Framing{Width: 0.5}, [5]color.RGBA{q[0], q[0], q[1], q[1], q[2]}},
		{"the camera nearer and to the left", board.Placement{}, board.Framing{At: board.Point{X: -0.25}, Width: 0.25}, [5]color.RGBA{q[0], q[0], q[0], q[0], q[2]}},
		{"the camera further away", board.Placement{}, board.Framing{Width: 3}, [5]color.RGBA{s, s, s, s, s}},
		{"out of sight", hand(board.Placement{At: board.Point{X: 5}}), board.Framing{}, [5]color.RGBA{s, s, s, s, s}},
	} {
		got := photoOf(t, img, c.p, c.f, 160, 90)
		for i, want := range c.want {
			x, y := 160*(i+1)/5, 20
			if i == 4 {
				x, y = 160*2/5, 70
			}
			if p := got.RGBAAt(x, y); !near(p, want, 1) {
				t.Errorf("%s: (%d, %d) is %v, want %v", c.name, x, y, p, want)
			}
		}
	}
}

// What stands still is scaled for its place and what moves is drawn from a
// level: both show the same, to what a bilinear kernel softens.
func TestMovingPicturesAreWhereStillOnesAre(t *testing.T) {
	img := gradient(701, 467)
	c := NewCache(media{"photo": asPNG(t, img)}, 0)
	for _, f := range []board.Framing{{}, {Width: 0.5}, {At: board.Point{X: 0.2, Y: -0.1}, Width: 0.3}, {Width: 1.4}} {
		s := PictureShot("photo", 160, 90)
		s.up.framing = f
		still, err := c.Draw(s, 160, 90)
		if err != nil {
			t.Fatal(err)
		}
		s.up.travels = true
		moving, err := c.Draw(s, 160, 90)
		if err != nil {
			t.Fatal(err)
		}
		// Edges of the photograph are on whole pixels when it stands still.
		inner := image.Rect(20, 4, 140, 86)
		if f.Width > 1 {
			inner = image.Rect(50, 20, 110, 70)
		}
		if d := furthest(asRGBA(still.SubImage(inner)), asRGBA(moving.SubImage(inner))); d > 24 {
			t.Errorf("%+v: they differ by up to %d", f, d)
		}
		a, b := light(asRGBA(still.SubImage(inner))), light(asRGBA(moving.SubImage(inner)))
		for i := range a {
			if math.Abs(a[i]-b[i]) > 0.01 {
				t.Errorf("%+v: mean light %.4f and %.4f", f, a, b)
			}
		}
	}
}

func TestLevels(t *testing.T) {
	size := image.Pt(6000, 4000)
	for _, c := range []struct {
		shrinks float64
		want    int
		size    image.Point
	}{{0.2, 0, size}, {1, 0, size}, {1.41, 0, size}, {1.42, 1, image.Pt(4243, 2828)}, {2, 2, image.Pt(3000, 2000)}, {5.9, 5, image.Pt(1061, 707)}} {
		k := levelFor(affine{a: c.shrinks, e: c.shrinks})
		if k != c.want || levelSize(size, k) != c.size {
			t.Errorf("%g pixels in one: level %d of %v, want %d of %v", c.shrinks, k, levelSize(size, k), c.want, c.size)
		}
	}
}
