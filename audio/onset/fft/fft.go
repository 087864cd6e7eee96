// Package fft is a small real Fourier transform in single precision, for
// spectra of short frames of sound.
package fft

import (
	"fmt"
	"math"
	"math/bits"
)

// Real transforms blocks of one length. It holds scratch space: use one per
// goroutine.
type Real struct {
	n     int
	twid  []complex64 // exp(-2 pi i k/m), m = n/2
	split []complex64 // exp(-2 pi i k/n), k = 0..n/4
	a, b  []complex64
}

// New returns a transform of n real samples. It panics unless n is a power
// of two of at least 4.
func New(n int) *Real {
	if n < 4 || bits.OnesCount(uint(n)) != 1 {
		panic(fmt.Sprintf("fft: length %d is not a power of two of at least 4", n))
	}
	m := n / 2
	r := &Real{n: n, a: make([]complex64, m), b: make([]complex64, m)}
	r.twid, r.split = turns(m, m), turns(n, n/4+1)
	return r
}

// turns returns exp(-2 pi i k/n) for k = 0..count-1.
func turns(n, count int) []complex64 {
	w := make([]complex64, count)
	for k := range w {
		s, c := math.Sincos(-2 * math.Pi * float64(k) / float64(n))
		w[k] = complex(float32(c), float32(s))
	}
	return w
}

// Len returns the block length in samples.
func (r *Real) Len() int { return r.n }

// Transform writes bins 0..n/2 of the spectrum of src into dst and returns
// it: dst[k] = sum over t of src[t] exp(-2 pi i k t/n). A nil dst is
// allocated. It panics if src has not n values or dst not n/2+1.
func (r *Real) Transform(dst []complex64, src []float32) []complex64 {
	m := r.n / 2
	if dst == nil {
		dst = make([]complex64, m+1)
	}
	if len(src) != r.n || len(dst) != m+1 {
		panic(fmt.Sprintf("fft: %d samples and %d bins for a transform of %d", len(src), len(dst), r.n))
	}
	for k := range r.a {
		r.a[k] = complex(src[2*k], src[2*k+1])
	}
	z := r.stockham()
	dst[0] = complex(real(z[0])+imag(z[0]), 0)
	dst[m] = complex(real(z[0])-imag(z[0]), 0)
	for k := 1; k <= m/2; k++ {
		p, q := z[k], conj(z[m-k])
		even, odd := (p+q)*0.5, (p-q)*complex(0, -0.5)
		t := r.split[k] * odd
		dst[k] = even + t
		dst[m-k] = conj(even - t)
	}
	return dst
}

func conj(z complex64) complex64 { return complex(real(z), -imag(z)) }

// stockham transforms r.a, the even samples as real and the odd ones as
// imaginary parts, by the self-sorting radix-4 scheme (last pass radix 2 when
// the length asks for it).
func (r *Real) stockham() []complex64 {
	x, y := r.a, r.b
	n, s := len(x), 1
	for ; n >= 4; n, s = n/4, s*4 {
		q := n / 4
		for p := range q {
			w1, w2, w3 := r.twid[p*s], r.twid[2*p*s], r.twid[3*p*s]
			in, out := x[s*p:], y[4*s*p:4*s*p+4*s]
			for i := range s {
				a, b, c, d := in[i], in[i+s*q], in[i+2*s*q], in[i+3*s*q]
				ac, bd, e, f := a+c, b+d, a-c, b-d
				f = complex(-imag(f), real(f))
				out[i] = ac + bd
				out[i+s] = w1 * (e - f)
				out[i+2*s] = w2 * (ac - bd)
				out[i+3*s] = w3 * (e + f)
			}
		}
		x, y = y, x
	}
	if n == 2 {
		for i := range s {
			y[i], y[i+s] = x[i]+x[i+s], x[i]-x[i+s]
		}
		x = y
	}
	return x
}
