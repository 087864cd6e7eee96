package beat

import "math"

// The bars of a sound are the metre and the place of the first downbeat under
// which its beats, seen bar by bar, are most likely. The weights were chosen
// on 33 of the excerpts of strengths; barStrength from 6 to 50 does as well.
const (
	shortestBar, longestBar = 3, 6 // beats; bars of two are heard as halves of four
	leastBars               = 2    // bars there must be
	barStrength             = 12.0 // belief in the expected means, see marginal
	changeWeight            = 3.0  // of the change of colour between beats
	fourBonus               = 0.1  // log-likelihood per frame in favour of four beats
	leastContrast           = 0.5  // contrast below which beats are all alike
)

// changes is the mean change of colour from the beat before, by class of the
// beat; learnt on the same excerpts.
var changes = [otherBeat + 1]float64{downbeat: 1.22, middle: 0.95, otherBeat: 0.90}

// bars returns the number of beats in a bar and the index of the first
// downbeat, or 0 and 0 if the beats are too alike or too few to tell.
func bars(beats []beatStrength) (metre, first int) {
	song := means(beats)
	best := math.Inf(-1)
	for m := shortestBar; m <= longestBar && len(beats) >= leastBars*m; m++ {
		for p := range m {
			v := barScore(beats, song, m, p)
			if m == 4 {
				v += fourBonus
			}
			if v > best {
				best, metre, first = v, m, p
			}
		}
	}
	if metre == 0 || contrast(beats, metre) < leastContrast {
		return 0, 0
	}
	return metre, first
}

// barScore returns the log-likelihood, per frame, of bars of m beats of which
// the first begins at beat first. What is expected at each place of the bar
// is the song's mean, on beats more or less by their class.
func barScore(beats []beatStrength, song [][rows]float64, m, first int) float64 {
	var typical [rows]float64 // mean strength of the beats of such a bar
	for p := range m {
		for r := range typical {
			typical[r] += strengths[beatClass(m, p)][r] / float64(m)
		}
	}
	pattern, change, frames := 0.0, 0.0, 0.0
	for p := range m {
		on := beatClass(m, p)
		for s := range segmentClasses {
			n := 0.0
			var sum [rows]float64
			for i := (first + p) % m; i < len(beats); i += m {
				n += beats[i].frames[s]
				for r := range colour {
					sum[r] += beats[i].sums[s][r]
				}
			}
			frames += n
			for r := range colour {
				mean := song[s][r]
				if s == 0 {
					mean *= strengths[on][r] / typical[r]
				}
				pattern += marginal(n/temper, sum[r]/temper, mean)
			}
		}
		n, sum := 0.0, 0.0
		for i := (first + p) % m; i < len(beats); i += m {
			n++
			sum += beats[i].change
		}
		change += marginal(n, sum, changes[on])
	}
	return pattern/(frames/temper) + changeWeight*change/float64(len(beats))
}

// marginal returns the log-probability of n exponentially distributed values
// with the given sum when their mean is unknown but expected to be about mean:
// it has an inverse gamma distribution of shape barStrength.
func marginal(n, sum, mean float64) float64 {
	const least = 0.02 // a mean of 0 would forbid everything
	scale := (barStrength - 1) * (mean + least)
	a, _ := math.Lgamma(barStrength + n)
	b, _ := math.Lgamma(barStrength)
	return a - b + barStrength*math.Log(scale) - (barStrength+n)*math.Log(scale+sum)
}

// contrast returns how much more the beats differ between the places of a bar
// of m than within them: the ratio of variances of an analysis of variance,
// the mean over all rows. It is about 1 for chance, less if nothing differs
// by more than a tenth.
func contrast(beats []beatStrength, m int) float64 {
	const tenth = 0.1
	total, n := 0.0, float64(len(beats))
	for r := range rows {
		value := func(b beatStrength) float64 {
			if r == colour {
				return b.change
			}
			return b.sums[0][r]
		}
		mean := 0.0
		var place, count [longestBar]float64
		for i, b := range beats {
			mean += value(b) / n
			place[i%m] += value(b)
			count[i%m]++
		}
		within, across := 0.0, 0.0
		for i, b := range beats {
			at := place[i%m] / count[i%m]
			within += (value(b) - at) * (value(b) - at) / (n - float64(m))
			across += (at - mean) * (at - mean) / float64(m-1)
		}
		total += across / (within + tenth*tenth*mean*mean + 1e-9) / float64(rows)
	}
	return total
}
