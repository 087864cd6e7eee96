package beat

import "stillbeat/audio/onset"

// DebugMeans returns mean rows by class on known beats.
func DebugMeans(env *onset.Envelope, beats []int, m, phase int) (mean [classes][bands]float64, n [classes]float64) {
	f := newFeatures(env)
	g := newGrid(f, beats)
	for i := range g.sums {
		for c := range g.cells {
			k := g.class[c]
			if c == 0 {
				k = beatClass(m, (i-phase+100*m)%m)
			}
			n[k] += g.counts[i][c]
			for b := range bands {
				mean[k][b] += g.sums[i][c][b]
			}
		}
	}
	for k := range mean {
		for b := range bands {
			if n[k] > 0 {
				mean[k][b] /= n[k]
			}
		}
	}
	return
}
