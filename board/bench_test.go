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
			snap := SnapAll(ToBeat, 0)
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
	move := Move(2, 900)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := move.Apply(film); err != nil {
			b.Fatal(err)
		}
	}
}
