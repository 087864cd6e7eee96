package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"stillbeat/board"
)

func TestFit(t *testing.T) {
	film := image.Rect(0, 0, 1280, 720)
	for _, c := range []struct {
		name string
		w, h int
		box  image.Rectangle
		want image.Rectangle
	}{
		{"the film's own shape", 1920, 1080, film, film},
		{"smaller is made larger", 160, 90, film, film},
		{"2.39:1 has bars above and below", 2390, 1000, film, image.Rect(0, 92, 1280, 628)},
		{"4:3 has bars beside it", 4000, 3000, film, image.Rect(160, 0, 1120, 720)},
		{"9:16 stands", 1080, 1920, film, image.Rect(437, 0, 842, 720)},
		{"one pixel is a square", 1, 1, film, image.Rect(280, 0, 1000, 720)},
		{"a thread lies", 100000, 1, film, image.Rect(0, 359, 1280, 360)},
		{"a thread stands", 1, 100000, film, image.Rect(639, 0, 640, 720)},
		{"a box elsewhere", 100, 100, image.Rect(10, 20, 110, 70), image.Rect(35, 20, 85, 70)},
		{"a box of one pixel", 4000, 3000, image.Rect(5, 5, 6, 6), image.Rect(5, 5, 6, 6)},
	} {
		if got := Fit(c.w, c.h, c.box); got != c.want {
			t.Errorf("%s: Fit(%d, %d, %v) = %v, want %v", c.name, c.w, c.h, c.box, got, c.want)
		}
	}
}

// TestFitRules checks for many shapes that the rectangle lies in the box,
// touches it, is centred and has the right shape to the nearest pixel.
func TestFitRules(t *testing.T) {
	for _, box := range []image.Rectangle{image.Rect(0, 0, 1280, 720), image.Rect(3, 4, 100, 301), image.Rect(-7, -9, 0, 0)} {
		for w := 1; w < 6000; w += 1 + w/3 {
			for h := 1; h < 6000; h += 1 + h/3 {
				r := Fit(w, h, box)
				if !r.In(box) || r.Empty() || (r.Dx() != box.Dx() && r.Dy() != box.Dy()) {
					t.Fatalf("Fit(%d, %d, %v) = %v does not fill the box", w, h, box, r)
				}
				left, right, above, below := r.Min.X-box.Min.X, box.Max.X-r.Max.X, r.Min.Y-box.Min.Y, box.Max.Y-r.Max.Y
				if right-left > 1 || right < left || below-above > 1 || below < above {
					t.Fatalf("Fit(%d, %d, %v) = %v is not centred", w, h, box, r)
				}
				high, wide := float64(box.Dx()*h)/float64(w), float64(box.Dy()*w)/float64(h) // where the other side fills the box
				if math.Abs(max(1, high)-float64(r.Dy())) > 0.501 && math.Abs(max(1, wide)-float64(r.Dx())) > 0.501 {
					t.Fatalf("Fit(%d, %d, %v) = %v has another shape", w, h, box, r)
				}
			}
		}
	}
}

// fitted draws a picture alone in a frame of w x h pixels; nil is the blank card.
func fitted(img image.Image, w, h int) *image.RGBA {
	if img == nil {
		return filled(w, h, Blank)
	}
	dst := filled(w, h, Surround)
	if img.Bounds().Empty() {
		return dst
	}
	s := stored{img, 1}
	if c := cropOf(board.Placement{}, s.size(), lensOf(board.Framing{}, w, h), w, h); !c.at.Empty() {
		draw.Draw(dst, c.at, s.cut(c).RGBA, image.Point{}, draw.Over)
	}
	return dst
}

func TestFrameSurrounds(t *testing.T) {
	red := image.NewUniform(color.RGBA{200, 30, 20, 255})
	wide, tall := image.NewRGBA(image.Rect(0, 0, 239, 100)), image.NewRGBA(image.Rect(7, 7, 97, 167))
	draw.Draw(wide, wide.Rect, red, image.Point{}, draw.Src)
	draw.Draw(tall, tall.Rect, red, image.Point{}, draw.Src)
	clear := image.NewNRGBA(image.Rect(0, 0, 160, 90))
	half := image.NewNRGBA(image.Rect(0, 0, 1600, 900))
	draw.Draw(half, half.Rect, image.NewUniform(color.NRGBA{255, 255, 255, 128}), image.Point{}, draw.Src)
	// White at 128/255 over Surround.
	over := color.RGBA{0x93, 0x91, 0x8f, 255}
	for _, c := range []struct {
		name        string
		img         image.Image
		side, above color.RGBA // at the middle of the left edge and of the top edge
		centre      color.RGBA
	}{
		{"no picture is the blank card", nil, Blank, Blank, Blank},
		{"2.39:1 has bars above", wide, rgba(red.C), Surround, rgba(red.C)},
		{"9:16 has bars beside", tall, Surround, rgba(red.C), rgba(red.C)},
		{"a clear picture shows the surround", clear, Surround, Surround, Surround},
		{"half clear, over the surround", half, over, over, over},
		{"an empty picture", image.NewRGBA(image.Rectangle{}), Surround, Surround, Surround},
	} {
		got := fitted(c.img, 320, 180)
		if got.Rect != image.Rect(0, 0, 320, 180) {
			t.Errorf("%s: the frame is %v", c.name, got.Rect)
		}
		for _, at := range []struct {
			where string
			x, y  int
			want  color.RGBA
		}{{"left", 0, 90, c.side}, {"right", 319, 90, c.side}, {"above", 160, 0, c.above}, {"below", 160, 179, c.above}, {"centre", 160, 90, c.centre}} {
			if got := got.RGBAAt(at.x, at.y); !near(got, at.want, 1) {
				t.Errorf("%s: %s is %v, want %v", c.name, at.where, got, at.want)
			}
		}
	}
}

// gradient returns a picture with a rise in each colour and a fine pattern.
func gradient(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := 20 + 200*x/w + (x+y)%2*20
			img.SetRGBA(x, y, color.RGBA{uint8(v), uint8(20 + 200*y/h), uint8(235 - v*200/255), 255})
		}
	}
	return img
}

// furthest returns the largest difference between two pictures of a size.
func furthest(a, b *image.RGBA) int {
	most := 0
	for y := range a.Rect.Dy() {
		for x := range 4 * a.Rect.Dx() {
			d := int(a.Pix[y*a.Stride+x]) - int(b.Pix[y*b.Stride+x])
			most = max(most, d, -d)
		}
	}
	return most
}

// light returns the mean light of a picture.
func light(img *image.RGBA) [3]float64 {
	var sum [3]float64
	for y := range img.Rect.Dy() {
		for i, v := range img.Pix[y*img.Stride:][:4*img.Rect.Dx()] {
			if i%4 < 3 {
				sum[i%4] += float64(toLight[v])
			}
		}
	}
	for i := range sum {
		sum[i] /= float64(img.Rect.Dx() * img.Rect.Dy())
	}
	return sum
}

func TestScalingKeepsTheLight(t *testing.T) {
	for _, size := range []image.Point{{160, 90}, {321, 181}, {640, 360}, {1280, 720}, {1601, 901}} {
		img := gradient(size.X, size.Y)
		frame := fitted(img, 160, 90)
		want, got := light(img), light(frame.SubImage(Fit(size.X, size.Y, frame.Rect)).(*image.RGBA))
		for i := range want {
			if math.Abs(got[i]-want[i]) > 0.002 {
				t.Errorf("%v: channel %d has the mean light %.4f, had %.4f", size, i, got[i], want[i])
			}
		}
	}
}

func TestExtremePictures(t *testing.T) {
	for _, c := range []struct {
		name string
		size image.Point
		w, h int
	}{
		{"a thread into a film", image.Pt(20000, 1), 128, 72},
		{"a standing thread into a film", image.Pt(1, 20000), 128, 72},
		{"a film into one pixel", image.Pt(1280, 720), 1, 1},
		{"one pixel into a film", image.Pt(1, 1), 128, 72},
		{"into nothing", image.Pt(128, 72), 0, 0},
		{"into a line", image.Pt(128, 72), 500, 1},
	} {
		img := image.NewRGBA(image.Rectangle{Max: c.size})
		draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
		got := fitted(img, c.w, c.h)
		if got.Rect.Size() != image.Pt(c.w, c.h) {
			t.Errorf("%s: the frame is %v", c.name, got.Rect)
		}
		if c.w > 0 && got.RGBAAt((c.w-1)/2, (c.h-1)/2) != (color.RGBA{255, 255, 255, 255}) {
			t.Errorf("%s: the middle is %v", c.name, got.RGBAAt((c.w-1)/2, (c.h-1)/2))
		}
	}
}

// TestGoldenFrame draws the gradient, standing, into a small film.
func TestGoldenFrame(t *testing.T) { golden(t, "frame", fitted(gradient(300, 400), 96, 54)) }
