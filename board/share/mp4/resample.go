package mp4

import "math"

// The resampler is a windowed sinc (Smith, Digital Audio Resampling, CCRMA):
// sincZeros zero crossings on each side under a Kaiser window of sincBeta
// (side lobes near -80 dB), cut off at sincEdge of the lower Nyquist frequency.
const (
	sincZeros = 48
	sincBeta  = 8
	sincEdge  = 0.95
	maxPhases = 4096 // kernels kept; a position between two takes the nearer
)

// soundtrack reads a sound at the file's rate from the start of the film on:
// silence where there is no sound.
type soundtrack struct {
	samples Samples
	// Sample k of the film lies at (k*step + offset) / unit samples of the sound.
	step, offset, unit int64
	half               int         // kernel taps on each side
	kernels            [][]float32 // by phase, made when first needed; nil when no resampling is due

	block       [][]float32 // scratch: stretch samples of each channel
	left, right []float32   // of those from at on
	at          int64
}

// stretch is how many samples of the sound are read at a time.
const stretch = 1 << 14

// newSoundtrack places the sound for reading at rate.
func newSoundtrack(s *Sound, rate int) *soundtrack {
	from := int64(s.Samples.Rate())
	g := gcd(int64(rate), from)
	t := &soundtrack{samples: s.Samples, step: from / g, unit: int64(rate) / g}
	// A million seconds is far outside any film and keeps the product whole.
	start := max(-1e6, min(1e6, s.Start))
	t.offset = int64(math.Round(-start * float64(from) * float64(t.unit)))
	if t.step != t.unit {
		t.half = int(math.Ceil(sincZeros / t.cutoff()))
		t.kernels = make([][]float32, min(t.unit, maxPhases))
	}
	t.block = make([][]float32, s.Samples.Channels())
	for ch := range t.block {
		t.block[ch] = make([]float32, stretch)
	}
	return t
}

// near returns n samples from first on, left and right; n is at most stretch.
func (t *soundtrack) near(first int64, n int) (left, right []float32) {
	if t.left == nil || first < t.at || first+int64(n) > t.at+stretch {
		t.at = first
		t.samples.Read(t.block, int(first))
		t.left, t.right = stereo(t.block)
	}
	k := first - t.at
	return t.left[k:][:n], t.right[k:][:n]
}

// cutoff is the resampler's edge as a share of the sound's Nyquist frequency.
func (t *soundtrack) cutoff() float64 {
	return sincEdge * min(1, float64(t.unit)/float64(t.step))
}

// read fills dst with left and right samples in turn, from sample k of the film.
func (t *soundtrack) read(dst []int16, k int64) {
	for i := 0; i < len(dst); i += 2 {
		at := k*t.step + t.offset
		whole, rest := at/t.unit, at%t.unit
		if rest < 0 {
			whole, rest = whole-1, rest+t.unit
		}
		l, r := t.value(whole, rest)
		dst[i], dst[i+1] = pcm16(l), pcm16(r)
		k++
	}
}

// value returns the sound at whole + rest/unit samples.
func (t *soundtrack) value(whole, rest int64) (l, r float32) {
	if t.kernels == nil {
		left, right := t.near(whole, 1)
		return left[0], right[0]
	}
	phases := int64(len(t.kernels))
	phase := (rest*phases + t.unit/2) / t.unit
	if phase == phases {
		whole, phase = whole+1, 0
	}
	if t.kernels[phase] == nil {
		t.kernels[phase] = t.kernel(float64(phase) / float64(phases))
	}
	kernel := t.kernels[phase]
	left, right := t.near(whole-int64(t.half)+1, len(kernel))
	for i, w := range kernel {
		l += w * left[i]
		r += w * right[i]
	}
	return l, r
}

// kernel returns the weights of the 2*half samples around a point that lies
// frac after the sample at half-1. They sum to 1.
func (t *soundtrack) kernel(frac float64) []float32 {
	weights := make([]float64, 2*t.half)
	cutoff, sum := t.cutoff(), 0.0
	for i := range weights {
		x := float64(i-t.half+1) - frac
		weights[i] = sinc(cutoff*x) * kaiser(x/float64(t.half))
		sum += weights[i]
	}
	out := make([]float32, len(weights))
	for i, w := range weights {
		out[i] = float32(w / sum)
	}
	return out
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}

// kaiser is the Kaiser window over -1..1, not scaled to 1 in the middle.
func kaiser(x float64) float64 {
	if x <= -1 || x >= 1 {
		return 0
	}
	// The modified Bessel function of order 0 as its power series.
	half := sincBeta * math.Sqrt(1-x*x) / 2
	sum, term := 1.0, 1.0
	for n := 1.0; term > 1e-12*sum; n++ {
		term *= half / n * half / n
		sum += term
	}
	return sum
}
