package board

import (
	"math"
	"testing"
)

func TestParseAspect(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  Aspect
		says  string // how it is written back
	}{
		{"16:9", Aspect{16, 9}, "16:9"},
		{" 1920 x 1080 ", Aspect{16, 9}, "16:9"},
		{"4/3", Aspect{4, 3}, "4:3"},
		{"1:1", Aspect{1, 1}, "1:1"},
		{"9:16", Aspect{9, 16}, "9:16"},
		{"2.39:1", Aspect{239, 100}, "2.39:1"},
		{"2,39", Aspect{239, 100}, "2.39:1"},
		{"1.85:1", Aspect{37, 20}, "1.85:1"},
		{"2", Aspect{2, 1}, "2:1"},
	} {
		got, err := ParseAspect(c.typed)
		if err != nil || got != c.want || got.String() != c.says {
			t.Errorf("ParseAspect(%q) = %v, %v, want %v", c.typed, got, err, c.says)
		}
		back, err := ParseAspect(got.String())
		if err != nil || back != got {
			t.Errorf("%v reads back as %v, %v", got, back, err)
		}
	}
	for _, typed := range []string{"", "wide", "16:", ":9", "0:1", "1:0", "-16:9", "16:9:4", "9:1", "1:4.1", "1e3:1", "3.14159:1", "NaN"} {
		if got, err := ParseAspect(typed); err == nil {
			t.Errorf("ParseAspect(%q) = %v, want an error", typed, got)
		}
	}
	if (Aspect{}).String() != "16:9" || (Aspect{}).Ratio() != 16.0/9 {
		t.Error("the zero value is not 16:9")
	}
}

// Sizes in use: of DCI and HD deliveries at 1920 wide and 1080 high, rounded to
// even numbers for 4:2:0.
func TestAspectInside(t *testing.T) {
	for _, c := range []struct {
		shape string
		w, h  int
		wantW int
		wantH int
	}{
		{"16:9", 1920, 1080, 1920, 1080},
		{"1.85", 1920, 1080, 1920, 1038},
		{"2.39", 1920, 1080, 1920, 804},
		{"2.35", 1920, 1080, 1920, 818},
		{"4:3", 1920, 1080, 1440, 1080},
		{"1:1", 1920, 1080, 1080, 1080},
		{"9:16", 1920, 1080, 608, 1080},
		{"9:16", 1080, 1920, 1080, 1920},
		{"16:9", 2, 2, 2, 2},
	} {
		a, err := ParseAspect(c.shape)
		if err != nil {
			t.Fatal(err)
		}
		if w, h := a.Inside(c.w, c.h); w != c.wantW || h != c.wantH {
			t.Errorf("%s inside %d x %d is %d x %d, want %d x %d", c.shape, c.w, c.h, w, h, c.wantW, c.wantH)
		}
	}
}

func TestSetAspect(t *testing.T) {
	b := do(t, atFrames(0, 8), SetAspect(Aspect{239, 100}))
	if b.Aspect.String() != "2.39:1" {
		t.Errorf("the shape is %v", b.Aspect)
	}
	if b = do(t, b, SetAspect(Aspect{1920, 1080})); b.Aspect != (Aspect{}) {
		t.Errorf("16:9 is kept as %+v", b.Aspect)
	}
	refused(t, b, SetAspect(Aspect{5, 1}), "too narrow")
	refused(t, b, SetAspect(Aspect{-16, -9}), "makes no sense")
}

// The charts in 12 equal steps that animators draw, to four decimals: u^2,
// 1-(1-u)^2 and 3u^2-2u^3, as computed for the handbook's spacing charts.
func TestSpacingCharts(t *testing.T) {
	for _, c := range []struct {
		spacing Spacing
		want    [11]float64 // after 1 to 11 of 12 steps
	}{
		{SlowOut, [11]float64{.0069, .0278, .0625, .1111, .1736, .25, .3403, .4444, .5625, .6944, .8403}},
		{SlowIn, [11]float64{.1597, .3056, .4375, .5556, .6597, .75, .8264, .8889, .9375, .9722, .9931}},
		{SlowInOut, [11]float64{.0197, .0741, .1563, .2593, .3762, .5, .6238, .7407, .8438, .9259, .9803}},
	} {
		for i, want := range c.want {
			if got := c.spacing.At(float64(i+1) / 12); math.Abs(got-want) > 0.00006 {
				t.Errorf("%s after %d of 12 steps: %.4f, want %.4f", c.spacing, i+1, got, want)
			}
		}
	}
	for _, s := range Spacings {
		if s.At(-1) != 0 || s.At(0) != 0 || s.At(1) != 1 || s.At(2) != 1 {
			t.Errorf("%q does not run from 0 to 1", s)
		}
	}
}

func TestFramingAt(t *testing.T) {
	pan := CameraMove{From: Framing{Point{-0.4, 0}, 0.5}, To: Framing{Point{0.4, 0.2}, 0.5}}
	for _, c := range []struct {
		name    string
		f, seen Frame
		step    int
		spacing Spacing
		wantX   float64
	}{
		{"it begins where it begins", 0, 25, 1, Even, -0.4},
		{"by half its way it is at the half", 12, 25, 1, Even, 0},
		{"by half its way on twos", 24, 50, 2, Even, 0},
		{"it ends where it ends", 24, 25, 1, Even, 0.4},
		{"twos show each framing two frames", 13, 25, 2, Even, 0},
		{"the last of 24 on twos", 23, 24, 2, Even, 0.4},
		{"a quarter of the way with a slow out", 12, 25, 1, SlowOut, -0.2},
		{"three quarters with a slow in", 12, 25, 1, SlowIn, 0.2},
		{"half with both", 12, 25, 1, SlowInOut, 0},
		{"before it is seen", -5, 25, 1, Even, -0.4},
		{"after it is seen", 99, 25, 1, Even, 0.4},
		{"one exposure is where it begins", 1, 2, 2, Even, -0.4},
	} {
		m := pan
		m.Spacing = c.spacing
		got := m.FramingAt(c.f, c.seen, c.step)
		if math.Abs(got.At.X-c.wantX) > 1e-9 || math.Abs(got.At.Y-(c.wantX+0.4)/4) > 1e-9 || got.Part() != 0.5 {
			t.Errorf("%s: %+v, want x %g", c.name, got, c.wantX)
		}
	}
	push := CameraMove{To: Framing{Width: 0.5}}
	if got := push.At(0.5).Part(); got != 0.75 {
		t.Errorf("half a push from 1 to 0.5 is %g wide, want 0.75", got)
	}
	if !(CameraMove{From: Framing{Width: 1}}).Holds() || push.Holds() {
		t.Error("Holds does not tell a hold from a push")
	}
}

func TestSplitCutsTheMoveInTwo(t *testing.T) {
	for _, s := range Spacings {
		whole := CameraMove{From: Framing{Point{-0.5, 0}, 1}, To: Framing{Point{0.5, 0}, 0.5}, Spacing: s}
		b := do(t, do(t, atFrames(0, 24), SetMove(one(0), whole)), Split(0, 6))
		first, second := b.Panels[0].Drawing().Travel, b.Panels[1].Drawing().Travel
		if first.From != whole.From || second.To != whole.To || first.To != second.From || first.To != whole.At(0.25) {
			t.Errorf("%q: split into %+v and %+v", s, first, second)
		}
	}
	hold := CameraMove{From: Framing{Width: 0.5}, To: Framing{Width: 0.5}}
	b := do(t, do(t, atFrames(0, 24), SetMove(one(0), hold)), Split(0, 6))
	if b.Panels[0].Drawing().Travel != hold || b.Panels[1].Drawing().Travel != hold {
		t.Error("a hold does not stay one")
	}
}
