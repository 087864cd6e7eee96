package onset

import (
	"math"

	"stillbeat/audio/onset/fft"
)

const (
	lowestTone   = 55.0 // Hz, A1
	toneCount    = 60   // semitones: five octaves
	toneWindow   = 0.37 // seconds, long enough to part semitones from 200 Hz up
	toneLoudness = 100
)

// tones takes spectra in semitones of the sound at a low rate.
type tones struct {
	times int // halvings below the worker's rate
	rate  float64
	hann  []float32
	real  *fft.Real
	frame []float32
	bins  []complex64
	bank  [][2]int // bins from..to of each semitone
}

func newTones(rate float64) *tones {
	t := &tones{rate: rate}
	for t.rate/2 >= 5000 {
		t.rate /= 2
		t.times++
	}
	t.hann = hann(int(toneWindow * t.rate))
	n := 4
	for n < len(t.hann) {
		n *= 2
	}
	t.real = fft.New(n)
	t.frame = make([]float32, n)
	t.bins = make([]complex64, n/2+1)
	for k := range toneCount {
		lo := lowestTone * math.Exp2((float64(k)-0.5)/12) * float64(n) / t.rate
		hi := lo * math.Exp2(1.0/12)
		a, b := int(math.Round(lo)), int(math.Round(hi))
		b = max(b, a+1)
		if b > n/2 {
			break
		}
		t.bank = append(t.bank, [2]int{a, b})
	}
	return t
}

// hann returns a window of n values scaled so that a sine of amplitude 1 has
// magnitude 1.
func hann(n int) []float32 {
	w := make([]float32, n)
	for i := range w {
		w[i] = float32((1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n))) * 2 / float64(n))
	}
	return w
}

// colour writes the semitone spectra of frames from..to.
func (w *worker) colour(from, to int) {
	const every = FrameRate / ColourRate
	t := w.tones
	first, last := (from+every-1)/every, min((to+every-1)/every, len(w.out.Colour))
	if first >= last {
		return
	}
	at := func(i int) int { return int(math.Round(float64(i)*t.rate/ColourRate)) - len(t.hann)/2 }
	start := at(first)
	x := cut(w.mono, w.times+t.times, start, at(last-1)+len(t.hann), w.gain)
	for i := first; i < last; i++ {
		frame := x[at(i)-start:]
		for k, h := range t.hann {
			t.frame[k] = frame[k] * h
		}
		t.real.Transform(t.bins, t.frame)
		row := make([]float32, len(t.bank))
		for k, b := range t.bank {
			best := float32(0)
			for _, z := range t.bins[b[0]:b[1]] {
				best = max(best, real(z)*real(z)+imag(z)*imag(z))
			}
			row[k] = float32(math.Log10(1 + toneLoudness*math.Sqrt(float64(best))))
		}
		w.out.Colour[i] = row
	}
}
