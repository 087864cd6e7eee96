package beat

import (
	"context"
	"math"

	"stillbeat/audio/onset"
)

// A sound is held to its main tempo when its beats leave it: where little is
// heard to tell the octave they slip to half or double speed, or follow
// another division for a while. On 202 excerpts of 45 s this lifts the share
// of beats found in the right metre (CMLt) by 0.02. These are round figures;
// holdSpread from 0.2 to 0.4 and leastStray from 0.02 to 0.1 do as well, a
// holdReach of 15 s costs half of it. It is long beside a change of tempo and
// short beside a record of several songs.
const (
	holdReach  = 60   // seconds each side whose beats make the main tempo
	holdSpread = 0.3  // octaves, standard deviation of the tempo around it
	holdWidth  = 0.05 // octaves, within which intervals count together
	farStray   = 0.4  // octaves from the main tempo at which a beat has left it
	leastStray = 0.05 // part of the time that must have left it
)

// hold returns the beats, frames, found anew close to the main tempo of those
// given, or the same if they keep to it. It fails if ctx ends.
func hold(ctx context.Context, ev *evidence, tg tempogram, beats []int) ([]int, error) {
	main := mainIntervals(tg, beats)
	stray, all := 0, 0
	for i := 0; i+1 < len(beats); i++ {
		length := beats[i+1] - beats[i]
		all += length
		if m := main[tg.second(beats[i])]; m > 0 && octavesApart(float64(length), float64(m)) > farStray {
			stray += length
		}
	}
	if float64(stray) < leastStray*float64(all) {
		return beats, nil
	}
	held := make(tempogram, len(tg))
	for s, row := range tg {
		held[s] = make([]float64, len(row))
		for i, v := range row {
			held[s][i] = v
			if main[s] > 0 {
				held[s][i] += logTempo(float64(main[s]), float64(shortest+i), holdSpread) / repeatWeight
			}
		}
	}
	return decode(ctx, ev, held)
}

func octavesApart(a, b float64) float64 { return math.Abs(math.Log2(a / b)) }

// mainIntervals returns, for each second, the interval, frames, that the beats
// around it keep the longest and repeat the best with; 0 if none repeats.
func mainIntervals(tg tempogram, beats []int) []int {
	var near [intervals][intervals]float64
	for i := range near {
		for k := range near {
			d := octavesApart(float64(shortest+i), float64(shortest+k)) / holdWidth
			near[i][k] = math.Exp(-d * d / 2)
		}
	}
	var kept [intervals]float64
	count := func(b int, sign float64) {
		length := beats[b+1] - beats[b]
		kept[length-shortest] += sign * float64(length) * math.Max(0, tg.after(beats[b], length))
	}
	out := make([]int, len(tg))
	first, last := 0, 0
	for s := range out {
		for ; last+1 < len(beats) && beats[last] < (s+holdReach)*onset.FrameRate; last++ {
			count(last, 1)
		}
		for ; first < last && beats[first] < (s-holdReach)*onset.FrameRate; first++ {
			count(first, -1)
		}
		best := 1e-6 // what is left of 0 by rounding
		for i := range near {
			sum := 0.0
			for k, w := range near[i] {
				sum += w * kept[k]
			}
			if sum > best {
				best, out[s] = sum, shortest+i
			}
		}
	}
	return out
}
