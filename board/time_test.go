package board

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// Frame lengths, frames a minute and samples a frame follow from the exact
// fractions of SMPTE ST 12-1:2014 (as listed by OpenTimelineIO's
// rationalTime.cpp); 1601.6 samples a frame at 29.97 and 48 kHz repeats as 8008
// samples in five frames.
func TestRatesHaveTheirTradeLengths(t *testing.T) {
	for _, c := range []struct {
		name             string
		ms, minute       float64
		at48000, at44100 float64
	}{
		{"8", 125, 480, 6000, 5512.5},
		{"12", 83.3333, 720, 4000, 3675},
		{"15", 66.6667, 900, 3200, 2940},
		{"23.976", 41.708333, 1438.5614, 2002, 1839.3375},
		{"24", 41.6667, 1440, 2000, 1837.5},
		{"25", 40, 1500, 1920, 1764},
		{"29.97", 33.366667, 1798.2018, 1601.6, 1471.47},
		{"30", 33.3333, 1800, 1600, 1470},
	} {
		r, err := ParseRate(c.name)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"ms a frame", 1000 * r.Seconds(1), c.ms},
			{"frames a minute", 60 * r.Float(), c.minute},
			{"samples a frame at 48 kHz", 48000 * r.Seconds(1), c.at48000},
			{"samples a frame at 44.1 kHz", 44100 * r.Seconds(1), c.at44100},
		} {
			if math.Abs(v.got-v.want) > 0.00006 {
				t.Errorf("%s fps: %s = %.6f, want %.6f", c.name, v.what, v.got, v.want)
			}
		}
	}
}

func TestParseRateReadsWhatPeopleType(t *testing.T) {
	for _, c := range []struct {
		in   string
		want FrameRate
	}{
		{"24", FrameRate{24, 1}},
		{" 25 ", FrameRate{25, 1}},
		{"24fps", FrameRate{24, 1}},
		{"24 FPS", FrameRate{24, 1}},
		{"24.0", FrameRate{24, 1}},
		{"12.5", FrameRate{25, 2}},
		{"12,5", FrameRate{25, 2}},
		{"23.976", FrameRate{24000, 1001}},
		{"23,976", FrameRate{24000, 1001}},
		{"23.98", FrameRate{24000, 1001}},
		{"23.9760", FrameRate{24000, 1001}},
		{"29.97", FrameRate{30000, 1001}},
		{"29.970", FrameRate{30000, 1001}},
		{"59.94", FrameRate{60000, 1001}},
		{"24000/1001", FrameRate{24000, 1001}},
		{"48/2", FrameRate{24, 1}},
		{"030/1", FrameRate{30, 1}},
		{"1", FrameRate{1, 1}},
		{"120", FrameRate{120, 1}},
	} {
		if got, err := ParseRate(c.in); err != nil || got != c.want {
			t.Errorf("ParseRate(%q) = %v, %v, want %v", c.in, got, err, c.want)
		}
	}
}

func TestParseRateRefuses(t *testing.T) {
	for name, c := range map[string]struct{ in, want string }{
		"nothing":               {"", "not a frame rate"},
		"zero":                  {"0", "outside 1 to 120"},
		"negative":              {"-5", "outside 1 to 120"},
		"just too slow":         {"0.999", "outside 1 to 120"},
		"just too fast":         {"120.001", "outside 1 to 120"},
		"not a number":          {"NaN", "not a frame rate"},
		"infinity":              {"Inf", "not a frame rate"},
		"infinity sign":         {"∞", "not a frame rate"},
		"word":                  {"film", "not a frame rate"},
		"exponent":              {"1e9", "not a frame rate"},
		"exponent of megabytes": {"1e999999", "not a frame rate"},
		"small exponent":        {"24e0", "not a frame rate"},
		"hexadecimal":           {"0x18", "not a frame rate"},
		"binary":                {"0b11000", "not a frame rate"},
		"octal":                 {"0o30", "not a frame rate"},
		"underscore":            {"2_4", "not a frame rate"},
		"divided by zero":       {"1/0", "not a frame rate"},
		"divided by nothing":    {"24/", "not a frame rate"},
		"divided twice":         {"24/1/1", "not a frame rate"},
		"two points":            {"2.3.4", "not a frame rate"},
		"thousands":             {"24.000,5", "not a frame rate"},
		"many digits":           {strings.Repeat("9", 100000), "not a frame rate"},
		"endless fraction":      {"23.976023976", "too many digits"},
		"full-width digits":     {"２４", "not a frame rate"},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := ParseRate(c.in)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("ParseRate(%.20q) = %v, %v, want an error that says %q", c.in, r, err, c.want)
			}
			if len(err.Error()) > 200 {
				t.Errorf("the message is %d bytes long", len(err.Error()))
			}
		})
	}
}

func FuzzParseRate(f *testing.F) {
	for _, s := range []string{"24", "23.976", "30000/1001", "12,5 fps", "1e99", "-1/-24", "."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRate(s)
		if err != nil {
			return
		}
		if err := r.Check(); err != nil {
			t.Fatalf("ParseRate(%q) = %v, which Check refuses: %v", s, r, err)
		}
	})
}

func TestRateStringReadsBack(t *testing.T) {
	names := map[string]FrameRate{"59.94": {60000, 1001}, "47.952": {48000, 1001}, "119.88": {120000, 1001},
		"12.5": {25, 2}, "16.667": {16667, 1000}, "1": {1, 1}, "100": {100, 1}, "120": {120, 1}}
	for _, n := range []string{"8", "12", "15", "23.976", "24", "25", "29.97", "30"} {
		names[n], _ = ParseRate(n)
	}
	for name, r := range names {
		if got := r.String(); got != name {
			t.Errorf("%d/%d is written %q, want %q", r.Num, r.Den, got, name)
		}
		if back, err := ParseRate(r.String()); err != nil || back != r {
			t.Errorf("ParseRate(%q) = %v, %v, want %v", r.String(), back, err, r)
		}
	}
	if got := (FrameRate{}).String(); got != "0" {
		t.Errorf("the zero rate is written %q", got)
	}
}

func TestRateCheckRefuses(t *testing.T) {
	for _, r := range []FrameRate{{}, {24, 0}, {24, -1}, {-24, -1}, {-24, 1}, {1, 2}, {121, 1}, {120001, 1000},
		{math.MaxInt64, math.MaxInt64}, {math.MaxInt64, 1}, {24, math.MaxInt64}, {math.MinInt64, 1}} {
		if r.Check() == nil {
			t.Errorf("%d/%d passes", r.Num, r.Den)
		}
	}
}

func TestEveryFrameIsNearestToItsOwnSecond(t *testing.T) {
	for _, r := range append([]FrameRate{{60000, 1001}, {1, 1}, {120, 1}, {999999937, 8333333}}, Rates...) {
		for f := range Frame(200000) {
			if got := r.Nearest(r.Seconds(f)); got != f {
				t.Fatalf("%v fps: Nearest(Seconds(%d)) = %d", r, f, got)
			}
			if got := r.At(r.Seconds(f)); got != f {
				t.Fatalf("%v fps: At(Seconds(%d)) = %d", r, f, got)
			}
		}
	}
}

func TestNearestRoundsHalvesAwayFromZero(t *testing.T) {
	for _, c := range []struct {
		at   float64
		want Frame
	}{
		{22.5 / 24, 23}, // half to even would give 22
		{0.5 / 24, 1}, {0.4999 / 24, 0}, {1.5 / 24, 2}, {-0.5 / 24, -1}, {-0.4999 / 24, 0},
	} {
		if got := frameRate24.Nearest(c.at); got != c.want {
			t.Errorf("Nearest(%g) = %d, want %d", c.at, got, c.want)
		}
	}
}

func TestAtIsTheLastFrameBegun(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	for _, r := range Rates {
		for range 2000 {
			s := rnd.Float64()*700 - 100
			f := r.At(s)
			if r.Seconds(f) > s || r.Seconds(f+1) <= s {
				t.Fatalf("%v fps: At(%v) = %d, which is up from %v to %v", r, s, f, r.Seconds(f), r.Seconds(f+1))
			}
		}
	}
}

func TestSpansAreHalfOpen(t *testing.T) {
	s := Span{10, 20}
	for f, want := range map[Frame]bool{9: false, 10: true, 19: true, 20: false} {
		if s.Contains(f) != want {
			t.Errorf("%v.Contains(%d) = %v", s, f, !want)
		}
	}
	for name, c := range map[string]struct {
		other Span
		want  bool
	}{
		"itself":          {Span{10, 20}, true},
		"the one before":  {Span{0, 10}, false},
		"the one after":   {Span{20, 30}, false},
		"last frame":      {Span{19, 30}, true},
		"first frame":     {Span{0, 11}, true},
		"inside":          {Span{14, 15}, true},
		"around":          {Span{0, 99}, true},
		"empty inside":    {Span{15, 15}, false},
		"backward inside": {Span{16, 14}, false},
	} {
		if s.Overlaps(c.other) != c.want || c.other.Overlaps(s) != c.want {
			t.Errorf("%s: %v and %v: overlap is not %v both ways", name, s, c.other, c.want)
		}
	}
	for s, want := range map[Span]Frame{{10, 20}: 10, {5, 5}: 0, {9, 3}: 0} {
		if got := s.Len(); got != want {
			t.Errorf("%v.Len() = %d, want %d", s, got, want)
		}
	}
}
