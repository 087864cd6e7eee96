package audio

import (
	"encoding/binary"
	"errors"
	"math"

	"stillbeat/audio/clip"
)

// The bytes of a pyramid are a head of waveHead bytes, all little endian:
//
//	4 bytes  "wave"
//	1        version, 1
//	1        exponent e, signed: a step is 2^(e-15)
//	4        samples per second
//	8        samples
//
// and six bytes for each bucket of 256 samples: the smallest sample in steps,
// rounded down; the largest, rounded up; the root mean square in half steps.
const (
	waveMagic   = "wave"
	waveVersion = 1
	waveHead    = 18
	waveBucket  = 6

	// Exponents of what a reader lets through, and of silence.
	leastExponent, mostExponent = -100, 16
)

// errWave says that bytes are not those of a pyramid.
var errWave = errors.New("audio: the waveform is damaged")

// MarshalBinary returns the pyramid in 6 bytes for each 256 samples: 190 kB
// for three minutes at 44.1 kHz. Samples are rounded to 16 bits of the loudest.
func (p *Pyramid) MarshalBinary() ([]byte, error) {
	if p.length == 0 {
		return nil, errors.New("audio: there is no waveform of no sound")
	}
	base := p.levels[0]
	peak := float32(0)
	for _, b := range base {
		peak = max(peak, -b.min, b.max)
	}
	_, e := math.Frexp(float64(peak))
	e = max(leastExponent, min(mostExponent, e))
	le := binary.LittleEndian
	out := make([]byte, 0, waveHead+waveBucket*len(base))
	out = append(append(out, waveMagic...), waveVersion, byte(int8(e)))
	out = le.AppendUint32(out, uint32(p.rate))
	out = le.AppendUint64(out, uint64(p.length))
	steps := func(v float32) float64 { return math.Ldexp(float64(v), 15-e) }
	for i, b := range base {
		out = le.AppendUint16(out, uint16(int16(max(math.MinInt16, math.Floor(steps(b.min))))))
		out = le.AppendUint16(out, uint16(int16(min(math.MaxInt16, math.Ceil(steps(b.max))))))
		rms := math.Sqrt(float64(b.squares) / float64(p.bucketLen(i)))
		out = le.AppendUint16(out, uint16(min(math.MaxUint16, math.Round(2*steps(float32(rms))))))
	}
	return out, nil
}

// bucketLen returns the samples in bucket i of the lowest level.
func (p *Pyramid) bucketLen(i int) int { return min(baseBucket, p.length-i*baseBucket) }

// UnmarshalBinary makes the pyramid that of the bytes, without a sound
// attached. Bytes that make no sense are refused, and then the pyramid is as
// before. It takes less than three times the memory of data.
func (p *Pyramid) UnmarshalBinary(data []byte) error {
	le := binary.LittleEndian
	if len(data) < waveHead || string(data[:4]) != waveMagic || data[4] != waveVersion {
		return errWave
	}
	rate, length := le.Uint32(data[6:]), le.Uint64(data[10:])
	if rate < clip.MinRate || rate > clip.MaxRate || length == 0 || length > clip.MaxSeconds*clip.MaxRate {
		return errWave
	}
	body := data[waveHead:]
	if uint64(len(body)) != (length+baseBucket-1)/baseBucket*waveBucket {
		return errWave
	}
	q := Pyramid{rate: int(rate), length: int(length)}
	e := int(int8(data[5]))
	if e < leastExponent || e > mostExponent {
		return errWave
	}
	base := make([]bucket, len(body)/waveBucket)
	for i := range base {
		b := body[i*waveBucket:]
		low, high, rms := int16(le.Uint16(b)), int16(le.Uint16(b[2:])), int(le.Uint16(b[4:]))
		// The root mean square is no greater than the peak, but for rounding.
		if low > high || rms > 2*max(-int(low), int(high))+1 {
			return errWave
		}
		value := func(steps float64) float64 { return math.Ldexp(steps, e-15) }
		square := value(float64(rms)/2) * value(float64(rms)/2)
		base[i] = bucket{float32(value(float64(low))), float32(value(float64(high))), float32(square * float64(q.bucketLen(i)))}
	}
	q.levels = [][]bucket{base}
	q.build()
	*p = q
	return nil
}
