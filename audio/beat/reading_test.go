package beat

import (
	"slices"
	"testing"

	"stillbeat/audio/beat/score"
)

func TestReadingsOfAPath(t *testing.T) {
	path := []int{0, 10, 20, 31, 41}
	want := [][]int{
		{0, 10, 20, 31, 41},
		{5, 15, 26, 36},
		{0, 5, 10, 15, 20, 26, 31, 36, 41},
		{0, 20, 41},
		{10, 31},
	}
	for i, r := range readings {
		if got := r.beats(path); !slices.Equal(got, want[i]) {
			t.Errorf("reading %+v = %v, want %v", r, got, want[i])
		}
	}
}

// jazz plays a walking bass, and a ride cymbal that swings on every second
// beat, in bars of four.
func jazz(b *band, beats []float64) {
	for i := 0; i+1 < len(beats); i++ {
		t, d := beats[i], beats[i+1]-beats[i]
		b.chord(t, 0.8*d, roots[i/4%len(roots)]/2*[...]float64{1, 1.25, 1.5, 1.25}[i%4])
		b.hat(t, 1)
		if i%2 == 1 {
			b.hat(t+d*2/3, 0.8)
		}
		if i%4 == 0 {
			b.chord(t, 4*d, roots[i/4%len(roots)])
		}
	}
}

// offbeatChords plays a drum on the beats and loud short chords between, in
// bars of four.
func offbeatChords(b *band, beats []float64) {
	for i := 0; i+1 < len(beats); i++ {
		t, d := beats[i], beats[i+1]-beats[i]
		root := roots[i/4%len(roots)]
		if i%4 == 0 {
			b.chord(t, 4*d, root/2)
		}
		if i%2 == 0 {
			b.kick(t)
		} else {
			b.snare(t)
		}
		for range 4 {
			b.chord(t+d/2, d/4, 2*root)
		}
		b.hat(t+d/2, 1)
	}
}

func TestBarsAndSwingTellTheReading(t *testing.T) {
	const seconds = 30
	for _, tt := range []struct {
		name string
		bpm  float64
		play func(*band, []float64)
	}{
		{"fast swing", 172, jazz},
		{"chords between the beats", 116, offbeatChords},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := newBand(seconds)
			beats := grid(0.4, seconds, at(tt.bpm))
			tt.play(b, beats)
			got := analyse(t, b.x)
			if h := score.Events(beats[:len(beats)-1], got.Beats, score.BeatWindow); h.F < 0.95 {
				t.Errorf("F = %.3f, tempo %.1f, want the beats at %.0f BPM; first %.2f", h.F, got.Tempo, tt.bpm, got.Beats[:min(8, len(got.Beats))])
			}
		})
	}
}
