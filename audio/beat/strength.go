package beat

import "stillbeat/audio/onset"

// beatStrength is what the features show in one beat.
type beatStrength struct {
	sums   [][rows]float64 // [segment], over its frames
	frames []float64       // [segment]
	change float64         // of colour since the beat before; mean 1
}

// segmentClasses are the classes of the segments of a beat, but for the part
// that belongs to the next one: the same for every length.
var segmentClasses = func() (c []class) {
	segs := segments(longest)
	for _, s := range segs[:len(segs)-1] {
		c = append(c, s.class)
	}
	return c
}()

// measure returns the strengths of each beat, frames, but the last.
func measure(f *features, env *onset.Envelope, beats []int) []beatStrength {
	change := beatChange(env.Colour, beats)
	var out []beatStrength
	for i := 0; i+1 < len(beats); i++ {
		b := beatStrength{change: change[i]}
		segs := segments(beats[i+1] - beats[i])
		from := max(0, beats[i]-pulseReach)
		for _, s := range segs[:len(segmentClasses)] {
			var sum [rows]float64
			to := max(from, min(beats[i]+s.end, f.frames()))
			for t := from; t < to; t++ {
				for r := range sum {
					sum[r] += float64(f[r][t])
				}
			}
			b.sums = append(b.sums, sum)
			b.frames = append(b.frames, float64(to-from))
			from = to
		}
		out = append(out, b)
	}
	return out
}

// means returns the mean of each row over the frames of each segment.
func means(beats []beatStrength) [][rows]float64 {
	out := make([][rows]float64, len(segmentClasses))
	for s := range out {
		frames := 0.0
		for _, b := range beats {
			frames += b.frames[s]
			for r := range rows {
				out[s][r] += b.sums[s][r]
			}
		}
		for r := range rows {
			out[s][r] /= max(1, frames)
		}
	}
	return out
}
