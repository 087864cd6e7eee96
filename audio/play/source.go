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

// ahead is how many samples of the sound are read at a time.
const ahead = 2048

// Sound is a sound that can be read at any place; clip.Sound has the same
// methods. Read is called for each stretch of ahead samples while the device
// waits: it must neither wait nor take memory.
type Sound interface {
	Rate() int     // samples per second and channel, Hz
	Channels() int // at least 1
	// Read fills dst, [channel][sample], with the samples from at on, silence
	// outside the sound.
	Read(dst [][]float32, at int)
}

// source reads a sound as interleaved stereo float32, little endian, from a
// moment on: silence before its first sample and after its last, without end.
type source struct {
	sound Sound
	first float64      // sample at the moment it starts; whole where step is 1
	step  float64      // samples of the sound for each sample of the device
	read  atomic.Int64 // device samples handed out

	near [][]float32 // [channel], ahead samples from at on
	at   int64
}

// newSource starts at second from of the sound, which may be negative; device
// is the device's rate, samples per second. At the sound's own rate it starts
// at the nearest whole sample, so that the sound passes unchanged.
func newSource(sound Sound, from float64, device int) *source {
	rate := sound.Rate()
	s := &source{sound: sound, first: from * float64(rate), step: float64(rate) / float64(device)}
	if rate == device {
		s.first = math.Round(s.first)
	}
	s.near = make([][]float32, sound.Channels())
	for ch := range s.near {
		s.near[ch] = make([]float32, ahead)
	}
	s.fetch(int64(math.Floor(s.first)) - 1)
	return s
}

// fetch reads the samples from at on.
func (s *source) fetch(at int64) {
	s.at = at
	s.sound.Read(s.near, int(at))
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
		l, r := s.pair(s.first + float64(done+int64(i))*s.step)
		binary.LittleEndian.PutUint32(b[i*frameBytes:], math.Float32bits(l))
		binary.LittleEndian.PutUint32(b[i*frameBytes+4:], math.Float32bits(r))
	}
	s.read.Add(int64(n))
	return n * frameBytes, nil
}

// pair returns left and right at place p. One channel goes to both sides; of
// more than two, the even ones go left and the odd ones right.
func (s *source) pair(p float64) (l, r float32) {
	whole := math.Floor(p)
	i, t := int64(whole), float32(p-whole)
	if i-1 < s.at || i+2 >= s.at+ahead {
		s.fetch(i - 1)
	}
	k := int(i - s.at)
	if len(s.near) == 1 {
		v := between(s.near[0], k, t)
		return v, v
	}
	var sum, n [2]float32
	for c, ch := range s.near {
		sum[c%2] += between(ch, k, t)
		n[c%2]++
	}
	return sum[0] / n[0], sum[1] / n[1]
}

// between returns the value t after place i, 0 <= t < 1: a sample itself where
// t is near 0 or 1, else a cubic through the four samples around it
// (Catmull-Rom).
func between(x []float32, i int, t float32) float32 {
	if t < 1e-4 {
		return x[i]
	}
	if t > 1-1e-4 {
		return x[i+1]
	}
	a, b, c, d := x[i-1], x[i], x[i+1], x[i+2]
	return b + t/2*(c-a+t*(2*a-5*b+4*c-d+t*(3*(b-c)+d-a)))
}
