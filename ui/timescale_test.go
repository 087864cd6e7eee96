package ui

import (
	"math"
	"testing"
)

func TestTimescaleZoomKeepsTheSecondUnderThePointer(t *testing.T) {
	s := timescale{from: 3, perSec: 40, width: 800}
	for _, x := range []float64{0, 123, 800} {
		for _, factor := range []float64{0.1, 0.9, 1.5, 20} {
			if got, want := s.zoomed(factor, x).sec(x), s.sec(x); math.Abs(got-want) > 1e-9 {
				t.Errorf("zoomed(%g, %g): second %g under the pointer, want %g", factor, x, got, want)
			}
		}
	}
	if got := s.zoomed(1e9, 10).perSec; got != maxPerSec {
		t.Errorf("zooming in without end stops at %g units a second, want %d", got, maxPerSec)
	}
}

func TestTimescaleFitShowsTheWhole(t *testing.T) {
	for _, length := range []float64{0, 0.5, 40, 3 * 3600} {
		s := timescale{width: 1000}.fit(0, length)
		if s.x(0) < 0 || s.x(length) > 1000+1e-6 {
			t.Errorf("fit(0, %g): from %g to %g of 1000 units", length, s.x(0), s.x(length))
		}
	}
}

func TestTimescaleTick(t *testing.T) {
	tests := []struct {
		name        string
		perSec, fps float64
		want        float64
	}{
		{"far away: minutes", 1.2, 24, 60},
		{"a song in a window", 25, 24, 5},
		{"a second has just room", 64, 24, 1},
		{"half seconds are whole frames", 128, 24, 0.5},
		{"single frames", 64 * 24, 24, 1. / 24},
		{"25 fps divides by 5", 64 * 5, 25, 5. / 25},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := timescale{perSec: tt.perSec, width: 1000}
			got := s.tick(64, tt.fps)
			if math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("tick(64, %g) at %g units a second = %g, want %g", tt.fps, tt.perSec, got, tt.want)
			}
			if got*tt.perSec < 64-1e-9 {
				t.Errorf("labels are %g units apart, want at least 64", got*tt.perSec)
			}
		})
	}
}

func TestTimescaleKeptDoesNotRunOff(t *testing.T) {
	s := timescale{from: 1e6, perSec: 40, width: 800}.kept(60)
	if s.from > 60 {
		t.Errorf("scrolled to %g s of a film of 60 s", s.from)
	}
	if s := (timescale{from: -50, perSec: 40, width: 800}).kept(60); s.from < -1 {
		t.Errorf("scrolled to %g s before the film", s.from)
	}
}
