package synth

import "math"

// Plop is a drop falling into a full cup: a bubble whose pitch climbs as it
// closes, and a little spray.
func Plop() []float32 {
	out := make([]float32, samples(0.5))
	phase := 0.0
	for i := range out {
		t := float64(i) / Rate
		f := 260 + 900*math.Pow(min(t/0.11, 1), 2)
		phase += 2 * math.Pi * f / Rate
		out[i] = float32(0.9 * math.Sin(phase) * math.Exp(-t*14) * min(t/0.001, 1))
	}
	hiss(out, 21, 0.5, 1200, 6000, 0.02, 0.25)
	hiss(out, 22, 0.4, 200, 3000, 0.0005, 0.03)
	fade(out, 0.1)
	return out
}

// Creak is a joint giving way: a tone that sinks in little jerks.
func Creak(seconds float64) []float32 {
	out := make([]float32, samples(seconds))
	phase := 0.0
	for i := range out {
		t := float64(i) / float64(len(out))
		f := 620 - 340*t + 30*math.Sin(2*math.Pi*t*9)
		phase += 2 * math.Pi * f / Rate
		jerk := 0.55 + 0.45*math.Sin(2*math.Pi*t*18)
		out[i] = float32(0.5 * jerk * (math.Sin(phase) + 0.3*math.Sin(2*phase)) * min(t/0.01, 1) * (1 - t))
	}
	return out
}

// Whirr is something small flying past: a soft rush of air.
func Whirr(seconds float64) []float32 {
	out := make([]float32, samples(seconds))
	hiss(out, 31, 0.6, 500, 2600, seconds*0.45, seconds*1.2)
	fade(out, seconds/3)
	return out
}

// Thud is something heavy landing on a table.
func Thud() []float32 {
	out := make([]float32, samples(0.7))
	ring(out, 62, 1, 0.5)
	ring(out, 131, 0.5, 0.25)
	ring(out, 870, 0.15, 0.2)
	hiss(out, 41, 0.5, 80, 2500, 0.0005, 0.06)
	fade(out, 0.1)
	return out
}
