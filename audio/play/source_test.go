package play

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
	"testing"
)

// song makes a sound of samples in memory.
func song(rate int, samples ...[]float32) Sound { return plain{rate, samples} }

type plain struct {
	rate    int
	samples [][]float32
}

func (p plain) Rate() int     { return p.rate }
func (p plain) Channels() int { return len(p.samples) }
func (p plain) Read(dst [][]float32, at int) {
	for ch, out := range dst {
		for i := range out {
			out[i] = 0
			if k := at + i; k >= 0 && k < len(p.samples[ch]) {
				out[i] = p.samples[ch][k]
			}
		}
	}
}

// pull reads n sample pairs.
func pull(t testing.TB, s *source, n int) (left, right []float32) {
	t.Helper()
	b := make([]byte, n*frameBytes)
	if _, err := io.ReadFull(s, b); err != nil {
		t.Fatal(err)
	}
	for i := range n {
		left = append(left, math.Float32frombits(binary.LittleEndian.Uint32(b[i*frameBytes:])))
		right = append(right, math.Float32frombits(binary.LittleEndian.Uint32(b[i*frameBytes+4:])))
	}
	return left, right
}

// ramp returns n samples from, from+1, ...
func ramp(from float32, n int) []float32 {
	x := make([]float32, n)
	for i := range x {
		x[i] = from + float32(i)
	}
	return x
}

func checkSamples(t *testing.T, side string, got, want []float32) {
	t.Helper()
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("%s: sample %d is %v, want %v", side, i, got[i], want[i])
		}
	}
}

func TestSourceReads(t *testing.T) {
	const rate = 8000
	zeros := make([]float32, 400)
	for _, c := range []struct {
		name        string
		samples     [][]float32
		from        float64
		left, right []float32 // what comes first
	}{
		{"mono on both sides", [][]float32{ramp(1, 300)}, 0, ramp(1, 300), ramp(1, 300)},
		{"stereo", [][]float32{ramp(1, 300), ramp(1000, 300)}, 0, ramp(1, 300), ramp(1000, 300)},
		{"three channels", [][]float32{ramp(1, 9), ramp(1000, 9), ramp(3, 9)}, 0, ramp(2, 9), ramp(1000, 9)},
		{"from within", [][]float32{ramp(0, 8000)}, 0.5, ramp(4000, 300), ramp(4000, 300)},
		{"from between two samples, the nearest", [][]float32{ramp(0, 100)}, 10.4 / rate, ramp(10, 20), ramp(10, 20)},
		{"before it begins", [][]float32{ramp(1, 300)}, -100. / rate, append(zeros[:100:100], ramp(1, 100)...), append(zeros[:100:100], ramp(1, 100)...)},
		{"past its end", [][]float32{ramp(1, 10)}, 5. / rate, append(ramp(6, 5), zeros[:200]...), append(ramp(6, 5), zeros[:200]...)},
		{"long past its end", [][]float32{ramp(1, 10)}, 3600, zeros, zeros},
		{"no samples", [][]float32{{}}, 0, zeros, zeros},
	} {
		t.Run(c.name, func(t *testing.T) {
			left, right := pull(t, newSource(song(rate, c.samples...), c.from, rate), len(c.left))
			checkSamples(t, "left", left, c.left)
			checkSamples(t, "right", right, c.right)
		})
	}
}

// TestSourceIsExact starts at the frames of a film at 24 frames a second,
// most of which lie between two samples: the sound still passes unchanged.
func TestSourceIsExact(t *testing.T) {
	samples := ramp(0, 44100)
	for frame := range 23 {
		at := float64(frame) / 24
		left, _ := pull(t, newSource(song(44100, samples), at, 44100), 200)
		checkSamples(t, "left", left, samples[int(math.Round(at*44100)):][:200])
	}
}

func TestSourceCountsWhatItHandsOut(t *testing.T) {
	s := newSource(song(8000, ramp(0, 10)), 0, 8000)
	for _, c := range []struct {
		name string
		room int // bytes
		n    int
		err  error
		read int64
	}{
		{"no room", 0, 0, io.ErrShortBuffer, 0},
		{"room for less than a pair", 7, 0, io.ErrShortBuffer, 0},
		{"room for a pair and some", 15, 8, nil, 1},
		{"more room than a chunk", 100000, chunk * frameBytes, nil, 1 + chunk},
	} {
		n, err := s.Read(make([]byte, c.room))
		if n != c.n || !errors.Is(err, c.err) || s.read.Load() != c.read {
			t.Errorf("%s: Read = %d, %v with %d pairs counted, want %d, %v, %d", c.name, n, err, s.read.Load(), c.n, c.err, c.read)
		}
	}
}

// sine returns seconds of a sine of hz at rate.
func sine(hz float64, rate int, seconds float64) []float32 {
	x := make([]float32, int(seconds*float64(rate)))
	for i := range x {
		x[i] = float32(math.Sin(2 * math.Pi * hz * float64(i) / float64(rate)))
	}
	return x
}

// TestSourceConverts compares a converted sine with the ideal one, the same
// sine at the device's rate. The bounds are those of a cubic through four
// samples: its error grows with the cube of the frequency.
func TestSourceConverts(t *testing.T) {
	for _, c := range []struct {
		name         string
		rate, device int
		hz           float64
		from         float64
		below        float64 // dB of the error against the sine
	}{
		{"48 kHz on a device at 44.1, low", 48000, 44100, 100, 0, -100},
		{"48 kHz on a device at 44.1, middle", 48000, 44100, 1000, 0, -70},
		{"44.1 kHz on a device at 48, middle", 44100, 48000, 1000, 0, -70},
		{"44.1 kHz on a device at 48, upper middle", 44100, 48000, 4000, 0, -50},
		{"22.05 kHz on a device at 44.1, middle", 22050, 44100, 1000, 0, -50},
		{"from between two samples", 44100, 48000, 1000, 0.0123456, -70},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, _ := pull(t, newSource(song(c.rate, sine(c.hz, c.rate, 1)), c.from, c.device), c.device/2)
			var wrong, all float64
			for i, v := range got[10:] {
				want := math.Sin(2 * math.Pi * c.hz * (c.from + float64(i+10)/float64(c.device)))
				wrong += (float64(v) - want) * (float64(v) - want)
				all += want * want
			}
			if db := 10 * math.Log10(wrong/all); db > c.below {
				t.Errorf("the error is %.1f dB, want below %.0f", db, c.below)
			}
		})
	}
}

// TestSourceKeepsTime looks for a click after ten minutes at another rate.
func TestSourceKeepsTime(t *testing.T) {
	samples := make([]float32, 600*8000+1)
	samples[600*8000] = 1
	left, _ := pull(t, newSource(song(8000, samples), 599.99, 48000), 960)
	loudest := 0
	for i, v := range left {
		if v > left[loudest] {
			loudest = i
		}
	}
	if loudest != 480 || left[loudest] != 1 { // 0.01 s at 48 kHz
		t.Errorf("the click sounds at sample %d with %v, want 480 with 1", loudest, left[loudest])
	}
}

// TestSourceReadsAhead: the sound is asked for seldom, and nothing is allocated
// while the device waits.
func TestSourceReadsAhead(t *testing.T) {
	counted := &counter{Sound: song(44100, ramp(0, 50_000))}
	s := newSource(counted, 0, 48000)
	b := make([]byte, chunk*frameBytes)
	allocs := testing.AllocsPerRun(400, func() {
		if _, err := s.Read(b); err != nil {
			t.Fatal(err)
		}
	})
	if most := 401*chunk/(ahead-100) + 2; allocs != 0 || counted.reads > most {
		t.Errorf("%v allocations a read; the sound was read %d times, want at most %d", allocs, counted.reads, most)
	}
}

// counter counts the reads of a sound.
type counter struct {
	Sound
	reads int
}

func (c *counter) Read(dst [][]float32, at int) {
	c.reads++
	c.Sound.Read(dst, at)
}

func BenchmarkSource(b *testing.B) {
	for _, c := range []struct {
		name   string
		device int
	}{{"at one rate", 44100}, {"converted", 48000}} {
		b.Run(c.name, func(b *testing.B) {
			samples := sine(440, 44100, 1)
			buf := make([]byte, chunk*frameBytes)
			b.SetBytes(int64(len(buf)))
			b.ReportAllocs()
			s := newSource(song(44100, samples, samples), 0, c.device)
			for b.Loop() {
				if s.read.Load() > 40000 {
					s.read.Store(0)
				}
				if _, err := s.Read(buf); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// newSource starts at second from of the sound, which may be negative; device
// is the device's rate, samples per second.
func newSource(sound Sound, from float64, device int) *source {
	return newPlanned(sound, 0, newPlan(Manner{}, from, float64(device)))
}
