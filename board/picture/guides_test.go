package picture

import (
	"math"
	"testing"
)

func sameBox(a, b Box) bool {
	const least = 0.05
	return math.Abs(a.X-b.X) < least && math.Abs(a.Y-b.Y) < least && math.Abs(a.W-b.W) < least && math.Abs(a.H-b.H) < least
}

func TestSafeAreas(t *testing.T) {
	// 93 % and 90 % of width and height, centred: SMPTE ST 2046-1; the insets
	// follow by arithmetic, and are 3.5 and 5 % as in EBU R 95.
	for _, tt := range []struct {
		name          string
		w, h          float64
		action, title Box
	}{
		{"HD", 1920, 1080, Box{67.2, 37.8, 1785.6, 1004.4}, Box{96, 54, 1728, 972}},
		{"the film's", 1280, 720, Box{44.8, 25.2, 1190.4, 669.6}, Box{64, 36, 1152, 648}},
		{"upright", 1080, 1920, Box{37.8, 67.2, 1004.4, 1785.6}, Box{54, 96, 972, 1728}},
		{"2.39", 1920, 804, Box{67.2, 28.14, 1785.6, 747.72}, Box{96, 40.2, 1728, 723.6}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := Box{W: tt.w, H: tt.h}
			if got := b.Share(SafeAction); !sameBox(got, tt.action) {
				t.Errorf("action safe %+v, want %+v", got, tt.action)
			}
			if got := b.Share(SafeTitle); !sameBox(got, tt.title) {
				t.Errorf("title safe %+v, want %+v", got, tt.title)
			}
		})
	}
}

func TestShapes(t *testing.T) {
	// In 1920 x 1080, by arithmetic from the ratios.
	want := map[string]Box{
		"2.39": {0, 138.33, 1920, 803.35}, "1.85": {0, 21.08, 1920, 1037.84}, "16:9": {0, 0, 1920, 1080},
		"4:3": {240, 0, 1440, 1080}, "1:1": {420, 0, 1080, 1080}, "9:16": {656.25, 0, 607.5, 1080},
	}
	for _, s := range Shapes {
		if got := (Box{W: 1920, H: 1080}).Aspect(s.Ratio); !sameBox(got, want[s.Name]) {
			t.Errorf("%s: %+v, want %+v", s.Name, got, want[s.Name])
		}
		if got := (Box{10, 20, 300, 300}).Aspect(s.Ratio); got.X < 10 || got.Y < 20 || math.Abs(got.W/got.H-s.Ratio) > 1e-9 {
			t.Errorf("%s inside a square away from 0: %+v", s.Name, got)
		}
	}
	if len(want) != len(Shapes) {
		t.Errorf("%d shapes, want %d", len(Shapes), len(want))
	}
}
