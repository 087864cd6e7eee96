package mp4

import (
	"errors"
	"fmt"
	"math"
)

// check tells what is wrong with the sound, or nil.
func (s *Sound) check() error {
	if s.Samples == nil {
		return errors.New("the sound has no samples")
	}
	if rate := s.Samples.Rate(); rate < 1000 || rate > 192000 {
		return fmt.Errorf("a sound of %d Hz is not between 1000 and 192000", rate)
	}
	if n := s.Samples.Channels(); n < 1 || n > 8 {
		return fmt.Errorf("a sound of %d channels is not between 1 and 8", n)
	}
	if math.IsNaN(s.Start) || math.IsInf(s.Start, 0) {
		return errors.New("the sound starts at no time")
	}
	return nil
}

// codedRate is the rate the file's sound has: 44.1 kHz stays, all else is 48.
func (s *Sound) codedRate() int {
	if s.Samples.Rate() == 44100 {
		return 44100
	}
	return 48000
}

// minus3dB is the weight of centre and surround channels in a stereo mix
// (ITU-R BS.775-3, annex 4).
const minus3dB = math.Sqrt2 / 2

// mixes holds, for each number of channels in the order of WAVE files, how
// much of each goes to the left and to the right. Low effects are left out.
var mixes = [...][][2]float32{
	1: {{1, 1}},
	2: {{1, 0}, {0, 1}},
	3: {{1, 0}, {0, 1}, {minus3dB, minus3dB}},
	4: {{1, 0}, {0, 1}, {minus3dB, 0}, {0, minus3dB}},
	5: {{1, 0}, {0, 1}, {minus3dB, minus3dB}, {minus3dB, 0}, {0, minus3dB}},
	6: {{1, 0}, {0, 1}, {minus3dB, minus3dB}, {0, 0}, {minus3dB, 0}, {0, minus3dB}},
	7: {{1, 0}, {0, 1}, {minus3dB, minus3dB}, {0, 0}, {0.5, 0.5}, {minus3dB, 0}, {0, minus3dB}},
	8: {{1, 0}, {0, 1}, {minus3dB, minus3dB}, {0, 0}, {minus3dB, 0}, {0, minus3dB}, {minus3dB, 0}, {0, minus3dB}},
}

// stereo mixes channels of one length to two. More than two are weighted so
// that they cannot clip. One or two are returned as they are, not copied.
func stereo(channels [][]float32) (left, right []float32) {
	switch len(channels) {
	case 1:
		return channels[0], channels[0]
	case 2:
		return channels[0], channels[1]
	}
	mix := mixes[len(channels)]
	var sum float32
	for _, m := range mix {
		sum += m[0]
	}
	left, right = make([]float32, len(channels[0])), make([]float32, len(channels[0]))
	for c, ch := range channels {
		l, r := mix[c][0]/sum, mix[c][1]/sum
		for i, v := range ch {
			left[i] += l * v
			right[i] += r * v
		}
	}
	return left, right
}

// pcm16 returns v as a 16-bit sample; what is out of range is clipped, and
// what is no number is silence.
func pcm16(v float32) int16 {
	switch {
	case v != v:
		return 0
	case v >= 1:
		return math.MaxInt16
	case v <= -1:
		return -math.MaxInt16
	}
	return int16(math.Round(float64(v) * math.MaxInt16))
}
