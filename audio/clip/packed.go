package clip

import "math"

const (
	packRun   = 256      // samples that share a scale
	packChunk = 64 << 10 // samples of each channel that are stored together
)

// Packed is a sound in half the memory of floats, as a Sink that can be read
// as a Sound. Runs of 256 samples of a channel have a power of two for their
// scale, and 16 bits for each sample. Sound of 16 bits is kept exactly, any
// other to within 1/32768 of the peak of its run. The zero value is an empty
// sound.
type Packed struct {
	info   Info
	chunks []packedChunk
}

// packedChunk holds packChunk samples of every channel.
type packedChunk struct {
	steps  [][]int16 // [channel][sample]
	scales [][]int8  // [channel][run], exponents of two of a step
}

// Begin empties the sound.
func (p *Packed) Begin(info Info) error {
	*p = Packed{info: info}
	p.info.Len = 0
	return nil
}

// Add appends samples.
func (p *Packed) Add(block [][]float32) error {
	for from, n := 0, len(block[0]); from < n; {
		if p.info.Len%packChunk == 0 {
			p.grow()
		}
		c, at := &p.chunks[len(p.chunks)-1], p.info.Len%packChunk
		k := min(n-from, packRun-at%packRun)
		for ch, samples := range block {
			c.put(ch, at, samples[from:from+k])
		}
		p.info.Len += k
		from += k
	}
	return nil
}

// End does nothing: the sound is complete.
func (p *Packed) End() error { return nil }

func (p *Packed) grow() {
	c := packedChunk{make([][]int16, p.info.Channels), make([][]int8, p.info.Channels)}
	for ch := range c.steps {
		c.steps[ch], c.scales[ch] = make([]int16, packChunk), make([]int8, packChunk/packRun)
	}
	p.chunks = append(p.chunks, c)
}

// put stores samples at place at of the chunk, all in one run. A run that
// comes in pieces is scaled anew with each.
func (c *packedChunk) put(ch, at int, samples []float32) {
	run, before := at/packRun, at%packRun
	steps := c.steps[ch][run*packRun:][:before+len(samples)]
	var all [packRun]float32
	unpack(all[:before], steps, c.scales[ch][run])
	copy(all[before:], samples)
	c.scales[ch][run] = pack(steps, all[:len(steps)])
}

// pack writes samples as steps of the smallest power of two that suits all,
// and returns its exponent.
func pack(steps []int16, samples []float32) (exponent int8) {
	low, high := float32(0), float32(0)
	for _, v := range samples {
		low, high = min(low, v), max(high, v)
	}
	const least, most = -120, 100
	_, e := math.Frexp(float64(max(-low, high)))
	e = max(least, min(most, e-16)) // one too small but for a lonely -1
	for math.RoundToEven(math.Ldexp(float64(high), -e)) > math.MaxInt16 || math.RoundToEven(math.Ldexp(float64(low), -e)) < math.MinInt16 {
		e++
	}
	scale := float32(math.Ldexp(1, -e))
	for i, v := range samples {
		steps[i] = int16(math.RoundToEven(float64(v * scale)))
	}
	return int8(e)
}

// unpack reads samples from steps.
func unpack(dst []float32, steps []int16, exponent int8) {
	step := math.Float32frombits(uint32(int(exponent)+127) << 23)
	for i := range dst {
		dst[i] = float32(steps[i]) * step
	}
}

// Rate returns the samples per second and channel, Hz.
func (p *Packed) Rate() int { return p.info.Rate }

// Channels returns the number of channels.
func (p *Packed) Channels() int { return p.info.Channels }

// Len returns the number of samples in each channel.
func (p *Packed) Len() int { return p.info.Len }

// Seconds returns the length in seconds.
func (p *Packed) Seconds() float64 { return p.info.Seconds() }

// Read fills dst, [channel][sample], with the samples from at on; before and
// after the sound there is silence.
func (p *Packed) Read(dst [][]float32, at int) {
	for ch, out := range dst {
		from, to := max(0, min(len(out), -at)), max(0, min(len(out), p.info.Len-at))
		if from >= to {
			clear(out)
			continue
		}
		clear(out[:from])
		clear(out[to:])
		for from < to {
			place := at + from
			c, i := &p.chunks[place/packChunk], place%packChunk
			k := min(to-from, packRun-i%packRun)
			unpack(out[from:from+k], c.steps[ch][i:], c.scales[ch][i/packRun])
			from += k
		}
	}
}
