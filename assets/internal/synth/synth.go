// Package synth makes short sounds from sums of decaying tones and noise and
// mixes them. Every sound starts at its first sample, so that a note placed on
// a beat is heard on the beat. Nothing here is random from run to run.
package synth

import "math"

// Rate is the sample rate of every sound, Hz.
const Rate = 44100

// Frequency returns the pitch of a MIDI note number in Hz; 69 is A at 440 Hz.
func Frequency(note int) float64 { return 440 * math.Pow(2, float64(note-69)/12) }

// samples is a length in seconds as whole samples.
func samples(seconds float64) int { return int(math.Round(seconds * Rate)) }

// ring adds a sine of frequency hz to out that starts at amplitude amp and
// falls by 60 dB within decay seconds.
func ring(out []float32, hz, amp, decay float64) {
	w := 2 * math.Pi * hz / Rate
	if w >= math.Pi {
		return
	}
	r := math.Pow(10, -3/(decay*Rate))
	a, b := 2*r*math.Cos(w), -r*r
	y1, y2 := 0.0, -amp*math.Sin(w)/r
	for i := range out {
		y := a*y1 + b*y2
		y1, y2 = y, y1
		out[i] += float32(y1)
	}
}

// noise is a source of white noise, -1..1 (a linear congruential generator
// with the constants of Numerical Recipes).
type noise uint32

func (n *noise) next() float64 {
	*n = *n*1664525 + 1013904223
	return float64(int32(*n)) / (1 << 31)
}

// hiss adds noise to out, band-limited by two one-pole filters at low and high
// Hz, with a rise and a fall of the given times in seconds.
func hiss(out []float32, seed uint32, amp, low, high, rise, fall float64) {
	n := noise(seed)
	kl := 1 - math.Exp(-2*math.Pi*low/Rate)
	kh := 1 - math.Exp(-2*math.Pi*high/Rate)
	var slow, fast float64
	for i := range out {
		t := float64(i) / Rate
		v := n.next()
		fast += kh * (v - fast)
		slow += kl * (fast - slow)
		env := amp * math.Exp(-6.9*max(t-rise, 0)/fall)
		if t < rise {
			env *= t / rise
		}
		out[i] += float32((fast - slow) * env)
	}
}

// fade lets the last seconds of out run out to nothing.
func fade(out []float32, seconds float64) {
	n := min(samples(seconds), len(out))
	for i := range n {
		out[len(out)-1-i] *= float32(i) / float32(n)
	}
}
