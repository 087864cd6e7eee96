package play

import (
	"encoding/binary"
	"io"
	"math"
	"sync/atomic"

	"stillbeat/audio/stretch"
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

// fade is how long, in device samples, sound goes down before a turn back to
// the start of a loop and comes up after it, so that it does not click.
const fade = 48

// source reads a sound as interleaved stereo float32, little endian, as
// planned: silence before its first sample and after its last, without end.
type source struct {
	sound Sound
	plan  plan
	shift float64      // second of film at which the sound's sample 0 sounds
	read  atomic.Int64 // device samples handed out

	soft       bool    // the first pass comes up as one after a turn does
	begun, end int64   // device samples between which this pass is
	first      float64 // place in what is read at the start of the pass; whole where step is 1
	step       float64 // places for each sample of the device

	slow *stretch.Stretcher // what is read in place of the sound; nil where it is the sound
	near [][]float32        // [channel], ahead samples from at on
	rest [][]float32        // the end of near that is filled next
	at   int64
}

// newPlanned plays as planned a sound that begins at second shift of the film.
// At the device's rate it starts at the nearest whole sample, so that the sound
// passes unchanged.
func newPlanned(sound Sound, shift float64, p plan) *source {
	sound = broughtDown(sound, p.rate)
	s := &source{sound: sound, plan: p, shift: shift}
	s.near, s.rest = make([][]float32, sound.Channels()), make([][]float32, sound.Channels())
	for ch := range s.near {
		s.near[ch] = make([]float32, ahead)
	}
	s.step = float64(sound.Rate()) / p.rate
	if p.Speed != 1 && p.Bends {
		s.step *= p.Speed
	}
	if p.Speed != 1 && !p.Bends {
		s.slow = stretch.New(sound, 0, p.Speed)
	}
	s.begin(0, p.start)
	s.end = math.MaxInt64
	if !math.IsInf(p.first, 1) {
		s.end = int64(p.first)
	}
	return s
}

// begin starts a pass with device sample n at a second of film.
func (s *source) begin(n int64, second float64) {
	s.begun = n
	place := (second - s.shift) * float64(s.sound.Rate())
	if s.slow != nil {
		s.slow.Restart(int(math.Round(place - s.plan.Speed))) // a sample early: see near
		s.first, s.at = 1, 0
		s.slow.Read(s.near)
		return
	}
	s.first = place
	if s.step == 1 {
		s.first = math.Round(place)
	}
	s.at = int64(math.Floor(s.first)) - 1
	s.sound.Read(s.near, int(s.at))
}

// fetch moves near on, to begin at most at a place further along it.
func (s *source) fetch(at int64) {
	if s.slow == nil {
		s.at = at
		s.sound.Read(s.near, int(at))
		return
	}
	at = min(at, s.at+ahead) // a stretcher leaves nothing out
	kept := int(s.at + ahead - at)
	for ch, near := range s.near {
		copy(near[:kept], near[ahead-kept:])
		s.rest[ch] = near[kept:]
	}
	s.slow.Read(s.rest)
	s.at = at
}

// Read fills the start of b with at most chunk sample pairs. It never fails
// and never ends.
func (s *source) Read(b []byte) (int, error) {
	n := int64(min(len(b)/frameBytes, chunk))
	if n == 0 {
		return 0, io.ErrShortBuffer
	}
	done := s.read.Load()
	if done == s.end {
		s.begin(done, s.plan.From)
		s.end += int64(s.plan.every)
	}
	n = min(n, s.end-done)
	for i := range n {
		l, r := s.pair(s.first + float64(done+i-s.begun)*s.step)
		if g := s.gain(done + i); g < 1 {
			l, r = g*l, g*r
		}
		binary.LittleEndian.PutUint32(b[i*frameBytes:], math.Float32bits(l))
		binary.LittleEndian.PutUint32(b[i*frameBytes+4:], math.Float32bits(r))
	}
	s.read.Add(n)
	return int(n * frameBytes), nil
}

// gain returns the loudness of device sample n: less than 1 around a turn.
func (s *source) gain(n int64) float32 {
	edge := s.end - n
	if s.soft || s.begun > 0 {
		edge = min(edge, n-s.begun+1)
	}
	return min(1, float32(edge)/fade)
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
