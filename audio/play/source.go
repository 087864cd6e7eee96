package play

import (
	"encoding/binary"
	"io"
	"math"
	"sync/atomic"
)

const (
	channels   = 2
	frameBytes = channels * 4 // float32
	// chunk is the most sample pairs handed out in one go: 2 ms. The device's
	// library counts a chunk as buffered only some time after it was handed
	// out; until then the chunk looks as if the device had taken it.
	chunk = 96
)

// source reads a sound as interleaved stereo float32, little endian, from a
// moment on: silence before its first sample and after its last, without end.
type source struct {
	samples [][]float32
	first   float64      // sample at the moment it starts; whole where step is 1
	step    float64      // samples of the sound for each sample of the device
	read    atomic.Int64 // device samples handed out
}

// newSource starts at second from of the sound, which may be negative; rate
// is the sound's and device the device's, samples per second. At one rate it
// starts at the nearest whole sample, so that the sound passes unchanged.
func newSource(samples [][]float32, from float64, rate, device int) *source {
	s := &source{samples: samples, first: from * float64(rate), step: float64(rate) / float64(device)}
	if rate == device {
		s.first = math.Round(s.first)
	}
	return s
}

// Read fills the start of b with at most chunk sample pairs. It never fails
// and never ends.
func (s *source) Read(b []byte) (int, error) {
	n := min(len(b)/frameBytes, chunk)
	if n == 0 {
		return 0, io.ErrShortBuffer
	}
	done := s.read.Load()
	for i := range n {
		l, r := s.at(s.first + float64(done+int64(i))*s.step)
		binary.LittleEndian.PutUint32(b[i*frameBytes:], math.Float32bits(l))
		binary.LittleEndian.PutUint32(b[i*frameBytes+4:], math.Float32bits(r))
	}
	s.read.Add(int64(n))
	return n * frameBytes, nil
}

// at returns left and right at place p. One channel goes to both sides; of
// more than two, the even ones go left and the odd ones right.
func (s *source) at(p float64) (l, r float32) {
	switch len(s.samples) {
	case 0:
		return 0, 0
	case 1:
		v := between(s.samples[0], p)
		return v, v
	}
	var sum, n [2]float32
	for c, ch := range s.samples {
		sum[c%2] += between(ch, p)
		n[c%2]++
	}
	return sum[0] / n[0], sum[1] / n[1]
}

// between returns the value at place p: a sample itself where p is whole,
// else a cubic through the four samples around it (Catmull-Rom).
func between(x []float32, p float64) float32 {
	at := func(i int64) float32 {
		if i < 0 || i >= int64(len(x)) {
			return 0
		}
		return x[i]
	}
	whole := math.Floor(p)
	i, t := int64(whole), float32(p-whole)
	if t < 1e-4 {
		return at(i)
	}
	if t > 1-1e-4 {
		return at(i + 1)
	}
	a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
	return b + t/2*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
}
