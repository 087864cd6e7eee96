package beat

import (
	"context"
	"math"
	"slices"
)

// decode returns the most likely beats, frames, by the Viterbi algorithm over
// the state space.
//
// Within a beat the path is fixed, so that all its states score at once, from
// running sums: what remains is the best way to arrive at a beat at each frame
// with each interval to come, and one byte a pair to walk back.
func decode(ctx context.Context, ev *evidence, tg tempogram) ([]int, error) {
	total := ev.frames()
	beats := newBeatScores(ev, tg)
	ahead := scoreAhead(beats, total)
	defer ahead.stop()
	steps := transitions(shortest, longest)
	back := make([]uint8, total*intervals)
	var ring [longest + 1][intervals]float64 // [frame % len]: best score up to a beat there
	end, endFrame, endInterval := math.Inf(-1), 0, 0
	for t := range total {
		if t%4096 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		arrive := ahead.frame(t)
		for i := range arrive {
			if length := shortest + i; t >= length {
				arrive[i] += ring[(t-length)%len(ring)][i]
			}
		}
		row := &ring[t%len(ring)]
		for i := range steps {
			best, from := steps[i].best(arrive[:])
			row[i] = best
			back[t*intervals+i] = uint8(from)
			if t+shortest+i >= total {
				if v := best + beats.score(i, t, total); v > end {
					end, endFrame, endInterval = v, t, i
				}
			}
		}
	}
	var out []int
	for t, i := endFrame, endInterval; t >= 0; {
		out = append(out, t)
		i = int(back[t*intervals+i])
		t -= shortest + i
	}
	slices.Reverse(out)
	return out, nil
}

// beatScores scores single beats.
type beatScores struct {
	ev    *evidence
	tg    tempogram
	segs  [intervals][]segment
	prior [intervals]float64
}

func newBeatScores(ev *evidence, tg tempogram) *beatScores {
	b := &beatScores{ev: ev, tg: tg}
	for i := range b.segs {
		b.segs[i] = segments(shortest + i)
		b.prior[i] = tempoPrior(shortest + i)
	}
	return b
}

// score returns the log-likelihood of the frames of a beat of interval
// shortest+i at frame t, as far as they lie in 0..to.
func (b *beatScores) score(i, t, to int) float64 {
	frames := min(t+shortest+i, to) - max(t, 0)
	perFrame := b.prior[i] + repeatWeight*b.tg.at(t, i)
	return b.ev.beat(b.segs[i], t, to) + perFrame*float64(frames)/temper
}
