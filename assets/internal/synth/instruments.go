package synth

import "math"

// Mallet is a wooden bar struck with a soft stick: a bar tuned so that its
// second partial lies two octaves above the first, as a marimba's is.
func Mallet(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(1.4))
	ring(out, f, 0.75, 2.2*math.Pow(220/f, 0.3))
	ring(out, 4*f, 0.22, 0.35)
	ring(out, 9.9*f, 0.07, 0.12)
	hiss(out, 1, 0.16, 600, 4000, 0.0005, 0.02)
	fade(out, 0.2)
	return out
}

// Bell is a small metal bar with a long ring.
func Bell(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(2.6))
	ring(out, f, 0.5, 2.8)
	ring(out, 2.76*f, 0.2, 1.2)
	ring(out, 5.4*f, 0.09, 0.5)
	hiss(out, 2, 0.05, 3000, 9000, 0.0003, 0.01)
	fade(out, 0.4)
	return out
}

// Pluck is a short nylon string: a burst of noise going round a delay line
// that takes a little off the top at every turn (Karplus and Strong, Computer
// Music Journal 7(2), 1983), with a fractional delay so that it is in tune.
func Pluck(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(0.9))
	delay := Rate/f - 0.5 // the averaging filter delays by half a sample
	n := int(delay)
	frac := float32(delay - float64(n))
	loss := float32(math.Pow(10, -3/(1.1*f)))
	src := noise(note)
	var soft float64
	var last float32
	for i := range out {
		if i < n {
			soft += 0.4 * (src.next() - soft)
			out[i] = float32(soft)
			continue
		}
		read := out[i-n] * (1 - frac)
		if i > n {
			read += out[i-n-1] * frac
		}
		out[i] = loss * 0.5 * (read + last)
		last = read
	}
	fade(out, 0.3)
	return out
}

// Bass is a soft plucked bass string.
func Bass(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(1.2))
	ring(out, f, 0.7, 1.6)
	ring(out, 2*f, 0.3, 0.8)
	ring(out, 3*f, 0.12, 0.45)
	hiss(out, 3, 0.1, 150, 1500, 0.001, 0.03)
	fade(out, 0.25)
	return out
}

// Wood is a wood block; the note sets its height.
func Wood(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(0.18))
	ring(out, f, 0.6, 0.14)
	ring(out, 2.6*f, 0.25, 0.07)
	hiss(out, 5, 0.3, 500, 6000, 0.0003, 0.012)
	fade(out, 0.05)
	return out
}

// Drum is a small drum struck by hand; the note sets its height.
func Drum(note int) []float32 {
	f := Frequency(note)
	out := make([]float32, samples(0.5))
	ring(out, f, 0.9, 0.45)
	ring(out, 1.59*f, 0.25, 0.2)
	hiss(out, 6, 0.25, 80, 1200, 0.0005, 0.03)
	fade(out, 0.1)
	return out
}

// Brush is a brush swept over a drum skin.
func Brush() []float32 {
	out := make([]float32, samples(0.3))
	hiss(out, 7, 0.55, 1800, 7500, 0.004, 0.2)
	fade(out, 0.05)
	return out
}

// Shaker is a short shake of seeds.
func Shaker() []float32 {
	out := make([]float32, samples(0.09))
	hiss(out, 8, 0.5, 4500, 10000, 0.006, 0.06)
	fade(out, 0.02)
	return out
}

// Click is a dry tick at hz, the sound of a metronome.
func Click(hz float64) []float32 {
	out := make([]float32, samples(0.06))
	ring(out, hz, 0.9, 0.05)
	fade(out, 0.01)
	return out
}
