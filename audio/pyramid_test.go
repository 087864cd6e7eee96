package audio

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// noise returns a clip whose level changes, so that columns differ.
func noise(rate, channels, n int) *Clip {
	rng := rand.New(rand.NewPCG(1, 2))
	c := &Clip{Rate: rate, Samples: make([][]float32, channels)}
	for ch := range c.Samples {
		c.Samples[ch] = make([]float32, n)
		for i := range c.Samples[ch] {
			c.Samples[ch][i] = float32((rng.Float64()*2 - 0.9) * math.Abs(math.Sin(float64(i)/3000)))
		}
	}
	return c
}

// bruteColumn reads the samples from a up to b one by one, as the doc comment
// of Columns defines it.
func bruteColumn(mono []float32, a, b int) Column {
	lo, hi, squares := math.Inf(1), math.Inf(-1), 0.0
	for i := a; i < b; i++ {
		v := 0.0
		if i >= 0 && i < len(mono) {
			v = float64(mono[i])
		}
		lo, hi, squares = min(lo, v), max(hi, v), squares+v*v
	}
	return Column{float32(lo), float32(hi), float32(math.Sqrt(squares / float64(b-a)))}
}

func TestColumnsEqualBruteForce(t *testing.T) {
	cases := []struct {
		name     string
		rate     int
		channels int
		samples  int
		columns  int
		from, to float64
	}{
		{"whole sound", 8000, 1, 100_000, 300, 0, 12.5},
		{"whole sound in one column", 8000, 1, 100_000, 1, 0, 12.5},
		{"stereo is mixed", 8000, 2, 100_000, 300, 0, 12.5},
		{"three channels", 8000, 3, 50_000, 77, 1, 5},
		{"column of exactly one bucket", 8000, 1, 100_000, 100, 0, 100 * 256 / 8000.0},
		{"column of a bucket of the third level", 8000, 1, 200_000, 12, 0, 12 * 4096 / 8000.0},
		{"columns narrower than a bucket", 44100, 2, 100_000, 640, 1.00001, 1.4},
		{"columns narrower than a sample", 8000, 1, 1000, 640, 0.05, 0.06},
		{"starts before the sound", 8000, 1, 20_000, 90, -1.03, 2},
		{"ends after the sound", 8000, 1, 20_000, 90, 2, 4.01},
		{"wholly before", 8000, 1, 20_000, 9, -4, -1},
		{"wholly after", 8000, 1, 20_000, 9, 5, 6},
		{"around it all", 8000, 1, 20_000, 5, -10, 10},
		{"length not a multiple of the bucket", 8000, 1, 256*4*3 + 1, 7, 0, 0.4},
		{"one sample", 8000, 1, 1, 3, -0.001, 0.001},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			sound := noise(c.rate, c.channels, c.samples)
			mono := sound.Mono()
			got := BuildPyramid(sound).Columns(make([]Column, c.columns), c.from, c.to)
			edge := func(i int) int {
				return int(math.Floor((c.from + (c.to-c.from)*float64(i)/float64(c.columns)) * float64(c.rate)))
			}
			for i, g := range got {
				a := edge(i)
				want := bruteColumn(mono, a, max(edge(i+1), a+1))
				if !near(g.Min, want.Min) || !near(g.Max, want.Max) || !near(g.RMS, want.RMS) {
					t.Fatalf("column %d of samples %d to %d = %+v, want %+v", i, a, edge(i+1), g, want)
				}
			}
		})
	}
}

// near allows for the order in which channels and squares are summed.
func near(a, b float32) bool { return math.Abs(float64(a-b)) <= 2e-6 }

// TestColumnsAtRandomZooms looks where the cases above may not.
func TestColumnsAtRandomZooms(t *testing.T) {
	sound := noise(11025, 1, 150_000)
	p := BuildPyramid(sound)
	rng := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		from := rng.Float64()*16 - 1
		to := from + math.Exp(rng.Float64()*12-9)
		n := 1 + rng.IntN(60)
		for i, g := range p.Columns(make([]Column, n), from, to) {
			a := int(math.Floor((from + (to-from)*float64(i)/float64(n)) * 11025))
			b := int(math.Floor((from + (to-from)*float64(i+1)/float64(n)) * 11025))
			want := bruteColumn(sound.Samples[0], a, max(b, a+1))
			if !near(g.Min, want.Min) || !near(g.Max, want.Max) || !near(g.RMS, want.RMS) {
				t.Fatalf("Columns(%d, %v, %v)[%d] = %+v, want %+v", n, from, to, i, g, want)
			}
		}
	}
}

func TestColumnsOfNothingAreSilent(t *testing.T) {
	sound := noise(8000, 1, 8000)
	cases := []struct {
		name     string
		clip     *Clip
		from, to float64
	}{
		{"no clip", nil, 0, 1},
		{"no channels", &Clip{Rate: 8000}, 0, 1},
		{"no samples", &Clip{Rate: 8000, Samples: [][]float32{{}}}, 0, 1},
		{"no rate", &Clip{Samples: [][]float32{{1}}}, 0, 1},
		{"empty range", sound, 0.5, 0.5},
		{"range backwards", sound, 0.5, 0.2},
		{"not a number", sound, math.NaN(), 1},
		{"endless", sound, 0, math.Inf(1)},
		{"far away", sound, 1e300, 2e300},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dst := []Column{{1, 2, 3}, {4, 5, 6}}
			for i, g := range BuildPyramid(c.clip).Columns(dst, c.from, c.to) {
				if g != (Column{}) {
					t.Errorf("column %d = %+v, want silence", i, g)
				}
			}
		})
	}
}

func BenchmarkBuildPyramid(b *testing.B) {
	sound := noise(44100, 2, 3*60*44100)
	b.SetBytes(int64(sound.Len() * sound.Channels() * 4))
	b.ReportAllocs()
	for b.Loop() {
		BuildPyramid(sound)
	}
}

func BenchmarkColumns(b *testing.B) {
	p := BuildPyramid(noise(44100, 2, 3*60*44100))
	dst := make([]Column, 1600)
	for _, seconds := range []float64{0.05, 2, 20, 180} {
		b.Run(fmt.Sprintf("%gs", seconds), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				p.Columns(dst, 0, seconds)
			}
		})
	}
}
