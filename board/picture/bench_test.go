package picture

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"stillbeat/board"
)

// photo returns a JPEG of w x h with the grain of a photograph.
func photo(b *testing.B, w, h int) []byte {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(1, 2))
	for y := range h {
		for x := range w {
			v := uint8(40 + 160*x/w + r.IntN(24))
			img.SetRGBA(x, y, color.RGBA{v, uint8(40 + 160*y/h), 220 - v, 255})
		}
	}
	return asJPEG(b, img)
}

// strokes returns a sketch of 20 strokes of a brush, each of 120 points that
// wander over the whole frame.
func strokes(b *testing.B) []byte {
	r := rand.New(rand.NewPCG(3, 4))
	var s board.Sketch
	for range 20 {
		k := board.Stroke{Layer: board.Middle, Smooth: true, Ink: color.NRGBA{30, 25, 20, 255}, Width: int32(60 + r.IntN(300))}
		x, y, way := float64(r.IntN(20000)-10000), float64(r.IntN(12000)-6000), r.Float64()*6
		for range 120 {
			way += r.Float64() - 0.5
			x, y = min(max(x+150*math.Cos(way), -14000), 14000), min(max(y+150*math.Sin(way), -8000), 8000)
			k.Dots = append(k.Dots, board.Dot{X: int32(x), Y: int32(y), Wide: uint8(100 + r.IntN(156))})
		}
		s.Strokes = append(s.Strokes, k)
	}
	data, err := board.EncodeSketch(s)
	if err != nil {
		b.Fatal(err)
	}
	return data
}

// BenchmarkPhoto brings a photograph of 24 megapixels to the viewer and to
// the timeline, as it lies and turned by the camera, its file read first; and
// once it has been decoded.
func BenchmarkPhoto(b *testing.B) {
	data := photo(b, 6000, 4000)
	standing := withEXIF(data, tiffBlock("II", 6))
	for _, c := range []struct {
		name string
		data []byte
		w, h int
	}{
		{"1280x720", data, Width, Height},
		{"160x90", data, 160, 90},
		{"turned-1280x720", standing, Width, Height},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := NewCache(media{"photo": c.data}, 0).Draw(PictureShot("photo", c.w, c.h), c.w, c.h); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	img, err := Decode(data)
	if err != nil {
		b.Fatal(err)
	}
	for _, w := range []int{Width, 160} {
		b.Run(fmt.Sprintf("decoded-%d", w), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				fitted(img, w, w*9/16)
			}
		})
	}
}

func BenchmarkCacheHit(b *testing.B) {
	c := NewCache(media{"cup": asPNG(b, quartered(1280, 720))}, 0)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Draw(PictureShot("cup", Width, Height), Width, Height); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkFrame draws frames of 1280 x 720 of a photograph of 24 megapixels,
// what they are drawn from in the cache: with 20 strokes on it, standing and
// moving; with lettering; in a dissolve; as a thumbnail.
func BenchmarkFrame(b *testing.B) {
	caption := board.NewLetter(board.CaptionCard, "The spoon slides under the saucer", board.Aspect{})
	speech := board.NewLetter(board.Speech, "Where is the salt?", board.Aspect{})
	push := board.CameraMove{To: board.Framing{At: board.Point{X: 0.1}, Width: 0.7}}
	c := NewCache(media{"photo": photo(b, 6000, 4000), "ink": strokes(b)}, 1<<30)
	plain := view{picture: "photo"}
	with := func(change func(*view)) view {
		v := plain
		change(&v)
		return v
	}
	sketched := with(func(v *view) { v.sketch = "ink" })
	for _, bench := range []struct {
		name string
		w, h int
		v    func(u float64) view
	}{
		{"20-strokes", Width, Height, func(float64) view { return sketched }},
		{"20-strokes-moving", Width, Height, func(u float64) view {
			return with(func(v *view) { v.sketch, v.travels, v.framing = "ink", true, push.At(u) })
		}},
		{"moving", Width, Height, func(u float64) view { return with(func(v *view) { v.travels, v.framing = true, push.At(u) }) }},
		{"turned", Width, Height, func(float64) view {
			return with(func(v *view) { v.placed = board.Placement{Fit: board.ByHand, Turn: 10} })
		}},
		{"lettering", Width, Height, func(float64) view {
			return with(func(v *view) { v.words = wordsOf([]board.Letter{caption, speech}) })
		}},
		{"thumbnail-20-strokes", 160, 90, func(float64) view { return sketched }},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			i := 0
			draw := func() {
				i++
				if _, err := c.drawView(Shot{up: bench.v(float64(i%24) / 23)}, bench.w, bench.h); err != nil {
					b.Fatal(err)
				}
			}
			for range 24 { // the levels of a whole move
				draw()
			}
			b.ResetTimer()
			for b.Loop() {
				draw()
			}
		})
	}
	b.Run("dissolve", func(b *testing.B) {
		b.ReportAllocs()
		s := Shot{up: plain, next: sketched, passage: board.Dissolve, done: 0.5}
		for b.Loop() {
			if _, err := c.drawShot(s, Width, Height); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkFilm makes a film of 1000 panels, as after each edit, and asks what
// is on the screen at each of its frames.
func BenchmarkFilm(b *testing.B) {
	film := board.New()
	for i := range 1000 {
		film.Panels = append(film.Panels, board.Panel{ID: film.NextID, Start: board.Free(float64(i))})
		film.NextID++
	}
	film.End = board.Free(1000)
	c := NewCache(media{}, 0)
	b.Run("new", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			NewFilm(c, film)
		}
	})
	f := NewFilm(c, film)
	b.Run("shot", func(b *testing.B) {
		b.ReportAllocs()
		n := board.Frame(0)
		for b.Loop() {
			n = (n + 1) % 24000
			f.Shot(n)
		}
	})
}
