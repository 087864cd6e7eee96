package audio

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"stillbeat/audio/clip"
)

// noise returns a clip whose level changes, so that columns differ.
func noise(rate, channels, n int) *clip.Clip {
	rng := rand.New(rand.NewPCG(1, 2))
	c := &clip.Clip{Rate: rate, Samples: make([][]float32, channels)}
	for ch := range c.Samples {
		c.Samples[ch] = make([]float32, n)
		for i := range c.Samples[ch] {
			c.Samples[ch][i] = float32((rng.Float64()*2 - 0.9) * math.Abs(math.Sin(float64(i)/3000)))
		}
	}
	return c
}

// sound makes a clip one that can be read anywhere.
type sound struct{ *clip.Clip }

func (s sound) Rate() int { return s.Clip.Rate }
func (s sound) Read(dst [][]float32, at int) {
	for ch := range dst {
		copy(dst[ch], s.Samples[ch][at:])
	}
}

// mono returns the mean of the channels.
func mono(c *clip.Clip) []float32 {
	out := make([]float32, c.Len())
	for _, ch := range c.Samples {
		for i, v := range ch {
			out[i] += v / float32(len(c.Samples))
		}
	}
	return out
}

// feed gives a clip to a sink in blocks of uneven lengths.
func feed(t testing.TB, c *clip.Clip, sink clip.Sink) {
	t.Helper()
	err := sink.Begin(clip.Info{Rate: c.Rate, Channels: c.Channels(), Len: c.Len()})
	for at, run := 0, 1; at < c.Len() && err == nil; run = run*7%4099 + 1 {
		n := min(run, c.Len()-at)
		block := make([][]float32, c.Channels())
		for ch := range block {
			block[ch] = c.Samples[ch][at : at+n]
		}
		err = sink.Add(block)
		at += n
	}
	if err := errors.Join(err, sink.End()); err != nil {
		t.Fatal(err)
	}
}

// pyramid returns that of a clip, which it reads where it is drawn large.
func pyramid(t testing.TB, c *clip.Clip) *Pyramid {
	p := &Pyramid{}
	feed(t, c, p)
	p.Attach(sound{c})
	return p
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
			song := noise(c.rate, c.channels, c.samples)
			mono := mono(song)
			got := pyramid(t, song).Columns(make([]Column, c.columns), c.from, c.to)
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
	song := noise(11025, 1, 150_000)
	p := pyramid(t, song)
	rng := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		from := rng.Float64()*16 - 1
		to := from + math.Exp(rng.Float64()*12-9)
		n := 1 + rng.IntN(60)
		for i, g := range p.Columns(make([]Column, n), from, to) {
			a := int(math.Floor((from + (to-from)*float64(i)/float64(n)) * 11025))
			b := int(math.Floor((from + (to-from)*float64(i+1)/float64(n)) * 11025))
			want := bruteColumn(song.Samples[0], a, max(b, a+1))
			if !near(g.Min, want.Min) || !near(g.Max, want.Max) || !near(g.RMS, want.RMS) {
				t.Fatalf("Columns(%d, %v, %v)[%d] = %+v, want %+v", n, from, to, i, g, want)
			}
		}
	}
}

func TestColumnsOfNothingAreSilent(t *testing.T) {
	full := pyramid(t, noise(8000, 1, 8000))
	empty := &Pyramid{}
	feed(t, &clip.Clip{Rate: 8000, Samples: [][]float32{{}}}, empty)
	cases := []struct {
		name     string
		pyramid  *Pyramid
		from, to float64
	}{
		{"zero value", &Pyramid{}, 0, 1},
		{"no samples", empty, 0, 1},
		{"empty range", full, 0.5, 0.5},
		{"range backwards", full, 0.5, 0.2},
		{"not a number", full, math.NaN(), 1},
		{"endless", full, 0, math.Inf(1)},
		{"far away", full, 1e300, 2e300},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dst := []Column{{1, 2, 3}, {4, 5, 6}}
			for i, g := range c.pyramid.Columns(dst, c.from, c.to) {
				if g != (Column{}) {
					t.Errorf("column %d = %+v, want silence", i, g)
				}
			}
		})
	}
}

// TestColumnsWithoutSamples: columns hold at least what is in them, and no
// more than the buckets they touch.
func TestColumnsWithoutSamples(t *testing.T) {
	song := noise(8000, 1, 50_077)
	x := song.Samples[0]
	p := &Pyramid{}
	feed(t, song, p)
	rng := rand.New(rand.NewPCG(5, 6))
	for range 300 {
		a := rng.IntN(len(x) - 1)
		b := a + 1 + rng.IntN(min(3000, len(x)-a))
		at := func(i int) float64 { return (float64(i) + 1e-4) / 8000 }
		got := p.Columns(make([]Column, 1), at(a), at(b))[0]
		inner := bruteColumn(x, a, b)
		outer := bruteColumn(x, a/baseBucket*baseBucket, min(len(x), (b+baseBucket-1)/baseBucket*baseBucket))
		if got.Min > inner.Min || got.Max < inner.Max || got.Min < outer.Min || got.Max > outer.Max {
			t.Fatalf("samples %d to %d: %+v is not between %+v and %+v", a, b, got, inner, outer)
		}
		if b-a > 1000 && math.Abs(float64(got.RMS/inner.RMS-1)) > 0.35 {
			t.Fatalf("samples %d to %d: RMS %v, want about %v", a, b, got.RMS, inner.RMS)
		}
	}
}

func TestAttachRefusesAnotherSound(t *testing.T) {
	p := &Pyramid{}
	feed(t, noise(8000, 1, 5000), p)
	for _, c := range []*clip.Clip{noise(8000, 1, 5001), noise(44100, 1, 5000)} {
		if p.Attach(sound{c}); p.sound != nil {
			t.Errorf("a sound of %d samples at %d Hz was attached to one of 5000 at 8000", c.Len(), c.Rate)
		}
	}
	p.Attach(nil)
}

func BenchmarkPyramid(b *testing.B) {
	song := noise(44100, 2, 3*60*44100)
	b.SetBytes(int64(song.Len() * song.Channels() * 4))
	b.ReportAllocs()
	for b.Loop() {
		feed(b, song, &Pyramid{})
	}
}

func BenchmarkColumns(b *testing.B) {
	song := noise(44100, 2, 3*60*44100)
	p, store := &Pyramid{}, &clip.Packed{}
	feed(b, song, clip.Tee{p, store})
	p.Attach(store)
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
