package audio

import (
	"math"

	"stillbeat/audio/clip"
)

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
// waveform can be drawn at any zoom in about the same time. It is a clip.Sink,
// or is read from the bytes of one that was kept, and takes 12 bytes for each
// 192 samples. The zero value is silence.
type Pyramid struct {
	rate   int
	length int
	levels [][]bucket // levels[k][i] covers samples from i*256*4^k on
	last   tally      // of the bucket that is not full
	sound  clip.Sound // nil: buckets are all there is
}

// bucket sums up a run of samples.
type bucket struct{ min, max, squares float32 }

// Begin empties the pyramid.
func (p *Pyramid) Begin(info clip.Info) error {
	*p = Pyramid{rate: info.Rate, levels: make([][]bucket, 1), last: newTally()}
	return nil
}

// Add takes the next samples.
func (p *Pyramid) Add(block [][]float32) error {
	for from, n := 0, len(block[0]); from < n; {
		k := min(n-from, baseBucket-p.length%baseBucket)
		p.last.addMean(block, from, from+k)
		p.length += k
		from += k
		if p.length%baseBucket == 0 {
			p.closeBucket()
		}
	}
	return nil
}

func (p *Pyramid) closeBucket() {
	p.levels[0] = append(p.levels[0], p.last.bucket())
	p.last = newTally()
}

// End builds the levels.
func (p *Pyramid) End() error {
	if p.length%baseBucket != 0 {
		p.closeBucket()
	}
	p.build()
	return nil
}

// build makes the levels above the lowest.
func (p *Pyramid) build() {
	for below := p.levels[0]; len(below) > bucketGrowth; {
		next := make([]bucket, (len(below)+bucketGrowth-1)/bucketGrowth)
		for i := range next {
			t := newTally()
			for _, b := range below[i*bucketGrowth : min((i+1)*bucketGrowth, len(below))] {
				t.addBucket(b, 1)
			}
			next[i] = t.bucket()
		}
		p.levels = append(p.levels, next)
		below = next
	}
}

// Attach gives the pyramid the sound it was made of, whose samples are then
// read where columns are narrower than a bucket. A sound of another length is
// not taken.
func (p *Pyramid) Attach(s clip.Sound) {
	if s != nil && s.Len() == p.length && s.Rate() == p.rate {
		p.sound = s
	}
}

// Columns fills dst with the waveform of the half-open range of seconds from
// to to, len(dst) columns of one width, and returns it. Before 0 and after the
// end of the sound there is silence, also in a column that lies half outside.
//
// Column i holds the samples from floor(x(i)) up to, but not including,
// floor(x(i+1)), where x(i) = (from + (to-from)*i/len(dst)) * rate; a column
// narrower than a sample holds the one at floor(x(i)). With a sound attached
// the result is that of reading those samples one by one, at every zoom;
// without, columns are those of the buckets of 256 samples they touch. If to is
// not after from, all is silence.
func (p *Pyramid) Columns(dst []Column, from, to float64) []Column {
	edge := func(i int) int {
		x := (from + (to-from)*float64(i)/float64(len(dst))) * float64(p.rate)
		const far = 1 << 52 // where whole numbers are still exact
		return int(max(-far, min(far, math.Floor(x))))
	}
	if !(to > from) || math.IsInf(from, 0) || math.IsInf(to, 0) || p.length == 0 {
		clear(dst)
		return dst
	}
	r := p.reader()
	for i, start := 0, edge(0); i < len(dst); i++ {
		end := edge(i + 1)
		dst[i] = r.column(start, max(end, start+1))
		start = end
	}
	return dst
}

// reader reads columns of a pyramid.
type reader struct {
	*Pyramid
	scratch [][]float32 // a bucket of samples of each channel
}

func (p *Pyramid) reader() *reader {
	r := &reader{Pyramid: p}
	if p.sound != nil {
		r.scratch = make([][]float32, p.sound.Channels())
		for ch := range r.scratch {
			r.scratch[ch] = make([]float32, baseBucket)
		}
	}
	return r
}

// column sums up samples from a up to b, b > a.
func (r *reader) column(a, b int) Column {
	t := newTally()
	if a < 0 || b > r.length {
		t.addSilence()
	}
	for i, end := max(a, 0), min(b, r.length); i < end; {
		level, size := r.largestBucket(i, end)
		if level < 0 {
			next := min(end, (i/baseBucket+1)*baseBucket)
			r.addPart(&t, i, next)
			i = next
			continue
		}
		t.addBucket(r.levels[level][i/size], 1)
		i += size
	}
	return Column{t.min, t.max, float32(math.Sqrt(t.squares / float64(b-a)))}
}

// largestBucket returns the highest level that has a bucket from sample i on
// which ends by end, and the samples in it. Level -1 means that there is none.
func (p *Pyramid) largestBucket(i, end int) (level, size int) {
	level = -1
	for next := baseBucket; level+1 < len(p.levels) && i%next == 0 && min(i+next, p.length) <= end; next *= bucketGrowth {
		level, size = level+1, next
	}
	return level, size
}

// addPart adds samples a up to b, which lie in one bucket.
func (r *reader) addPart(t *tally, a, b int) {
	if r.sound == nil {
		whole := min(baseBucket, r.length-a/baseBucket*baseBucket)
		t.addBucket(r.levels[0][a/baseBucket], float64(b-a)/float64(whole))
		return
	}
	for ch := range r.scratch {
		r.scratch[ch] = r.scratch[ch][:b-a]
	}
	r.sound.Read(r.scratch, a)
	t.addMean(r.scratch, 0, b-a)
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

// addBucket adds a bucket of which a part is in the column.
func (t *tally) addBucket(b bucket, part float64) {
	t.min, t.max = min(t.min, b.min), max(t.max, b.max)
	t.squares += float64(b.squares) * part
}

func (t *tally) bucket() bucket {
	return bucket{t.min, t.max, float32(t.squares)}
}

// addMean adds the mean of the channels, samples a up to b, at most a bucket.
func (t *tally) addMean(channels [][]float32, a, b int) {
	var mean [baseBucket]float32
	run := mean[:b-a]
	switch left := channels[0][a:b]; len(channels) {
	case 1:
		run = left
	case 2:
		for i, v := range channels[1][a:b] {
			run[i] = 0.5*left[i] + 0.5*v
		}
	default:
		gain := 1 / float32(len(channels))
		for _, ch := range channels {
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
