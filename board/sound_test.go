package board

import (
	"math"
	"testing"
)

// plainSound is a sound in memory.
type plainSound struct {
	rate    int
	samples [][]float32
}

func (p plainSound) Rate() int     { return p.rate }
func (p plainSound) Channels() int { return len(p.samples) }
func (p plainSound) Len() int      { return len(p.samples[0]) }
func (p plainSound) Read(dst [][]float32, at int) {
	for ch, out := range dst {
		for i := range out {
			out[i] = 0
			if k := at + i; k >= 0 && k < p.Len() {
				out[i] = p.samples[ch][k]
			}
		}
	}
}

func TestShape(t *testing.T) {
	ones := make([]float32, 1000) // ten seconds at 100 a second
	for i := range ones {
		ones[i] = 1
	}
	sound := plainSound{100, [][]float32{ones, ones}}
	plain := Song{Seconds: 10}
	if _, same := plain.Shape(sound).(plainSound); !same {
		t.Error("a song as recorded is not the sound itself")
	}
	s := Song{Seconds: 10, TrimIn: 1, TrimOut: 2, FadeIn: 2, FadeOut: 1, Gain: -6}
	half := float32(math.Pow(10, -6./20)) // -6 dB is a factor of 0.5012
	for _, block := range []int{1, 7, 64, 1000} {
		shaped := s.Shape(sound)
		got := make([]float32, 0, 1000)
		for at := 0; at < 1000; at += block {
			dst := [][]float32{make([]float32, min(block, 1000-at)), make([]float32, min(block, 1000-at))}
			shaped.Read(dst, at)
			for i := range dst[0] {
				if dst[0][i] != dst[1][i] {
					t.Fatalf("sample %d is %g and %g", at+i, dst[0][i], dst[1][i])
				}
			}
			got = append(got, dst[0]...)
		}
		for _, tt := range []struct {
			at   int
			want float32
		}{{0, 0}, {99, 0}, {100, 0}, {200, half / 2}, {300, half}, {500, half}, {699, half}, {750, half / 2}, {799, half / 100}, {800, 0}, {999, 0}} {
			if d := got[tt.at] - tt.want; d > 1e-5 || d < -1e-5 {
				t.Errorf("in blocks of %d, sample %d = %g, want %g", block, tt.at, got[tt.at], tt.want)
			}
		}
		for i, v := range got {
			if d := float64(v) - s.Level(float64(i)/100); math.Abs(d) > 1e-6 {
				t.Fatalf("in blocks of %d, sample %d = %g, want Level", block, i, v)
			}
		}
	}
	if ones[500] != 1 {
		t.Error("the samples given were changed")
	}
	s.Shape(sound).Read(nil, 0)
	s.Shape(sound).Read([][]float32{{}, {}}, 0)
	dst := [][]float32{make([]float32, 100), make([]float32, 100)}
	shaped := s.Shape(sound)
	if allocs := testing.AllocsPerRun(10, func() { shaped.Read(dst, 250) }); allocs != 0 {
		t.Errorf("Read allocates %v times", allocs)
	}
}
