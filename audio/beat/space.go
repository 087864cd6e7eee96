package beat

import (
	"math"

	"stillbeat/audio/onset"
)

// The state space is the bar pointer of Krebs, Boeck and Widmer, "An efficient
// state-space model for joint tempo and meter tracking", ISMIR 2015: one state
// for each frame of each beat interval; the tempo changes on beats only.
const (
	// shortest and longest beat intervals, frames: 55 to 215 BPM.
	shortest, longest = 28, 109
	intervals         = longest - shortest + 1
	// stiffness of the tempo: a step has probability ~ exp(-stiffness*|to/from - 1|).
	stiffness = 100
	// unlikely is the value of that at and below which a step is left out.
	unlikely = 0x1p-52
)

// steps lists the intervals from which the tempo may step to one interval:
// first, first+1 ... with their log-probabilities.
type steps struct {
	first int
	logp  []float64
	last  int // place in logp of the step that was best the last time
}

// best returns the greatest sum of what it is to arrive with an interval and to
// step from it, and that interval, the first if there are several. Beginning
// with what was best a frame before, it seldom meets anything better, and
// passes the rest quickly.
func (s *steps) best(arrive []float64) (sum float64, from int) {
	arrive = arrive[s.first:][:len(s.logp)]
	sum, from = arrive[s.last]+s.logp[s.last], s.last
	for k := s.last - 1; k >= 0; k-- {
		if v := arrive[k] + s.logp[k]; v >= sum {
			sum, from = v, k
		}
	}
	for k := s.last + 1; k < len(arrive); k++ {
		if v := arrive[k] + s.logp[k]; v > sum {
			sum, from = v, k
		}
	}
	s.last = from
	return sum, s.first + from
}

// transitions returns the steps to each of the intervals lo..hi; first counts
// from lo. The probabilities of all steps from one interval sum to 1.
func transitions(lo, hi int) []steps {
	n := hi - lo + 1
	to := make([]steps, n)
	for from := range n {
		p, sum := make([]float64, n), 0.0
		for t := range p {
			p[t] = math.Exp(-stiffness * math.Abs(float64(lo+t)/float64(lo+from)-1))
			if p[t] <= unlikely {
				p[t] = 0
			}
			sum += p[t]
		}
		for t := range p {
			if p[t] == 0 {
				continue
			}
			if len(to[t].logp) == 0 {
				to[t].first = from
			}
			to[t].logp = append(to[t].logp, math.Log(p[t]/sum))
		}
	}
	return to
}

// Chosen on 40 of the excerpts of strengths, with a geometric mean of 110 BPM
// and a deviation of 0.47 octaves; neighbouring figures do no better on the
// others.
const (
	tempoCentre = 112  // BPM
	tempoSpread = 0.79 // octaves, standard deviation
)

// logTempo returns the logarithm of the log-normal tempo prior, 0 at the
// centre, BPM, with a standard deviation in octaves; as in Ellis, "Beat
// tracking by dynamic programming", 2007.
func logTempo(bpm, centre, spread float64) float64 {
	d := math.Log2(bpm/centre) / spread
	return -d * d / 2
}

// tempoPrior returns the log-probability of a beat interval. It counts in
// every frame, so that the octave chosen does not depend on the length of the
// sound.
func tempoPrior(interval int) float64 {
	return logTempo(60*onset.FrameRate/float64(interval), tempoCentre, tempoSpread)
}
