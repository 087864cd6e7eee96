package clip

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// packed feeds samples in runs of uneven lengths.
func packed(t testing.TB, samples [][]float32) *Packed {
	t.Helper()
	p := &Packed{}
	if err := p.Begin(Info{Rate: 8000, Channels: len(samples)}); err != nil {
		t.Fatal(err)
	}
	for at, run := 0, 1; at < len(samples[0]); run = run*7%4099 + 1 {
		n := min(run, len(samples[0])-at)
		block := make([][]float32, len(samples))
		for ch := range block {
			block[ch] = samples[ch][at : at+n]
		}
		if err := p.Add(block); err != nil {
			t.Fatal(err)
		}
		at += n
	}
	return p
}

// TestPackedKeepsSixteenBits: whatever a file of 16 bits can hold comes back
// as it was, in runs of every loudness.
func TestPackedKeepsSixteenBits(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	const n = packChunk + 3*packRun + 5
	samples := [][]float32{make([]float32, n), make([]float32, n)}
	for i := range n {
		loud := 1 + 1<<(i/packRun%16)
		samples[0][i] = float32(rng.IntN(2*loud)-loud) / (1 << 15)
		samples[1][i] = float32(math.MinInt16+i%(1<<16)) / (1 << 15)
	}
	samples[0][700], samples[1][packChunk] = -1, -1
	for ch := range samples {
		for i, v := range samples[ch] {
			samples[ch][i] = max(-1, min(v, 32767./32768))
		}
	}
	p := packed(t, samples)
	got := [][]float32{make([]float32, n), make([]float32, n)}
	p.Read(got, 0)
	for ch := range got {
		for i, v := range got[ch] {
			if v != samples[ch][i] {
				t.Fatalf("channel %d, sample %d is %v, want %v", ch, i, v, samples[ch][i])
			}
		}
	}
}

func TestPackedPrecision(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, loud := range []float64{1e-30, 1e-6, 0.01, 0.7, 1, 1.5, 256} {
		t.Run(fmt.Sprint(loud), func(t *testing.T) {
			x := make([]float32, 5000)
			for i := range x {
				x[i] = float32(loud * (2*rng.Float64() - 1))
			}
			x[77], x[300] = float32(loud), float32(-loud)
			got := make([]float32, len(x))
			packed(t, [][]float32{x}).Read([][]float32{got}, 0)
			for i, v := range x {
				peak := 0.0
				for _, w := range x[i/packRun*packRun : min(len(x), (i/packRun+1)*packRun)] {
					peak = max(peak, math.Abs(float64(w)))
				}
				// Half a step is at most 1/32768 of the peak; a run that came
				// in two pieces may have been rounded twice.
				if d := math.Abs(float64(got[i] - v)); d > 2*peak/32768 {
					t.Fatalf("sample %d of %v comes back as %v", i, v, got[i])
				}
			}
		})
	}
}

func TestPackedReadsAnywhere(t *testing.T) {
	const n = packChunk + 1000
	x := make([]float32, n)
	for i := range x {
		x[i] = float32(i%1000+1) / 32768
	}
	p := packed(t, [][]float32{x})
	if p.Rate() != 8000 || p.Channels() != 1 || p.Len() != n || p.Seconds() != n/8000. {
		t.Errorf("%d Hz, %d channels, %d samples, %v s", p.Rate(), p.Channels(), p.Len(), p.Seconds())
	}
	for _, c := range []struct {
		name    string
		at, len int
	}{
		{"before", -50, 20}, {"up to the start", -50, 50}, {"over the start", -50, 700},
		{"inside", 1234, 777}, {"over a border", packChunk - 300, 600},
		{"over the end", n - 10, 50}, {"after", n, 9}, {"far before", math.MinInt32, 9},
		{"far after", math.MaxInt32, 9}, {"nothing", 5, 0}, {"around it all", -3, n + 6},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := make([]float32, c.len)
			for i := range got {
				got[i] = 9
			}
			p.Read([][]float32{got}, c.at)
			for i, v := range got {
				want := float32(0)
				if k := c.at + i; k >= 0 && k < n {
					want = x[k]
				}
				if v != want {
					t.Fatalf("sample %d is %v, want %v", c.at+i, v, want)
				}
			}
		})
	}
	if allocs := testing.AllocsPerRun(10, func() { p.Read([][]float32{x}, 100) }); allocs > 1 { // the list of one channel
		t.Errorf("Read allocates %v times", allocs)
	}
}

func TestTeeStopsAtTheFirstError(t *testing.T) {
	var a, b Clip
	tee := Tee{&a, &b}
	if err := tee.Begin(Info{Rate: 4, Channels: 1}); err != nil {
		t.Fatal(err)
	}
	if err := tee.Add([][]float32{{1}}); err != nil || a.Len() != 1 || b.Len() != 1 || tee.End() != nil {
		t.Errorf("%d and %d samples, %v", a.Len(), b.Len(), err)
	}
	if err := (Tee{refusing{}, &b}).Add([][]float32{{1}}); err == nil || b.Len() != 1 {
		t.Errorf("after an error the next sink got %d samples, %v", b.Len(), err)
	}
}

type refusing struct{ Clip }

func (refusing) Add([][]float32) error { return fmt.Errorf("full") }
func (refusing) Begin(Info) error      { return nil }
func (refusing) End() error            { return nil }

func BenchmarkPackedAdd(b *testing.B) {
	block := [][]float32{make([]float32, 4096), make([]float32, 4096)}
	for i := range block[0] {
		block[0][i], block[1][i] = float32(i%999)/999, -float32(i%777)/999
	}
	b.SetBytes(4096 * 8)
	b.ReportAllocs()
	var p Packed
	for b.Loop() {
		if p.Len() > 1<<22 || p.Len() == 0 {
			p.Begin(Info{Rate: 44100, Channels: 2})
		}
		p.Add(block)
	}
}

func BenchmarkPackedRead(b *testing.B) {
	p := packed(b, [][]float32{make([]float32, 1<<20), make([]float32, 1<<20)})
	dst := [][]float32{make([]float32, 4096), make([]float32, 4096)}
	b.SetBytes(4096 * 8)
	at := 0
	for b.Loop() {
		p.Read(dst, at)
		at = (at + 4096) % (1 << 20)
	}
}
