package ui

import (
	"math"
	"testing"

	"stillbeat/board"
)

func TestClicksSoundOnTheBeats(t *testing.T) {
	beats := []board.Beat{{Time: -0.01}, {Time: 0.5, Bar: true}, {Time: 1}, {Time: 1.01, Bar: true}, {Time: 1.5}}
	sound := newClicked(board.Silence{}, beats, &loudness{})
	whole := [][]float32{make([]float32, 2*board.SilenceRate)}
	sound.Read(whole, 0)
	level := func(from, to float64) (peak float64) {
		for _, v := range whole[0][int(from*board.SilenceRate):int(to*board.SilenceRate)] {
			peak = max(peak, math.Abs(float64(v)))
		}
		return peak
	}
	for _, c := range []struct {
		name      string
		from, to  float64
		least, at float64 // peak
	}{
		{"the end of one that began before the sound", 0, 0.02, 0.01, 0.2},
		{"between", 0.03, 0.499, 0, 0},
		{"a bar", 0.5, 0.53, 0.4, 0.6},
		{"after it", 0.531, 0.999, 0, 0},
		{"two that overlap", 1, 1.04, 0.4, 0.95},
		{"a beat", 1.5, 1.53, 0.25, 0.35},
		{"the end", 1.531, 2, 0, 0},
	} {
		if p := level(c.from, c.to); p < c.least || p > c.at {
			t.Errorf("%s: peak %.3f, want %v to %v", c.name, p, c.least, c.at)
		}
	}
	for _, block := range []int{1, 100, 999} { // as it is read in pieces
		dst := [][]float32{make([]float32, block), make([]float32, block)}
		for at := 0; at+block <= len(whole[0]); at += block {
			sound.Read(dst, at)
			for i, v := range dst[1] {
				if v != whole[0][at+i] {
					t.Fatalf("in blocks of %d, sample %d is %v, want %v", block, at+i, v, whole[0][at+i])
				}
			}
		}
	}
	dst := [][]float32{make([]float32, 2048)}
	if allocs := testing.AllocsPerRun(10, func() { sound.Read(dst, board.SilenceRate) }); allocs != 0 {
		t.Errorf("Read allocates %v times", allocs)
	}
}
