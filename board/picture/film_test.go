package picture

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"io/fs"
	"math"
	"strings"
	"sync"
	"testing"

	"stillbeat/board"
)

// flat is a picture of one colour.
func flat(c color.Color) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 160, 90))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

// spot is a grey picture with a white spot of radius 40 at a place.
func spot(w, h int, x, y float64) *image.RGBA {
	img := filled(w, h, color.RGBA{40, 40, 40, 255})
	o := &outline{}
	o.disc(dot{pt{float32(x), float32(y)}, 40})
	o.paint(img, color.White)
	return img
}

// spotIn returns the middle and the radius of the white spot in a picture.
func spotIn(img *image.RGBA) (x, y, r float64) {
	sum := 0.0
	for i := 0; i < len(img.Pix); i += 4 {
		part := (float64(img.Pix[i]) - 40) / 215
		if part < 0.02 {
			continue
		}
		px := i / 4
		sum += part
		x += part * (float64(px%img.Rect.Dx()) + 0.5)
		y += part * (float64(px/img.Rect.Dx()) + 0.5)
	}
	return x / sum, y / sum, math.Sqrt(sum / math.Pi)
}

// tale returns a board at 24 fps whose panels show the given pictures and start
// at the given frames, the last the end.
func tale(t *testing.T, starts []board.Frame, pictures []board.MediaID, edits ...board.Edit) board.Board {
	t.Helper()
	b := board.New()
	for i, id := range pictures {
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(b.Rate.Seconds(starts[i])), Picture: id})
		b.NextID++
	}
	b.End = board.Free(b.Rate.Seconds(starts[len(pictures)]))
	for _, e := range edits {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
	}
	if err := b.Check(); err != nil {
		t.Fatal(err)
	}
	return b
}

func frameOf(t *testing.T, f *Film, n board.Frame, w, h int) *image.RGBA {
	t.Helper()
	img, err := f.Frame(n, w, h)
	if err != nil {
		t.Fatalf("frame %d: %v", n, err)
	}
	if img.Rect != image.Rect(0, 0, w, h) {
		t.Fatalf("frame %d is %v", n, img.Rect)
	}
	return img
}

// A spot in the photograph is followed through a pan and a push, and must be
// where the spacing's formula puts it.
func TestMovesFollowTheirFormula(t *testing.T) {
	// The spot is at (0.25, 0.1) of the frame, in heights from its middle.
	m := media{"spot": asPNG(t, spot(960, 540, 480+0.25*540, 270+0.1*540))}
	pics := NewCache(m, 0)
	from, to := board.Framing{At: board.Point{X: 0.1}, Width: 0.6}, board.Framing{At: board.Point{X: 0.35, Y: 0.2}, Width: 0.8}
	for _, step := range []int{1, 2, 3} {
		for _, spacing := range board.Spacings {
			b := tale(t, []board.Frame{0, 25}, []board.MediaID{"spot"},
				board.SetMove([]int{0}, board.CameraMove{From: from, To: to, Spacing: spacing}), board.SetStep(step))
			f := NewFilm(pics, b)
			for n := board.Frame(0); n < 25; n += 6 {
				last := 24 / step // exposures after the first
				u := spacing.At(float64(int(n)/step) / float64(last))
				part := 0.6 + 0.2*u
				k := 180 / part
				wantX, wantY, wantR := 160+(0.25-0.1-0.25*u)*k, 90+(0.1-0.2*u)*k, 40.0/540*k
				x, y, r := spotIn(frameOf(t, f, n, 320, 180))
				if math.Abs(x-wantX) > 0.1 || math.Abs(y-wantY) > 0.1 || math.Abs(r-wantR) > 0.2 {
					t.Errorf("on %ds, %q, frame %d: the spot is at %.2f, %.2f, radius %.2f, want %.2f, %.2f, %.2f", step, spacing, n, x, y, r, wantX, wantY, wantR)
				}
			}
		}
	}
}

func TestAMoveOnTwosShowsEachFramingTwice(t *testing.T) {
	m := media{"spot": asPNG(t, spot(320, 180, 160, 90))}
	b := tale(t, []board.Frame{0, 24, 49}, []board.MediaID{"spot", "spot"}, board.SetStep(2),
		board.SetMove([]int{0, 1}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	f := NewFilm(NewCache(m, 0), b)
	shots := map[Shot]int{}
	for n := range board.Frame(49) {
		shots[f.Shot(n)]++
	}
	for n := board.Frame(0); n < 48; n += 2 {
		if f.Shot(n) != f.Shot(n+1) {
			t.Errorf("frames %d and %d differ", n, n+1)
		}
		if n+2 < 48 && n+2 != 24 && f.Shot(n) == f.Shot(n+2) {
			t.Errorf("frames %d and %d are alike", n, n+2)
		}
	}
	if f.Shot(23).up.framing.Part() != 0.5 || f.Shot(48).up.framing.Part() != 0.5 {
		t.Error("the last exposure is not where the move ends")
	}
}

func TestAHeldPanelIsDrawnOnce(t *testing.T) {
	source := &counted{media: media{"cup": asPNG(t, quartered(64, 36))}}
	b := tale(t, []board.Frame{0, 30, 60, 61}, []board.MediaID{"cup", "cup", ""}, board.SetMove([]int{0}, board.CameraMove{
		From: board.Framing{Width: 0.5}, To: board.Framing{Width: 0.5}, Spacing: board.SlowIn}))
	f := NewFilm(NewCache(source, 0), b)
	seen := map[*image.RGBA]int{}
	for n := range board.Frame(61) {
		seen[frameOf(t, f, n, 64, 36)]++
	}
	if len(seen) != 3 {
		t.Errorf("%d pictures are drawn for 3 held panels", len(seen))
	}
	if n := source.asked.Load(); n != 1 {
		t.Errorf("the picture is read %d times", n)
	}
}

// Which panel is up is what board.PanelAt says, at rates and starts of all
// kinds.
func TestFramesShowThePanelThatIsUp(t *testing.T) {
	m := media{}
	var ids []board.MediaID
	for i := range 7 {
		id := board.MediaID(fmt.Sprint(i))
		m[id] = asPNG(t, flat(color.Gray{uint8(30 + 30*i)}))
		ids = append(ids, id)
	}
	for _, rate := range []board.FrameRate{{Num: 24, Den: 1}, {Num: 24000, Den: 1001}, {Num: 8, Den: 1}, {Num: 25, Den: 2}} {
		b := tale(t, []board.Frame{0, 5, 6, 30, 31, 33, 70, 90}, ids, board.SetRate(rate))
		f, starts := NewFilm(NewCache(m, 0), b), b.Starts()
		for n := range b.Frames() {
			want := uint8(30 + 30*board.PanelAt(starts, n))
			if got := frameOf(t, f, n, 16, 9).RGBAAt(8, 4).R; got != want {
				t.Fatalf("at %v fps frame %d is grey %d, want %d", rate, n, got, want)
			}
		}
		for _, n := range []board.Frame{-1, b.Frames()} {
			if _, err := f.Frame(n, 16, 9); !errors.Is(err, ErrOutside) {
				t.Errorf("frame %d: %v", n, err)
			}
		}
	}
}

func TestPassagesByTheirFormula(t *testing.T) {
	m := media{"dark": asPNG(t, flat(color.Gray{40})), "light": asPNG(t, flat(color.Gray{200}))}
	passage := func(k board.Passage, n board.Frame) board.Edit {
		return board.SetTransition([]int{1}, board.Transition{Kind: k, Frames: n})
	}
	grey := func(f *Film, n board.Frame, x int) float64 { return float64(frameOf(t, f, n, 160, 90).RGBAAt(x, 45).R) }

	dissolve := NewFilm(NewCache(m, 0), tale(t, []board.Frame{0, 24, 48}, []board.MediaID{"dark", "light"}, passage(board.Dissolve, 8)))
	for n, want := range map[board.Frame]float64{19: 40, 20: 40 + 160*0.5/8, 23: 40 + 160*3.5/8, 24: 40 + 160*4.5/8, 27: 40 + 160*7.5/8, 28: 200} {
		if got := grey(dissolve, n, 80); math.Abs(got-want) > 1 {
			t.Errorf("dissolve: frame %d is grey %g, want %g", n, got, want)
		}
	}
	fade := NewFilm(NewCache(m, 0), tale(t, []board.Frame{0, 24, 48}, []board.MediaID{"dark", "light"}, passage(board.Fade, 8)))
	for n, want := range map[board.Frame]float64{19: 40, 20: 40 * 7.0 / 8, 23: 40 * 1.0 / 8, 24: 200 * 1.0 / 8, 27: 200 * 7.0 / 8, 28: 200} {
		if got := grey(fade, n, 80); math.Abs(got-want) > 1 {
			t.Errorf("fade: frame %d is grey %g, want %g", n, got, want)
		}
	}
	wipe := NewFilm(NewCache(m, 0), tale(t, []board.Frame{0, 24, 48}, []board.MediaID{"dark", "light"}, passage(board.Wipe, 8)))
	for n := board.Frame(20); n < 28; n++ {
		edge := int(160 * (float64(n-20) + 0.5) / 8)
		if l, r := grey(wipe, n, edge-1), grey(wipe, n, edge); l != 200 || r != 40 {
			t.Errorf("wipe: frame %d has %g and %g at %d, want 200 and 40", n, l, r, edge)
		}
	}
	// A fade at the start of a film comes out of black, in the half that is
	// left of it; so does a dissolve, from nothing.
	for kind, want := range map[board.Passage][2]float64{board.Fade: {40.0 / 8, 40.0 * 7 / 8}, board.Dissolve: {40.0 / 8, 40.0 * 7 / 8}} {
		first := NewFilm(NewCache(m, 0), tale(t, []board.Frame{0, 24}, []board.MediaID{"dark"}, board.SetTransition([]int{0}, board.Transition{Kind: kind, Frames: 8})))
		if a, z := grey(first, 0, 80), grey(first, 3, 80); math.Abs(a-want[0]) > 1 || math.Abs(z-want[1]) > 1 {
			t.Errorf("%s at the start: grey %g and %g, want %g", kind, a, z, want)
		}
	}
	// In a film of another shape too, black is black to the edge.
	square := NewFilm(NewCache(m, 0), tale(t, []board.Frame{0, 24}, []board.MediaID{"dark"}, board.SetAspect(board.Aspect{W: 1, H: 1}),
		board.SetTransition([]int{0}, board.Transition{Kind: board.Dissolve, Frames: 255})))
	if got := frameOf(t, square, 0, 90, 90).RGBAAt(45, 2); got.R > 1 || got.A != 255 {
		t.Errorf("the first frame of a square film is %v at its edge", got)
	}
}

// A move lasts as long as its panel is seen, dissolves included, and both
// panels of a dissolve go on moving.
func TestMovesGoOnThroughDissolves(t *testing.T) {
	m := media{"a": asPNG(t, spot(320, 180, 160, 90)), "b": asPNG(t, flat(color.Gray{40}))}
	move := board.CameraMove{To: board.Framing{At: board.Point{X: 0.2}}}
	b := tale(t, []board.Frame{0, 24, 48}, []board.MediaID{"a", "b"}, board.SetMove([]int{0, 1}, move),
		board.SetTransition([]int{1}, board.Transition{Kind: board.Dissolve, Frames: 8}))
	f := NewFilm(NewCache(m, 0), b)
	x := func(v view) float64 { return v.framing.At.X }
	for n, want := range map[board.Frame]float64{0: 0, 14: 0.2 * 14 / 27, 19: 0.2 * 19 / 27, 27: 0.2} {
		if got := x(f.Shot(n).up); math.Abs(got-want) > 1e-9 {
			t.Errorf("frame %d: the first panel is at %.4f, want %.4f", n, got, want)
		}
	}
	for n, want := range map[board.Frame]float64{20: 0, 27: 0.2 * 7 / 27} {
		if got := x(f.Shot(n).next); math.Abs(got-want) > 1e-9 {
			t.Errorf("frame %d: the second panel is at %.4f, want %.4f", n, got, want)
		}
	}
	if s := f.Shot(47); s.passage != board.Cut || math.Abs(x(s.up)-0.2) > 1e-9 {
		t.Errorf("the last frame is %+v", s)
	}
	if a, z := f.PanelShot(1, 0), f.Shot(28); a.passage != board.Cut || x(a.up) <= 0 || x(a.up) >= x(z.up) {
		t.Errorf("the panel alone is %+v, the film then %+v", a, z)
	}
}

func TestFilmsOfOtherShapes(t *testing.T) {
	m := media{"light": asPNG(t, flat(color.Gray{200}))}
	for _, c := range []struct {
		shape board.Aspect
		w, h  int
		frame image.Rectangle
	}{
		{board.Aspect{}, 160, 90, image.Rect(0, 0, 160, 90)},
		{board.Aspect{W: 239, H: 100}, 1920, 804, image.Rect(0, 0, 1920, 804)},
		{board.Aspect{W: 9, H: 16}, 608, 1080, image.Rect(0, 0, 608, 1080)},
		{board.Aspect{W: 4, H: 3}, 160, 90, image.Rect(20, 0, 140, 90)},
		{board.Aspect{W: 239, H: 100}, 160, 90, image.Rect(0, 11, 160, 78)},
	} {
		b := tale(t, []board.Frame{0, 9}, []board.MediaID{"light"}, board.SetAspect(c.shape), board.Place([]int{0}, board.Placement{Fit: board.Filled}))
		img := frameOf(t, NewFilm(NewCache(m, 0), b), 0, c.w, c.h)
		if got := frameIn(c.shape, c.w, c.h); got != c.frame {
			t.Errorf("%v in %d x %d is at %v, want %v", c.shape, c.w, c.h, got, c.frame)
		}
		for _, p := range []image.Point{{0, 0}, {c.w - 1, c.h - 1}, {c.w / 2, 0}, {0, c.h / 2}, {c.w / 2, c.h / 2}} {
			want := Surround
			if p.In(c.frame) {
				want = color.RGBA{200, 200, 200, 255}
			}
			if got := img.RGBAAt(p.X, p.Y); got != want {
				t.Errorf("%v in %d x %d: %v is %v, want %v", c.shape, c.w, c.h, p, got, want)
			}
		}
	}
}

// Captions stay while the camera moves; labels move with the picture.
func TestLetteringAndTheCamera(t *testing.T) {
	label := board.NewLetter(board.Label, "x", board.Aspect{})
	label.At, label.To = board.Point{}, board.Point{}
	caption := board.NewLetter(board.CaptionCard, "x", board.Aspect{})
	at := func(l board.Letter, f board.Framing) (x, y float64) {
		b := tale(t, []board.Frame{0, 9}, []board.MediaID{""}, board.AddLetter([]int{0}, l), board.SetMove([]int{0}, board.CameraMove{From: f, To: f}))
		img := frameOf(t, NewFilm(NewCache(media{}, 0), b), 0, 320, 180)
		n := 0.0
		for py := range 180 {
			for px := range 320 {
				if p := img.RGBAAt(px, py); p != Blank && p.R < 128 {
					x, y, n = x+float64(px), y+float64(py), n+1
				}
			}
		}
		if n == 0 {
			return -1, -1
		}
		return x / n, y / n
	}
	x0, y0 := at(label, board.Framing{})
	x1, y1 := at(label, board.Framing{At: board.Point{X: 0.1, Y: -0.2}})
	if math.Abs(x0-18-x1) > 0.3 || math.Abs(y0+36-y1) > 0.3 {
		t.Errorf("the label went from %.1f, %.1f to %.1f, %.1f", x0, y0, x1, y1)
	}
	x0, y0 = at(caption, board.Framing{})
	x1, y1 = at(caption, board.Framing{At: board.Point{X: 0.1, Y: -0.2}, Width: 0.3})
	if x0 != x1 || y0 != y1 || x0 < 0 {
		t.Errorf("the caption went from %.1f, %.1f to %.1f, %.1f", x0, y0, x1, y1)
	}
}

func TestChanges(t *testing.T) {
	m := media{"a": nil, "b": nil}
	b := tale(t, []board.Frame{0, 6, 12, 20, 30}, []board.MediaID{"a", "a", "b", "a"}, board.SetStep(2),
		board.SetMove([]int{2}, board.CameraMove{To: board.Framing{Width: 0.5}}), board.SetTransition([]int{3}, board.Transition{Kind: board.Dissolve, Frames: 3}))
	// The move is seen in 12..22, so in 6 exposures; the dissolve in 19..22.
	if got, want := fmt.Sprint(NewFilm(NewCache(m, 0), b).Changes()), "[0 12 14 16 18 19 20 21 22]"; got != want {
		t.Errorf("changes at %s, want %s", got, want)
	}
	if got := NewFilm(NewCache(m, 0), board.New()).Changes(); got != nil {
		t.Errorf("an empty film changes at %v", got)
	}
}

func TestFilmErrors(t *testing.T) {
	m := media{"text": []byte("a list of props"), "light": asPNG(t, flat(color.White))}
	b := tale(t, []board.Frame{0, 9, 18, 27, 36}, []board.MediaID{"light", "text", "gone", "light"}, board.SetSketch([]int{3}, "text"),
		board.SetTransition([]int{1}, board.Transition{Kind: board.Dissolve, Frames: 4}))
	f := NewFilm(NewCache(m, 0), b)
	for n, c := range map[board.Frame]struct {
		is   error
		says string
	}{
		12: {ErrFormat, "panel 2: picture text: not a PNG"}, 8: {ErrFormat, "panel 1: picture text"},
		20: {fs.ErrNotExist, "panel 3: "}, 30: {board.ErrSketch, "panel 4: sketch text: not a sketch"},
	} {
		if img, err := f.Frame(n, 16, 9); img != nil || !errors.Is(err, c.is) || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("frame %d: %v, want %q", n, err, c.says)
		}
	}
	for _, i := range []int{-1, 4} {
		if _, err := f.Panel(i, 0, 16, 9); !errors.Is(err, ErrOutside) {
			t.Errorf("panel %d: %v", i, err)
		}
	}
	if img, err := f.Frame(0, 16, 9); err != nil || img == nil {
		t.Errorf("a frame beside them: %v", err)
	}
	if f.pics.Drawn(f.Shot(12), 16, 9) != nil || f.pics.Drawn(f.Shot(0), 16, 9) == nil || f.pics.Drawn(f.Shot(0), 8, 4) != nil {
		t.Error("Drawn does not tell what is drawn")
	}
}

// A small cache gives the same pixels, whoever asks in whatever order.
func TestFilmFromAllSides(t *testing.T) {
	b, m := showpiece(t)
	want := map[board.Frame]*image.RGBA{}
	roomy := NewFilm(NewCache(m, 0), b)
	for n := range b.Frames() {
		want[n] = frameOf(t, roomy, n, 64, 36)
	}
	tight := NewFilm(NewCache(m, 5*4*64*36), b)
	var all sync.WaitGroup
	for g := range 4 {
		all.Go(func() {
			for i := range 20 {
				n := board.Frame((i*17 + g*29) % int(b.Frames()))
				img, err := tight.Frame(n, 64, 36)
				if err != nil || furthest(img, want[n]) != 0 {
					t.Errorf("frame %d: %v, or other pixels", n, err)
				}
			}
		})
	}
	all.Wait()
	checkUsed(t, tight.pics)
}
