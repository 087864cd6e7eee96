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
	r.check(len(src), len(dst))
	z := r.stockham(src)
	dst[0] = complex(real(z[0])+imag(z[0]), 0)
	dst[m] = complex(real(z[0])-imag(z[0]), 0)
	for k := 1; k <= m/2; k++ {
		even, odd := r.bin(z[k], z[m-k], k)
		dst[k], dst[m-k] = even+odd, conj(even-odd)
	}
	return dst
}

// Magnitudes writes the absolute values of what Transform would give into dst
// and returns it.
func (r *Real) Magnitudes(dst []float32, src []float32) []float32 {
	m := r.n / 2
	if dst == nil {
		dst = make([]float32, m+1)
	}
	r.check(len(src), len(dst))
	z := r.stockham(src)
	dst[0] = abs(complex(real(z[0])+imag(z[0]), 0))
	dst[m] = abs(complex(real(z[0])-imag(z[0]), 0))
	for k := 1; k <= m/2; k++ {
		even, odd := r.bin(z[k], z[m-k], k)
		dst[k], dst[m-k] = abs(even+odd), abs(even-odd)
	}
	return dst
}

func (r *Real) check(samples, bins int) {
	if samples != r.n || bins != r.n/2+1 {
		panic(fmt.Sprintf("fft: %d samples and %d bins for a transform of %d", samples, bins, r.n))
	}
}

// bin returns the parts of bin k that the even and the odd samples make, of
// values k and m-k of the transform of both.
func (r *Real) bin(p, q complex64, k int) (even, odd complex64) {
	even = complex((real(p)+real(q))*0.5, (imag(p)-imag(q))*0.5)
	return even, times(r.split[k], (imag(p)+imag(q))*0.5, (real(q)-real(p))*0.5)
}

func conj(z complex64) complex64 { return complex(real(z), -imag(z)) }

func abs(z complex64) float32 { return float32(math.Sqrt(float64(real(z)*real(z) + imag(z)*imag(z)))) }

func times(w complex64, re, im float32) complex64 {
	return complex(real(w)*re-imag(w)*im, real(w)*im+imag(w)*re)
}

// stockham transforms the even samples of src as real and the odd ones as
// imaginary parts by the self-sorting radix-4 scheme (last pass radix 2 when the
// length asks for it).
func (r *Real) stockham(src []float32) []complex64 {
	x, y := r.a, r.b
	for k := range x {
		x[k] = complex(src[2*k], src[2*k+1])
	}
	n, s := len(x), 1
	for ; n >= 4; n, s = n/4, s*4 {
		q := n / 4
		for p := range q {
			w1, w2, w3 := r.twid[p*s], r.twid[2*p*s], r.twid[3*p*s]
			a, b, c, d := x[s*p:][:s], x[s*(p+q):][:s], x[s*(p+2*q):][:s], x[s*(p+3*q):][:s]
			o := y[4*s*p:][:4*s]
			o0, o1, o2, o3 := o[:s], o[s:][:s], o[2*s:][:s], o[3*s:][:s]
			for i := range a {
				ar, ai, br, bi := real(a[i]), imag(a[i]), real(b[i]), imag(b[i])
				cr, ci, dr, di := real(c[i]), imag(c[i]), real(d[i]), imag(d[i])
				acr, aci, bdr, bdi := ar+cr, ai+ci, br+dr, bi+di
				er, ei, fr, fi := ar-cr, ai-ci, di-bi, br-dr // f is i(b-d)
				o0[i] = complex(acr+bdr, aci+bdi)
				o1[i] = times(w1, er-fr, ei-fi)
				o2[i] = times(w2, acr-bdr, aci-bdi)
				o3[i] = times(w3, er+fr, ei+fi)
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
