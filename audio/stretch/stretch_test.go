package stretch

import (
	"math"
	"slices"
	"testing"
)

// tone is a sound made by a function of the second.
type tone struct {
	rate, channels, length int
	at                     func(ch int, t float64) float64
}

func (s tone) Rate() int     { return s.rate }
func (s tone) Channels() int { return s.channels }
func (s tone) Len() int      { return s.length }
func (s tone) Read(dst [][]float32, at int) {
	for ch := range dst {
		for i := range dst[ch] {
			dst[ch][i] = 0
			if k := at + i; k >= 0 && k < s.length {
				dst[ch][i] = float32(s.at(ch, float64(k)/float64(s.rate)))
			}
		}
	}
}

// sine is a note of 220 Hz on the left and 330 Hz on the right.
func sine(rate int) tone {
	return tone{rate, 2, 10 * rate, func(ch int, t float64) float64 {
		return 0.5 * math.Sin(2*math.Pi*(220+110*float64(ch))*t)
	}}
}

func read(x *Stretcher, channels, n int) [][]float32 {
	out := buffers(channels, n)
	for at := 0; at < n; { // in pieces, as a device asks
		part := make([][]float32, channels)
		end := min(at+97, n)
		for ch := range part {
			part[ch] = out[ch][at:end]
		}
		x.Read(part)
		at = end
	}
	return out
}

// pitch counts the rising zero crossings a second.
func pitch(x []float32, rate int) float64 {
	n := 0
	for i := 1; i < len(x); i++ {
		if x[i-1] < 0 && x[i] >= 0 {
			n++
		}
	}
	return float64(n) * float64(rate) / float64(len(x))
}

func TestPitchStays(t *testing.T) {
	for _, rate := range []int{8000, 44100, 96000} {
		for _, speed := range []float64{0.25, 0.5, 0.8, 1, 1.25, 2, 4} {
			s := sine(rate)
			got := read(New(s, 0, speed), 2, rate*2)
			for ch, want := range []float64{220, 330} {
				if f := pitch(got[ch], rate); math.Abs(f-want) > want/100 {
					t.Errorf("%d Hz at speed %g: channel %d sounds at %.1f Hz, want %g", rate, speed, ch, f, want)
				}
				power := 0.0
				for _, v := range got[ch][rate/10:] {
					power += float64(v) * float64(v)
				}
				if rms := math.Sqrt(power / float64(len(got[ch])-rate/10)); math.Abs(rms-0.5/math.Sqrt2) > 0.01 {
					t.Errorf("%d Hz at speed %g: channel %d is %.3f loud, want %.3f", rate, speed, ch, rms, 0.5/math.Sqrt2)
				}
			}
		}
	}
}

func TestSpeedOneIsTheSoundItself(t *testing.T) {
	s := sine(44100)
	got := read(New(s, 1000, 1), 2, 44100)
	want := buffers(2, 44100)
	s.Read(want, 1000)
	for ch := range got {
		for i := range got[ch] {
			if math.Abs(float64(got[ch][i]-want[ch][i])) > 1e-6 {
				t.Fatalf("channel %d, sample %d: %g, want %g", ch, i, got[ch][i], want[ch][i])
			}
		}
	}
}

// Hits come when they are due, within the reach of the search and what a hit
// away from the middle of its window is off.
func TestHitsComeInTime(t *testing.T) {
	const rate = 44100
	s := tone{rate, 1, 8 * rate, func(_ int, t float64) float64 {
		since := math.Mod(t, 0.5)
		return math.Exp(-since*60) * math.Sin(2*math.Pi*900*since)
	}}
	for _, speed := range []float64{0.5, 0.75, 1.5, 2} {
		got := read(New(s, rate/4, speed), 1, 2*rate)[0] // the first hit a quarter of a second in
		for k := 0; ; k++ {
			due := (0.25 + 0.5*float64(k)) / speed
			if due > 1.9 {
				break
			}
			from := max(0, int((due-0.06)*rate))
			at := float64(from+slices.Index(got[from:], slices.MaxFunc(got[from:min(len(got), from+int(0.12*rate))], func(a, b float32) int {
				if a < b {
					return -1
				}
				return 1
			}))) / rate
			if math.Abs(at-due) > reachSeconds+windowSeconds/4 {
				t.Errorf("at speed %g hit %d comes at %.3f s, due at %.3f", speed, k, at, due)
			}
		}
	}
}

func TestPlaceRunsAlong(t *testing.T) {
	s := sine(44100)
	x := New(s, 441, 0.5)
	read(x, 2, 44100)
	if got, want := x.Place(), 441+22050.; math.Abs(got-want) > 1 {
		t.Errorf("after a second at half speed it is at sample %.1f, want %.1f", got, want)
	}
	if x := New(s, 0, 100); x.speed != MaxSpeed {
		t.Errorf("speed %g, want at most %d", x.speed, MaxSpeed)
	}
	silent := read(New(s, 20*44100, 2), 2, 1000)
	for _, v := range silent[0] {
		if v != 0 {
			t.Fatal("after its end the sound is not silent")
		}
	}
}

func TestRestartIsANewStart(t *testing.T) {
	s := sine(44100)
	x := New(s, 12345, 0.75)
	read(x, 2, 5000)
	x.Restart(4410)
	got, want := read(x, 2, 5000), read(New(s, 4410, 0.75), 2, 5000)
	for ch := range want {
		if !slices.Equal(got[ch], want[ch]) {
			t.Errorf("channel %d is not what a new stretcher gives", ch)
		}
	}
	if n := testing.AllocsPerRun(50, func() { x.Restart(99) }); n > 0 {
		t.Errorf("%.1f allocations a restart", n)
	}
}

func TestReadingTakesNoMemory(t *testing.T) {
	x, dst := New(sine(44100), 0, 0.7), buffers(2, 96)
	if n := testing.AllocsPerRun(500, func() { x.Read(dst) }); n > 0 {
		t.Errorf("%.1f allocations a read", n)
	}
}

func BenchmarkStretch(b *testing.B) {
	s := sine(44100)
	whole := buffers(2, 441000)
	s.Read(whole, 0)
	kept := tone{44100, 2, 441000, nil}
	sound := stored{kept, whole}
	x, dst := New(sound, 0, 0.75), buffers(2, 44100)
	b.ReportAllocs()
	for b.Loop() { // a second of sound
		x.Read(dst)
	}
}

type stored struct {
	tone
	samples [][]float32
}

func (s stored) Read(dst [][]float32, at int) {
	for ch := range dst {
		for i := range dst[ch] {
			dst[ch][i] = s.samples[ch][(at+i+len(s.samples[ch])*4)%len(s.samples[ch])]
		}
	}
}
