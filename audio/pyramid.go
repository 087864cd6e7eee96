package audio

import "math"

// Column is one column of a waveform: the smallest and largest sample in it
// and the root of their mean square. Silence is all zero.
type Column struct{ Min, Max, RMS float32 }

// Samples in a bucket of the lowest level, and buckets of one level in a
// bucket of the next.
const (
	baseBucket   = 256
	bucketGrowth = 4
)

// Pyramid is an overview of a sound, the mean of its channels, from which a
// waveform can be drawn at any zoom in about the same time. It takes 12 bytes
// for each 192 samples and refers to the samples of the clip, which must not
// change.
type Pyramid struct {
	rate     int
	length   int
	channels [][]float32
	levels   [][]bucket // levels[k][i] covers samples from i*256*4^k on
}

// bucket sums up a run of samples.
type bucket struct{ min, max, squares float32 }

// BuildPyramid reads every sample of c once. A nil or empty clip gives a
// pyramid of silence.
func BuildPyramid(c *Clip) *Pyramid {
	if c.Len() == 0 || c.Rate <= 0 {
		return &Pyramid{rate: 1}
	}
	p := &Pyramid{rate: c.Rate, length: c.Len(), channels: c.Samples}
	base := make([]bucket, (p.length+baseBucket-1)/baseBucket)
	for i := range base {
		t := newTally()
		p.addSamples(&t, i*baseBucket, min((i+1)*baseBucket, p.length))
		base[i] = t.bucket()
	}
	p.levels = [][]bucket{base}
	for below := base; len(below) > bucketGrowth; {
		next := make([]bucket, (len(below)+bucketGrowth-1)/bucketGrowth)
		for i := range next {
			t := newTally()
			for _, b := range below[i*bucketGrowth : min((i+1)*bucketGrowth, len(below))] {
				t.addBucket(b)
			}
			next[i] = t.bucket()
		}
		p.levels = append(p.levels, next)
		below = next
	}
	return p
}

// Columns fills dst with the waveform of the half-open range of seconds from
// to to, len(dst) columns of one width, and returns it. Before 0 and after the
// end of the sound there is silence, also in a column that lies half outside.
//
// Column i holds the samples from floor(x(i)) up to, but not including,
// floor(x(i+1)), where x(i) = (from + (to-from)*i/len(dst)) * rate; a column
// narrower than a sample holds the one at floor(x(i)). The result is that of
// reading those samples one by one, at every zoom. If to is not after from,
// all is silence.
func (p *Pyramid) Columns(dst []Column, from, to float64) []Column {
	edge := func(i int) int {
		x := (from + (to-from)*float64(i)/float64(len(dst))) * float64(p.rate)
		const far = 1 << 52 // where whole numbers are still exact
		return int(max(-far, min(far, math.Floor(x))))
	}
	if !(to > from) || math.IsInf(from, 0) || math.IsInf(to, 0) {
		clear(dst)
		return dst
	}
	for i, start := 0, edge(0); i < len(dst); i++ {
		end := edge(i + 1)
		dst[i] = p.column(start, max(end, start+1))
		start = end
	}
	return dst
}

// column sums up samples from a up to b, b > a.
func (p *Pyramid) column(a, b int) Column {
	t := newTally()
	if a < 0 || b > p.length {
		t.addSilence()
	}
	for i, end := max(a, 0), min(b, p.length); i < end; {
		level, size := p.largestBucket(i, end)
		if level < 0 {
			next := min(end, (i/baseBucket+1)*baseBucket)
			p.addSamples(&t, i, next)
			i = next
			continue
		}
		t.addBucket(p.levels[level][i/size])
		i += size
	}
	return Column{t.min, t.max, float32(math.Sqrt(t.squares / float64(b-a)))}
}

// largestBucket returns the highest level that has a bucket from sample i on
// which ends by end, and the samples in it. Level -1 means that there is none.
func (p *Pyramid) largestBucket(i, end int) (level, size int) {
	level = -1
	for next := baseBucket; level+1 < len(p.levels) && i%next == 0 && i+next <= end; next *= bucketGrowth {
		level, size = level+1, next
	}
	return level, size
}

// tally collects samples and buckets.
type tally struct {
	min, max float32
	squares  float64
}

func newTally() tally {
	return tally{min: math.MaxFloat32, max: -math.MaxFloat32}
}

func (t *tally) addSilence() {
	t.min, t.max = min(t.min, 0), max(t.max, 0)
}

func (t *tally) addBucket(b bucket) {
	t.min, t.max = min(t.min, b.min), max(t.max, b.max)
	t.squares += float64(b.squares)
}

func (t *tally) bucket() bucket {
	return bucket{t.min, t.max, float32(t.squares)}
}

// addSamples adds the mean of the channels, samples a up to b.
func (p *Pyramid) addSamples(t *tally, a, b int) {
	gain := 1 / float32(len(p.channels))
	var mean [baseBucket]float32
	run := p.channels[0][a:b]
	if len(p.channels) > 1 {
		run = mean[:b-a]
		for _, ch := range p.channels {
			for i, v := range ch[a:b] {
				run[i] += v * gain
			}
		}
	}
	lo, hi, squares := t.min, t.max, float32(0)
	for _, v := range run {
		if v < lo {
			lo = v
		}
		if v > hi {
			hi = v
		}
		squares += v * v
	}
	t.min, t.max = lo, hi
	t.squares += float64(squares)
}
