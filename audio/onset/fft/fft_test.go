package fft

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"testing"
)

// naive is the definition of the discrete Fourier transform.
func naive(x []float32, k int) complex128 {
	var sum complex128
	for t, v := range x {
		sum += complex(float64(v), 0) * cmplx.Rect(1, -2*math.Pi*float64(k*t%len(x))/float64(len(x)))
	}
	return sum
}

func TestTransformAgreesWithTheDefinition(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n := 4; n <= 4096; n *= 2 {
		x := make([]float32, n)
		for i := range x {
			x[i] = 2*rng.Float32() - 1
		}
		r := New(n)
		for range 2 { // a second run must not see the first one's scratch
			got, size := r.Transform(nil, x), r.Magnitudes(nil, x)
			for k, g := range got {
				want := naive(x, k)
				if d := cmplx.Abs(complex128(g) - want); d > 2e-6*float64(n) {
					t.Fatalf("New(%d).Transform bin %d = %v, want %v", n, k, g, want)
				}
				if d := math.Abs(float64(size[k]) - cmplx.Abs(want)); d > 2e-6*float64(n) {
					t.Fatalf("New(%d).Magnitudes bin %d = %v, want that of %v", n, k, size[k], want)
				}
			}
		}
	}
}

func TestWrongLengthsPanic(t *testing.T) {
	for name, f := range map[string]func(){
		"not a power of two": func() { New(24) },
		"too short":          func() { New(2) },
		"samples missing":    func() { New(8).Transform(nil, make([]float32, 7)) },
		"magnitudes missing": func() { New(8).Magnitudes(make([]float32, 4), make([]float32, 8)) },
		"bins missing":       func() { New(8).Transform(make([]complex64, 4), make([]float32, 8)) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			f()
		})
	}
}

func BenchmarkMagnitudes1024(b *testing.B) {
	r, x := New(1024), make([]float32, 1024)
	x[3] = 1
	dst := make([]float32, 513)
	b.SetBytes(4096)
	b.ReportAllocs()
	for b.Loop() {
		r.Magnitudes(dst, x)
	}
}
