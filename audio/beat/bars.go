package beat

import (
	"fmt"
	"math"
)

// The bars of a sound are the metre and place of the first downbeat under
// which its beats, seen bar by bar, are most likely. These weights were chosen
// on the same excerpts as strengths.
const (
	shortestBar, longestBar = 3, 6 // beats; two beats a bar are heard as half of four
	barStrength             = 50   // beats' worth of belief in strengths, see marginal
	changeWeight            = 8    // of the change of colour between beats
	fourBonus               = 0.1  // log-likelihood per frame in favour of four beats
	leastBars               = 2    // bars there must be
	leastSpread             = 0.3  // log-likelihood per frame, times beats, by which places must differ
)

// beatStrength is what the features show in one beat.
type beatStrength struct {
	sums   [][rows]float64 // [segment]
	frames []float64       // [segment]
	change float64         // of colour since the beat before; mean 1
}

// measure returns the strengths of each beat but the last.
func measure(f *features, spectra [][]float32, beats []int) []beatStrength {
	change := beatChange(spectra, beats)
	var out []beatStrength
	for i := 0; i+1 < len(beats); i++ {
		segs := segments(beats[i+1] - beats[i])
		b := beatStrength{change: change[i]}
		from := beats[i] - pulseReach
		for _, s := range segs[:len(segs)-1] { // the last belongs to the next beat
			var sum [rows]float64
			to := min(beats[i]+s.end, f.frames())
			for t := max(0, from); t < to; t++ {
				for r := range sum {
					sum[r] += float64(f[r][t])
				}
			}
			b.sums = append(b.sums, sum)
			b.frames = append(b.frames, float64(max(0, to-max(0, from))))
			from = to
		}
		out = append(out, b)
	}
	return out
}

// bars returns the number of beats in a bar and the index of the first
// downbeat, or 0 and 0 if the beats are too alike or too few to tell.
func bars(beats []beatStrength) (metre, first int) {
	best, spread := math.Inf(-1), 0.0
	for m := shortestBar; m <= longestBar && len(beats) >= leastBars*m; m++ {
		lowest, highest, at := math.Inf(1), math.Inf(-1), 0
		for p := range m {
			v := barScore(beats, m, p)
			if m == 4 {
				v += fourBonus
			}
			if v > highest {
				highest, at = v, p
			}
			lowest = math.Min(lowest, v)
		}
		if highest > best {
			best, spread, metre, first = highest, highest-lowest, m, at
		}
	}
	if PrintF {
		fmt.Printf("F %.2f m%d\n", contrast(beats, metre), metre)
	}
	if spread*float64(len(beats)) < leastSpread {
		return 0, 0
	}
	return metre, first
}

// barScore returns the log-likelihood, per frame, of bars of m beats of which
// the first begins at beat first.
func barScore(beats []beatStrength, m, first int) float64 {
	pattern, change, frames := 0.0, 0.0, 0.0
	song := songMeans(beats)
	var typical [rows]float64
	for p := range m {
		for r := range typical {
			typical[r] += strengths[beatClass(m, p)][r] / float64(m)
		}
	}
	for p := range m {
		var place []beatStrength // the beats at this place of the bar
		for i := (first + p) % m; i < len(beats); i += m {
			place = append(place, beats[i])
		}
		on := beatClass(m, p)
		for s := range segmentClasses {
			for r := range colour {
				mean := song[s][r]
				if s == 0 {
					mean *= strengths[on][r] / typical[r]
				}
				pattern += predicted(place, mean, func(b *beatStrength) (n, sum float64) {
					return b.frames[s] / temper, b.sums[s][r] / temper
				})
			}
			for _, b := range place {
				frames += b.frames[s]
			}
		}
		change += predicted(place, changes[on], func(b *beatStrength) (n, sum float64) { return 1, b.change })
	}
	return pattern/(frames/temper) + changeWeight*change/float64(len(beats))
}

func songMeans(beats []beatStrength) [][rows]float64 {
	out := make([][rows]float64, len(segmentClasses))
	for s := range out {
		n := 0.0
		for _, b := range beats {
			n += b.frames[s]
			for r := range rows {
				out[s][r] += b.sums[s][r]
			}
		}
		for r := range rows {
			out[s][r] = out[s][r]/(n+1e-9) + 0.02
		}
	}
	return out
}

// predicted returns the log-probability of what the beats at one place of the
// bar show, each foretold from the others there: a metre with more places is
// no likelier for having more means to choose.
func predicted(place []beatStrength, mean float64, shown func(*beatStrength) (n, sum float64)) float64 {
	n, sum := 0.0, 0.0
	for i := range place {
		a, b := shown(&place[i])
		n, sum = n+a, sum+b
	}
	all, total := marginal(n, sum, mean), 0.0
	for i := range place {
		a, b := shown(&place[i])
		total += all - marginal(n-a, sum-b, mean)
	}
	return total
}

// segmentClasses are the classes of the segments of a beat, the same for
// every length.
var segmentClasses = func() (c []class) {
	segs := segments(longest)
	for _, s := range segs[:len(segs)-1] {
		c = append(c, s.class)
	}
	return c
}()

// changes is the mean change of colour from the beat before, by class of the
// beat; learnt like strengths.
var changes = [otherBeat + 1]float64{downbeat: 1.22, middle: 0.95, otherBeat: 0.90}

// marginal returns the log-probability of n exponentially distributed values
// with the given sum when their mean is unknown but believed to be about mean:
// the mean has an inverse gamma distribution of shape barStrength.
func marginal(n, sum, mean float64) float64 {
	scale := (barStrength - 1) * mean
	a, _ := math.Lgamma(barStrength + n)
	b, _ := math.Lgamma(barStrength)
	return a - b + barStrength*math.Log(scale) - (barStrength+n)*math.Log(scale+sum)
}

var PrintF = false

func contrast(beats []beatStrength, m int) float64 {
	f := 0.0
	for r := range rows {
		value := func(b beatStrength) float64 {
			if r == colour {
				return b.change
			}
			return b.sums[0][r]
		}
		mean, n := 0.0, float64(len(beats))
		for _, b := range beats {
			mean += value(b) / n
		}
		var at [longestBar]float64
		var count [longestBar]float64
		for i, b := range beats {
			at[i%m] += value(b)
			count[i%m]++
		}
		within, across := 0.0, 0.0
		for i, b := range beats {
			d := value(b) - at[i%m]/count[i%m]
			within += d * d / (n - float64(m))
			e := at[i%m]/count[i%m] - mean
			across += e * e / float64(m-1)
		}
		f += across / (within + 0.01*mean*mean + 1e-9) / float64(rows)
	}
	return f
}
