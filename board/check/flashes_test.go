package check

import (
	"context"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"stillbeat/board"
)

// grey and rgb are the colours of the sequences below.
func grey(v uint8) color.RGBA { return color.RGBA{v, v, v, 255} }
func rgb(r, g, b uint8) color.RGBA {
	return color.RGBA{r, g, b, 255}
}

// held is a colour that stays for so many frames.
type held struct {
	c color.RGBA
	n int
}

// alternating holds two colours by turns, n frames each, so many times in all,
// and then the last for the rest of 32 frames.
func alternating(a, b color.RGBA, n, times int) []held {
	var out []held
	total := 0
	for i := range times {
		c := a
		if i%2 == 1 {
			c = b
		}
		out = append(out, held{c, n})
		total += n
	}
	return append(out, held{out[len(out)-1].c, max(1, 32-total)})
}

// filled returns a picture of one colour.
func filled(w, h int, c color.RGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

// shown turns a sequence into the frames of a film, w x h pixels, where draw
// paints a colour.
func shown(s []held, paint func(color.RGBA) *image.RGBA) (frames func(board.Frame) (*image.RGBA, error), length board.Frame) {
	var all []*image.RGBA
	for _, h := range s {
		img := paint(h.c)
		for range h.n {
			all = append(all, img)
		}
	}
	return func(n board.Frame) (*image.RGBA, error) { return all[n], nil }, board.Frame(len(all))
}

func screened(t testing.TB, rate board.FrameRate, s []held, paint func(color.RGBA) *image.RGBA) Flashing {
	t.Helper()
	frames, length := shown(s, paint)
	found, err := Flashes(context.Background(), frames, FlashOptions{Rate: rate, Length: length})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func whole(c color.RGBA) *image.RGBA { return filled(16, 12, c) }

var fps30 = board.FrameRate{Num: 30, Den: 1}

// The sequences are published test media for this criterion
// (jbjord/pse-test-media edf799a), at 30 frames a second; the counts were
// worked out from them.
func TestPublishedSequencesPassAndFail(t *testing.T) {
	g := func(values ...uint8) (out []held) { // a frame each
		for _, v := range values {
			out = append(out, held{grey(v), 1})
		}
		return out
	}
	h := func(pairs ...int) (out []held) { // grey, frames
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, held{grey(uint8(pairs[i])), pairs[i+1]})
		}
		return out
	}
	red, deep, teal, pale := rgb(101, 34, 34), rgb(100, 34, 34), rgb(9, 63, 63), rgb(25, 62, 62)
	for _, c := range []struct {
		name   string
		frames []held
		rule   Rule
		most   int
		passes bool
	}{
		{"seven changes of a tenth of the light in a second fail", append(g(64, 109, 64, 109, 64, 109, 64), held{grey(109), 25}), General, 7, false},
		{"six of them pass", append(g(64, 109, 64, 109, 64, 109), held{grey(64), 26}), General, 6, true},
		{"changes of less than a tenth pass", append(g(64, 108, 64, 108, 64, 108, 64), held{grey(108), 25}), General, 0, true},
		{"seven small changes of brighter light fail", append(g(136, 159, 136, 159, 136, 159, 136), held{grey(159), 25}), General, 7, false},
		{"seven changes within 30 frames fail", h(64, 1, 109, 1, 64, 9, 109, 1, 64, 9, 109, 1, 64, 8, 109, 1, 64, 3), General, 7, false},
		{"the seventh a full second after the first passes", h(64, 1, 109, 1, 64, 9, 109, 1, 64, 9, 109, 1, 64, 9, 109, 1, 64, 2), General, 6, true},
		{"seven changes to and from saturated red fail", alternating(red, teal, 1, 8), Red, 7, false},
		{"a red that is not saturated passes", alternating(deep, teal, 1, 8), Red, 0, true},
		{"colours that are near each other pass", alternating(red, pale, 1, 8), Red, 0, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := screened(t, fps30, c.frames, whole)
			if found.Most[c.rule] != c.most || found.Passes(c.rule) != c.passes {
				t.Errorf("%d changes in the worst second, want %d", found.Most[c.rule], c.most)
			}
			fails := false
			for _, f := range found.Flashes {
				fails = fails || f.Rule == c.rule && !f.KeptUp
			}
			if fails == c.passes {
				t.Errorf("it is said to fail: %v; found %+v", fails, found.Flashes)
			}
		})
	}
}

// Light of greys, worked out from the formula of WCAG 2.2; the distances and
// ratios of the colours of the published sequences.
func TestLightOfGreysAndColours(t *testing.T) {
	for v, want := range map[uint8]float64{64: .05127, 100: .12744, 108: .14996, 109: .15293, 128: .21586, 188: .50289, 231: .7991} {
		if got := linear[v]; math.Abs(float64(got)-want) > 5e-6 && !(v == 231 && math.Abs(float64(got)-want) < 5e-5) {
			t.Errorf("grey %d gives %.5f of white's light, want %.5f", v, got, want)
		}
	}
	if linear[89] >= 0.1 || linear[90] < 0.1 || linear[231] >= 0.8 || linear[232] < 0.8 {
		t.Error("90 is not the first grey from a tenth on, or 231 not the last below 0.8")
	}
	ratio := func(c color.RGBA) float64 {
		r, g, b := float64(linear[c.R]), float64(linear[c.G]), float64(linear[c.B])
		return r / (r + g + b)
	}
	apart := func(c, d color.RGBA) float64 {
		of := func(c color.RGBA) chroma { return chromaOf(linear[c.R], linear[c.G], linear[c.B]) }
		return math.Sqrt(float64(of(c).squared(of(d))))
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"the share of red in 101 34 34", ratio(rgb(101, 34, 34)), .8027},
		{"the share of red in 100 34 34", ratio(rgb(100, 34, 34)), .7993},
		{"from 101 34 34 to 9 63 63", apart(rgb(101, 34, 34), rgb(9, 63, 63)), .2058},
		{"from 101 34 34 to 25 62 62", apart(rgb(101, 34, 34), rgb(25, 62, 62)), .1954},
		{"from red to red's corner", apart(rgb(255, 0, 0), rgb(255, 0, 0)), 0},
	} {
		if math.Abs(c.got-c.want) > 5e-5 {
			t.Errorf("%s is %.5f, want %.4f", c.what, c.got, c.want)
		}
	}
	if c := chromaOf(linear[255], 0, 0); c.squared(redmost) > 1e-6 {
		t.Errorf("red is at %v", c)
	}
	if c := chromaOf(1, 1, 1); c.squared(white) > 1e-6 {
		t.Errorf("white is at %v", c)
	}
}

// Full panels of black and white, each held n frames: which holds fail and the
// least that passes, worked out for windows of as many frames as the rate.
func TestLeastHoldThatDoesNotFlash(t *testing.T) {
	for _, c := range []struct {
		rate  board.FrameRate
		least board.Frame
	}{
		{board.FrameRate{Num: 8, Den: 1}, 2}, {board.FrameRate{Num: 12, Den: 1}, 2}, {board.FrameRate{Num: 15, Den: 1}, 3},
		{board.FrameRate{Num: 24, Den: 1}, 4}, {board.FrameRate{Num: 25, Den: 1}, 5}, {fps30, 5},
	} {
		if got := LeastHold(c.rate); got != c.least {
			t.Errorf("at %v fps the least hold is %d, want %d", c.rate, got, c.least)
		}
		for n := board.Frame(1); n <= c.least+1; n++ {
			found := screened(t, c.rate, alternating(grey(0), grey(255), int(n), 40), whole)
			if passes := found.Passes(General); passes != (n >= c.least) {
				t.Errorf("at %v fps panels of %d frames pass: %v (%d changes)", c.rate, n, passes, found.Most[General])
			}
		}
	}
}

// A part of the picture that flashes fails if it takes more than a quarter of a
// 10-degree field: 341 x 256 pixels of a screen of 1024 x 768.
func TestAreaThatFlashes(t *testing.T) {
	part := func(w, h int, at image.Rectangle) func(color.RGBA) *image.RGBA {
		return func(c color.RGBA) *image.RGBA {
			img := filled(w, h, grey(128))
			draw.Draw(img, at, image.NewUniform(c), image.Point{}, draw.Src)
			return img
		}
	}
	checker := func(c color.RGBA) *image.RGBA { // every fourth pixel, spread out
		img := filled(192, 144, grey(0))
		for y := 0; y < 144; y += 2 {
			for x := 0; x < 192; x += 2 {
				img.SetRGBA(x, y, c)
			}
		}
		return img
	}
	for _, c := range []struct {
		name   string
		paint  func(color.RGBA) *image.RGBA
		passes bool
		share  float64
	}{
		{"all of the picture", part(192, 144, image.Rect(0, 0, 192, 144)), false, 1},
		{"a quarter of a field", part(192, 144, image.Rect(10, 10, 42, 34)), true, 0},
		{"a row more than a quarter of a field", part(192, 144, image.Rect(10, 10, 42, 35)), false, 32 * 25.0 / 3072},
		{"a quarter in a corner", part(192, 144, image.Rect(160, 120, 192, 144)), true, 0},
		{"more than a quarter in a corner", part(192, 144, image.Rect(160, 119, 192, 144)), false, 32 * 25.0 / 3072},
		{"a thin line across", part(192, 144, image.Rect(0, 70, 192, 80)), true, 0},
		{"a band across", part(192, 144, image.Rect(0, 70, 192, 83)), false, 13.0 / 48},
		{"a quarter spread out evenly", checker, true, 0},
		{"at half the size, a quarter of a field", part(96, 72, image.Rect(10, 10, 26, 22)), true, 0},
		{"at half the size, more", part(96, 72, image.Rect(10, 10, 26, 23)), false, 16 * 13.0 / 768},
		{"at full size, a quarter of a field", part(1024, 768, image.Rect(100, 100, 270, 228)), true, 0}, // 21760 of 87296
		{"at full size, more", part(1024, 768, image.Rect(100, 100, 271, 228)), false, 171 * 128.0 / 87296},
		{"a film in a tall shape", part(81, 144, image.Rect(0, 0, 81, 10)), true, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := screened(t, fps30, alternating(grey(0), grey(255), 1, 12), c.paint)
			if found.Passes(General) != c.passes {
				t.Fatalf("it passes: %v, want %v", !c.passes, c.passes)
			}
			for _, f := range found.Flashes {
				if f.Rule == General && !f.KeptUp && math.Abs(f.Share-c.share) > 1e-9 {
					t.Errorf("it takes %.4f of a field, want %.4f", f.Share, c.share)
				}
			}
		})
	}
	if f := fieldOf(image.Pt(1024, 768)); f != (image.Pt(341, 256)) {
		t.Errorf("the field is %v", f)
	}
	if w, h := SizeFor(board.Aspect{}); w != 192 || h != 108 || fieldOf(image.Pt(w, h)) != (image.Pt(64, 48)) {
		t.Errorf("a film in 16:9 is drawn in %d x %d", w, h)
	}
	if w, h := SizeFor(board.Aspect{W: 9, H: 16}); w != 81 || h != 144 {
		t.Errorf("a film in 9:16 is drawn in %d x %d", w, h)
	}
}

func TestMoreRulesOfFlashing(t *testing.T) {
	ramp := func(steps int) (out []held) { // up and down in so many frames each way
		for range 5 {
			for i := range steps {
				out = append(out, held{grey(uint8(255 * i / steps)), 1})
			}
			for i := range steps {
				out = append(out, held{grey(uint8(255 * (steps - i) / steps)), 1})
			}
		}
		return out
	}
	for _, c := range []struct {
		name   string
		frames []held
		rule   Rule
		passes bool
	}{
		{"slow rises and falls count once each and fail if there are too many", ramp(4), General, false},
		{"slower ones pass", ramp(6), General, true},
		{"between states brighter than 0.80 nothing counts", alternating(grey(232), grey(255), 1, 20), General, true},
		{"one darker state does", alternating(grey(231), grey(255), 1, 20), General, false},
		{"red against black is red", alternating(rgb(200, 0, 0), grey(0), 1, 20), Red, false},
		{"what is nearly black has no colour", alternating(rgb(9, 0, 0), rgb(0, 0, 9), 1, 20), Red, true},
		{"red and blue that dissolve are red", dissolving(rgb(255, 0, 0), rgb(0, 0, 255), 3), Red, false},
		{"a screen of 200 candelas has other limits: small changes of dark greys", alternating(grey(64), grey(109), 1, 20), Television, true},
		{"and large ones", alternating(grey(64), grey(120), 1, 20), Television, false},
		{"and contrast from 160 candelas on, too small", alternating(grey(234), grey(245), 1, 20), Television, true},
		{"and large enough", alternating(grey(234), grey(246), 1, 20), Television, false},
		{"the older rule for red is stricter on near colours", alternating(rgb(101, 34, 34), rgb(25, 62, 62), 1, 20), OldRed, false},
		{"but wants a saturated one", alternating(rgb(100, 34, 34), rgb(9, 63, 63), 1, 20), OldRed, true},
	} {
		if found := screened(t, fps30, c.frames, whole); found.Passes(c.rule) != c.passes {
			t.Errorf("%s: it passes: %v (%d changes)", c.name, !c.passes, found.Most[c.rule])
		}
	}
}

// dissolving goes from one colour to another and back in so many frames each,
// some times.
func dissolving(a, b color.RGBA, n int) (out []held) {
	mix := func(x, y uint8, k int) uint8 { return uint8((int(x)*(n-k) + int(y)*k) / n) }
	for range 5 {
		for k := range n {
			out = append(out, held{rgb(mix(a.R, b.R, k), mix(a.G, b.G, k), mix(a.B, b.B, k)), 1})
		}
		for k := range n {
			out = append(out, held{rgb(mix(b.R, a.R, k), mix(b.G, a.G, k), mix(b.B, a.B, k)), 1})
		}
	}
	return out
}

func TestWhereTheFlashingIs(t *testing.T) {
	calm := held{grey(128), 100}
	s := append([]held{calm}, alternating(grey(0), grey(255), 2, 10)...)
	s = append(s, calm)
	found := screened(t, fps30, s, whole)
	if len(found.Flashes) == 0 {
		t.Fatal("nothing is found")
	}
	// The first change is at frame 100; ten states of two frames, and back to 128 at 132.
	if f := found.Flashes[0]; f.Span.Start != 100 || f.Span.End < 118 || f.Span.End > 133 || f.Changes < 10 || f.Share != 1 {
		t.Errorf("found %+v", f)
	}
}

// A film that passes by itself may flash where its end meets its beginning.
func TestLoopsAreJudgedLooping(t *testing.T) {
	s := append(alternating(grey(0), grey(255), 4, 4)[:4], held{grey(255), 60})
	s = append(s, alternating(grey(0), grey(255), 4, 4)[:4]...)
	for _, c := range []struct {
		loop, passes bool
	}{{false, true}, {true, false}} {
		frames, length := shown(s, whole)
		found, err := Flashes(context.Background(), frames, FlashOptions{Rate: fps30, Length: length, Loop: c.loop})
		if err != nil || found.Passes(General) != c.passes {
			t.Errorf("looping %v it passes: %v, %v (%d changes)", c.loop, !c.passes, err, found.Most[General])
		}
		for _, f := range found.Flashes {
			if f.Span.Start < 0 || f.Span.End > length || f.Span.Len() == 0 {
				t.Errorf("the flashing is at %v of %d frames", f.Span, length)
			}
		}
	}
	two := []held{{grey(0), 2}, {grey(255), 2}} // shorter than the second that is looked at
	frames, length := shown(two, whole)
	found, err := Flashes(context.Background(), frames, FlashOptions{Rate: fps30, Length: length, Loop: true})
	if err != nil || found.Most[General] != 15 || len(found.Flashes) == 0 || found.Flashes[0].Span.End > length {
		t.Errorf("a loop of four frames has %d changes in %+v, %v", found.Most[General], found.Flashes, err)
	}
}

func TestFlashingThatIsKeptUp(t *testing.T) {
	for _, c := range []struct {
		name  string
		times int
		found bool
	}{{"six changes a second for six seconds", 36, true}, {"for three seconds", 18, false}} {
		found := screened(t, fps30, append(alternating(grey(0), grey(255), 5, c.times), held{grey(0), 90}), whole)
		long := 0
		for _, f := range found.Flashes {
			if f.Rule == General && f.KeptUp {
				long++
			}
		}
		if (long == 1) != c.found || !found.Passes(General) {
			t.Errorf("%s: found %+v", c.name, found.Flashes)
		}
	}
	if found := screened(t, fps30, alternating(grey(0), grey(255), 10, 60), whole); len(found.Flashes) > 0 {
		t.Errorf("three changes a second: found %+v", found.Flashes)
	}
}

func TestFlashesAsksForChangesAlone(t *testing.T) {
	var asked []board.Frame
	var told []float64
	frames := func(n board.Frame) (*image.RGBA, error) {
		asked = append(asked, n)
		return whole(grey(uint8(n))), nil
	}
	_, err := Flashes(context.Background(), frames, FlashOptions{Rate: fps30, Length: 90, Changes: []board.Frame{0, 7, 80},
		Progress: func(done float64) { told = append(told, done) }})
	if err != nil || len(asked) != 3 || asked[1] != 7 || told[len(told)-1] != 1 {
		t.Errorf("asked for %v, told %v, %v", asked, told, err)
	}
}

func TestFlashesStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	broken := errors.New("no such frame")
	frames := func(n board.Frame) (*image.RGBA, error) {
		if n == 5 {
			cancel()
		}
		return whole(grey(0)), nil
	}
	o := FlashOptions{Rate: fps30, Length: 100}
	if _, err := Flashes(ctx, frames, o); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled, it says %v", err)
	}
	if _, err := Flashes(context.Background(), func(board.Frame) (*image.RGBA, error) { return nil, broken }, o); !errors.Is(err, broken) {
		t.Errorf("it says %v", err)
	}
	grows := func(n board.Frame) (*image.RGBA, error) { return filled(int(n)+1, 2, grey(0)), nil }
	if _, err := Flashes(context.Background(), grows, o); err == nil {
		t.Error("frames of several sizes are taken")
	}
}
