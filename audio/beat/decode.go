package beat

import (
	"context"
	"math"

	"stillbeat/audio/onset"
)

const (
	// lambda is the stiffness of the tempo: p ~ exp(-lambda*|to/from - 1|).
	lambda = 100
	// shortest and longest beat interval, frames: 55 to 215 BPM
	shortest, longest = 28, 109
	intervals         = longest - shortest + 1
)

// transitions returns, for each interval a beat may have, the intervals the
// beat before may have had and the log-probabilities of the step.
func transitions(lo, hi int) (from [][]int, logp [][]float64) {
	n := hi - lo + 1
	from, logp = make([][]int, n), make([][]float64, n)
	for f := lo; f <= hi; f++ {
		sum := 0.0
		for t := lo; t <= hi; t++ {
			sum += math.Exp(-lambda * math.Abs(float64(t)/float64(f)-1))
		}
		for t := lo; t <= hi; t++ {
			p := math.Exp(-P.Lambda*math.Abs(float64(t)/float64(f)-1)) / sum
			if p > 2.2e-16 {
				from[t-lo] = append(from[t-lo], f-lo)
				logp[t-lo] = append(logp[t-lo], math.Log(p))
			}
		}
	}
	return from, logp
}

// evidence holds running sums over frames of the log-likelihood of each class
// the decoder tells apart.
type evidence [classes][]float64

// newEvidence takes the strengths of each class as exponentially distributed
// about the means.
func newEvidence(f *features) *evidence {
	n := len(f.rows[0])
	var ev evidence
	for k := range ev {
		var rate [bands]float64
		bias := 0.0
		for b := range rate {
			m, w := Means[k][b], 1.0
			if k == otherBeat {
				m = (Means[downbeat][b] + Means[middle][b] + 2*Means[otherBeat][b]) / 4
			}
			if b == colour {
				w = P.ColourWeight
			}
			rate[b] = w / m / P.Tau
			bias += w * math.Log(m) / P.Tau
		}
		ev[k] = make([]float64, n+1)
		for t := range n {
			v := bias
			for b := range rate {
				v += rate[b] * float64(f.rows[b][t])
			}
			ev[k][t+1] = ev[k][t] - v
		}
	}
	return &ev
}

// sum returns the log-likelihood of frames from..to as class k.
func (ev *evidence) sum(k, from, to int) float64 { return ev[k][to] - ev[k][from] }

func tempoPrior(l int) float64 {
	d := math.Log2(60 * onset.FrameRate / float64(l) / P.PriorCentre)
	return -P.PriorWeight * d * d * float64(l) / P.Tau
}

// decode returns the most likely beats, frames.
func decode(ctx context.Context, ev *evidence, tg tempogram, total int, lo, hi int) ([]int, float64) {
	N := hi - lo + 1
	from, logp := transitions(lo, hi)
	segs := make([][]segment, N)
	prior := make([]float64, N)
	for i := range segs {
		segs[i] = segments(float64(lo + i))
		prior[i] = tempoPrior(lo + i)
	}
	// score of the frames start..to of a beat of interval i at frame t
	score := func(i, t, to int) float64 {
		v, at := prior[i], t
		v += P.TG * tg[min(len(tg)-1, max(0, t)/tgHop)][i] * float64(lo+i) / P.Tau
		for _, s := range segs[i] {
			end := min(t+s.end, to)
			a := max(at, 0)
			if end > a {
				v += ev.sum(s.class, a, end)
			}
			at = t + s.end
		}
		return v
	}
	ring := hi + 1
	V := make([][]float64, ring)
	for i := range V {
		V[i] = make([]float64, N)
	}
	back := make([]uint8, total*N)
	arrive := make([]float64, N)
	bestEnd, endT, endL := math.Inf(-1), -1, -1
	for t := range total {
		if t%2048 == 0 && ctx.Err() != nil {
			return nil, 0
		}
		for i := range N {
			l := lo + i
			arrive[i] = score(i, t-l, t)
			if t >= l {
				arrive[i] += V[(t-l)%ring][i]
			}
		}
		row := V[t%ring]
		for i := range N {
			best, arg := math.Inf(-1), 0
			for k, f := range from[i] {
				if v := arrive[f] + logp[i][k]; v > best {
					best, arg = v, f
				}
			}
			row[i] = best
			back[t*N+i] = uint8(arg)
			if t+lo+i >= total {
				if v := row[i] + score(i, t, total) - prior[i]*(1-float64(total-t)/float64(lo+i)); v > bestEnd {
					bestEnd, endT, endL = v, t, i
				}
			}
		}
	}
	var beats []int
	for t, i := endT, endL; t >= 0; {
		beats = append(beats, t)
		i = int(back[t*N+i])
		t -= lo + i
	}
	for a, b := 0, len(beats)-1; a < b; a, b = a+1, b-1 {
		beats[a], beats[b] = beats[b], beats[a]
	}
	return beats, bestEnd
}
