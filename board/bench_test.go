package board

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// crowded returns a film of n panels, off the beats by up to a third of one,
// under a song with m beats at 180 BPM.
func crowded(b *testing.B, n, m int) Board {
	rnd := rand.New(rand.NewPCG(6, 6))
	film := withSong(b, frameRate24, 180, m)
	film = do(b, film, Insert(0, make([]Panel, n), 1))
	for i := 1; i < n; i++ {
		film.Panels[i].Start = Free(film.Panels[i].Start.Time + (rnd.Float64()-0.5)*0.2)
	}
	return film
}

func BenchmarkSnapAll(b *testing.B) {
	for _, c := range []struct{ panels, landings int }{{100, 600}, {1000, 6000}, {10000, 12000}} {
		b.Run(fmt.Sprintf("%d panels on %d beats", c.panels, c.landings), func(b *testing.B) {
			film := crowded(b, c.panels, c.landings+1) // beat 0 is no landing
			if got := len(film.Landings(ToBeat)); got != c.landings {
				b.Fatalf("%d landings", got)
			}
			snap := Snap(SnapOptions{To: ToBeat})
			b.ReportAllocs()
			for b.Loop() {
				if _, err := snap.Apply(film); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkStarts(b *testing.B) {
	film := do(b, withSong(b, frameRate24, 180, 1000), Insert(0, make([]Panel, 1000), 1))
	b.ReportAllocs()
	for b.Loop() {
		film.Starts()
	}
}

func BenchmarkMove(b *testing.B) {
	film := do(b, withSong(b, frameRate24, 180, 1000), Insert(0, make([]Panel, 1000), 1))
	move := moveTo(2, 900)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := move.Apply(film); err != nil {
			b.Fatal(err)
		}
	}
}

// The steps of a drag of one beat, and of laying a new analysis, in a film of
// 500 panels under an hour of music.
func BenchmarkGridEdits(b *testing.B) {
	film := do(b, withSong(b, frameRate24, 180, 10800), Insert(0, make([]Panel, 500), 2))
	heard := NewGrid(metronome(180, 10800, 0.04), nil)
	for _, e := range []Edit{MoveBeat(5000, film.Grid.Beats[5000].Time+0.05), AddBeat(1000.1), ScaleTempo(3, 2), MergeGrid(heard)} {
		b.Run(e.Name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := e.Apply(film); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkFitTaps(b *testing.B) {
	rnd := rand.New(rand.NewPCG(3, 3))
	taps := hand{late: 0.05, jitter: 0.02, missed: 0.1, doubled: 0.05, stray: 0.05}.taps(rnd, metronome(120, 400, 0))
	opt := TapOptions{Follow: true, Reference: metronome(240, 800, 0)}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FitTaps(taps, opt); err != nil {
			b.Fatal(err)
		}
	}
}
