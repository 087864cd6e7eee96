package picture

import (
	"image"
	"sync"
	"testing"
	"time"

	"stillbeat/board"
)

// benchIn is a bench whose frame lies in the middle of w x h pixels.
func benchIn(w, h int, high float64) Bench { return Bench{float64(w) / 2, float64(h) / 2, high} }

func TestStageShowsWhatTheFrameShowsAndWhatLiesBeside(t *testing.T) {
	photo := quartered(1200, 1200)
	for name, p := range map[string]board.Placement{
		"fitted":          {},
		"filled":          {Fit: board.Filled},
		"turned":          {Fit: board.ByHand, Scale: 1.4, Turn: 30, At: board.Point{X: 0.2, Y: -0.1}},
		"flipped, larger": {Fit: board.ByHand, Scale: 2.5, Flip: true},
	} {
		t.Run(name, func(t *testing.T) {
			b := tale(t, []board.Frame{0, 24}, []board.MediaID{"p"}, board.Place([]int{0}, p))
			f := NewFilm(NewCache(media{"p": asPNG(t, photo)}, 0), b)
			at := benchIn(800, 600, 270) // the frame is 480 x 270, at 160, 165
			dst := image.NewRGBA(image.Rect(0, 0, 800, 600))
			if f.Stage(dst, 0, p, at) {
				t.Fatal("drawn from a photograph that was not read")
			}
			if err := f.Warm(0, p, at); err != nil {
				t.Fatal(err)
			}
			if !f.Stage(dst, 0, p, at) {
				t.Fatal("not drawn when all is there")
			}
			want, err := f.Panel(0, 0, 480, 270)
			if err != nil {
				t.Fatal(err)
			}
			off := 0
			for y := range 270 {
				for x := range 480 {
					if !near(dst.RGBAAt(160+x, 165+y), want.RGBAAt(x, y), 12) {
						off++
					}
				}
			}
			if off > 480*270/50 { // edges of the quarters, mixed in another way
				t.Errorf("%d of %d pixels of the frame are others", off, 480*270)
			}
			wide, tall := SizeOf(p, image.Pt(1200, 1200), board.Aspect{})
			if beside := tall > 1.3; beside != (dst.RGBAAt(400, 150).A == 255) {
				t.Errorf("a picture of %.2f x %.2f heights is seen above the frame: %v", wide, tall, !beside)
			}
		})
	}
}

func TestStageOfWhatCannotBeRead(t *testing.T) {
	f := NewFilm(NewCache(media{}, 0), tale(t, []board.Frame{0, 24}, []board.MediaID{"gone"}))
	at := benchIn(100, 100, 50)
	if err := f.Warm(0, board.Placement{}, at); err == nil {
		t.Error("a picture that is gone gives no error")
	}
	if f.Stage(image.NewRGBA(image.Rect(0, 0, 100, 100)), 0, board.Placement{}, at) {
		t.Error("it is drawn all the same")
	}
}

// A photograph that was just brought in is wanted by viewer, timeline and bench
// at once: it is read once.
func TestPictureThatIsBeingDecodedIsWaitedFor(t *testing.T) {
	src := &counted{media: media{"p": asPNG(t, quartered(300, 200))}, gate: make(chan struct{})}
	c := NewCache(src, 0)
	f := NewFilm(c, tale(t, []board.Frame{0, 24}, []board.MediaID{"p"}))
	var all sync.WaitGroup
	for k := range 6 {
		all.Go(func() {
			if _, err := c.Draw(PictureShot("p", 100+k, 60), 100+k, 60); err != nil {
				t.Error(err)
			}
		})
		all.Go(func() {
			if err := f.Warm(0, board.Placement{}, benchIn(100, 100, float64(20+10*k))); err != nil {
				t.Error(err)
			}
		})
	}
	time.Sleep(20 * time.Millisecond) // for most of them to have asked
	close(src.gate)
	all.Wait()
	if n := src.asked.Load(); n != 1 {
		t.Errorf("it was read %d times", n)
	}
}

func TestAsByHandLooksTheSame(t *testing.T) {
	for _, size := range []image.Point{{6000, 4000}, {400, 900}, {1920, 1080}} {
		for _, p := range []board.Placement{{}, {Fit: board.Filled, Flip: true}, {Fit: board.ByHand, Scale: 0.3, Turn: 12}} {
			q := AsByHand(p, size, board.Aspect{})
			w0, h0 := SizeOf(p, size, board.Aspect{})
			w1, h1 := SizeOf(q, size, board.Aspect{})
			if q.Fit != board.ByHand || q.Flip != p.Flip || q.Turn != p.Turn || absf(w0-w1)+absf(h0-h1) > 1e-9 {
				t.Errorf("%v %+v became %+v", size, p, q)
			}
		}
	}
}

func absf(v float64) float64 { return max(v, -v) }

// BenchmarkStage is one step of a drag of a photograph of 24 megapixels over a
// viewer of so many pixels.
func BenchmarkStage(b *testing.B) {
	film := board.New()
	film.Panels, film.End = []board.Panel{{ID: 1, Picture: "p"}}, board.Free(1)
	f := NewFilm(NewCache(media{"p": photo(b, 6000, 4000)}, 0), film)
	for name, size := range map[string]image.Point{"1100x600": {1100, 600}, "1900x1100": {1900, 1100}} {
		for turn, p := range map[string]board.Placement{"straight": {Fit: board.ByHand, Scale: 1.3}, "turned": {Fit: board.ByHand, Scale: 1.3, Turn: 7}} {
			b.Run(name+"/"+turn, func(b *testing.B) {
				at := benchIn(size.X, size.Y, 0.8*float64(size.Y))
				if err := f.Warm(0, p, at); err != nil {
					b.Fatal(err)
				}
				b.ReportAllocs()
				for b.Loop() {
					if !f.Stage(image.NewRGBA(image.Rectangle{Max: size}), 0, p, at) {
						b.Fatal("not drawn")
					}
				}
			})
		}
	}
}
