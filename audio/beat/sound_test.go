package beat

import (
	"math"
	"math/rand/v2"
)

const testRate = 11025

// band plays instruments into a sound at testRate. The same band always plays
// the same.
type band struct {
	x   []float32
	rng *rand.Rand
}

func newBand(seconds float64) *band {
	return &band{x: make([]float32, int(seconds*testRate)), rng: rand.New(rand.NewPCG(5, 6))}
}

// play adds wave(s since t) for length seconds from t.
func (b *band) play(t, length float64, wave func(s float64) float64) {
	begin := int(math.Ceil(t * testRate))
	for i := max(0, begin); i < min(len(b.x), begin+int(length*testRate)); i++ {
		b.x[i] += float32(wave(float64(i)/testRate - t))
	}
}

func (b *band) kick(t float64) {
	b.play(t, 0.25, func(s float64) float64 {
		return 0.6 * math.Sin(2*math.Pi*(55*s+4*(1-math.Exp(-s/0.02)))) * math.Exp(-s/0.07)
	})
}

func (b *band) snare(t float64) {
	b.play(t, 0.2, func(s float64) float64 {
		return (0.25*b.rng.NormFloat64() + 0.2*math.Sin(2*math.Pi*190*s)) * math.Exp(-s/0.05)
	})
}

func (b *band) hat(t, loud float64) {
	last := 0.0
	b.play(t, 0.06, func(s float64) float64 {
		v := b.rng.NormFloat64()
		v, last = v-last, v
		return 0.12 * loud * v * math.Exp(-s/0.015)
	})
}

func (b *band) click(t float64) {
	b.play(t, 0.03, func(s float64) float64 {
		return 0.5 * math.Sin(2*math.Pi*1500*s) * math.Exp(-s/0.006)
	})
}

// chord plays a soft triad on a root, Hz.
func (b *band) chord(t, length, root float64) {
	b.play(t, length, func(s float64) float64 {
		v := 0.0
		for _, ratio := range [...]float64{1, 1.25, 1.5} {
			for h := 1.0; h <= 4; h++ {
				v += math.Sin(2*math.Pi*root*ratio*h*s) / h
			}
		}
		return 0.04 * v * math.Min(1, s/0.01) * math.Exp(-s/1.5)
	})
}

// roots are those of four chords, Hz.
var roots = [...]float64{130.8, 220, 174.6, 196}

// grid returns beats from t on, each interval given by its number, up to end.
func grid(t, end float64, interval func(i int) float64) []float64 {
	var beats []float64
	for i := 0; t < end; i++ {
		beats = append(beats, t)
		t += interval(i)
	}
	return beats
}

// at returns the interval of a tempo, for grid.
func at(bpm float64) func(int) float64 { return func(int) float64 { return 60 / bpm } }

// rock plays kick and snare by turns, hats on the halves (late by swing of a
// beat) and a chord a bar, in bars of four.
func rock(b *band, beats []float64, swing float64) (downbeats []float64) {
	for i := 0; i+1 < len(beats); i++ {
		t, d := beats[i], beats[i+1]-beats[i]
		switch i % 4 {
		case 0:
			b.chord(t, 4*d, roots[i/4%len(roots)])
			b.kick(t)
			downbeats = append(downbeats, t)
		case 2:
			b.kick(t)
		default:
			b.snare(t)
		}
		b.hat(t, 1)
		b.hat(t+d*(0.5+swing), 0.7)
	}
	return downbeats
}

// waltz plays a bass note and chord on one, chords on two and three.
func waltz(b *band, beats []float64) (downbeats []float64) {
	for i := 0; i+1 < len(beats); i++ {
		t, d := beats[i], beats[i+1]-beats[i]
		root := roots[i/3%len(roots)]
		if i%3 == 0 {
			b.kick(t)
			b.chord(t, 3*d, root)
			downbeats = append(downbeats, t)
		} else {
			b.chord(t, d/2, 2*root)
			b.hat(t, 0.6)
		}
	}
	return downbeats
}

// murmur speaks syllables of random length, pitch and vowel, with pauses.
func murmur(b *band) {
	r := b.rng
	for t, end := 0.3, float64(len(b.x))/testRate; t < end; {
		length := 0.08 + 0.2*r.Float64()
		pitch, vowel, loud := 100+60*r.Float64(), 500+2000*r.Float64(), 0.1+0.2*r.Float64()
		voiced := r.Float64() < 0.7
		b.play(t, length, func(s float64) float64 {
			v := 0.5 * r.NormFloat64()
			if voiced {
				v = 0
				for h := 1.0; h < 12; h++ {
					v += math.Sin(2*math.Pi*h*pitch*s) / (1 + math.Pow((h*pitch-vowel)/400, 2))
				}
			}
			return loud * math.Sin(math.Pi*s/length) * v
		})
		t += length + 0.02*r.ExpFloat64()
		if r.Float64() < 0.12 {
			t += 0.2 + 0.5*r.Float64()
		}
	}
}

// rain plays clicks at random times.
func rain(b *band) {
	for t, end := 0.3, float64(len(b.x))/testRate; t < end; t += 0.1 + 0.3*b.rng.ExpFloat64() {
		b.click(t)
	}
}

// hiss is white noise.
func hiss(b *band) {
	for i := range b.x {
		b.x[i] = float32(0.1 * b.rng.NormFloat64())
	}
}
