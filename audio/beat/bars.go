package beat

import "math"

// grid holds what the features show on a row of beats.
type grid struct {
	cells  int                // parts of a beat; the first is the beat itself
	class  []int              // [cell]
	sums   [][][bands]float64 // [beat][cell][row]
	counts [][]float64        // [beat][cell], frames
	change []float64          // [beat], change of colour at the beat, mean 1
}

// newGrid measures f on the beats, frames.
func newGrid(f *features, beats []int) *grid {
	g := &grid{}
	n := len(f.rows[0])
	for i := 0; i+1 < len(beats); i++ {
		l := beats[i+1] - beats[i]
		segs := segments(float64(l))
		if g.cells == 0 {
			g.cells = len(segs) - 1
			for _, s := range segs[:g.cells] {
				g.class = append(g.class, s.class)
			}
		}
		sums, counts := make([][bands]float64, g.cells), make([]float64, g.cells)
		begin := 0
		if i > 0 {
			begin = segs[len(segs)-2].end - l
		}
		for c, s := range segs[:min(len(segs)-1, g.cells)] {
			for t := max(0, beats[i]+begin); t < min(n, beats[i]+s.end); t++ {
				counts[c]++
				for b := range f.rows {
					sums[c][b] += float64(f.rows[b][t])
				}
			}
			begin = s.end
		}
		g.sums, g.counts = append(g.sums, sums), append(g.counts, counts)
	}
	return g
}

// marginal returns the log-probability of n exponential values of sum s whose
// mean is unknown: inverse gamma about mean, alpha strong.
func marginal(n, s, mean, alpha float64) float64 {
	beta := (alpha - 1) * mean
	a, _ := math.Lgamma(alpha + n)
	b, _ := math.Lgamma(alpha)
	return a - b + alpha*math.Log(beta) - (alpha+n)*math.Log(beta+s)
}

// score returns the log marginal likelihood per frame of bars of m beats, the
// first beginning at beat phase.
func (g *grid) score(m, phase int) (pattern, change float64) {
	frames := 0.0
	for p := range m {
		for c := range g.cells {
			k := g.class[c]
			if c == 0 {
				k = beatClass(m, p)
			}
			n := 0.0
			var s [bands]float64
			for i := (phase + p) % m; i < len(g.sums); i += m {
				n += g.counts[i][c]
				for b := range s {
					s[b] += g.sums[i][c][b]
				}
			}
			frames += n
			for b := range colour {
				pattern += marginal(n/P.Tau, s[b]/P.Tau, Means[k][b], P.Alpha)
			}
		}
		n, s := 0.0, 0.0
		for i := (phase + p) % m; i < len(g.change); i += m {
			if i > 0 {
				n++
				s += g.change[i]
			}
		}
		change += marginal(n, s, changeMeans[beatClass(m, p)], P.Alpha)
	}
	return pattern / (frames / P.Tau), change / float64(len(g.change))
}

// changeMeans is the mean change of colour at beats of a bar, by class.
var changeMeans = [3]float64{1.22, 0.95, 0.90}

// bars returns the metre and the index of the first downbeat.
func (g *grid) bars() (metre, phase int) {
	best := math.Inf(-1)
	for m := 3; m <= 6; m++ {
		for p := range m {
			a, b := g.score(m, p)
			v := a + P.ChangeWeight*b
			if m == 4 {
				v += P.Metre4
			}
			if v > best {
				best, metre, phase = v, m, p
			}
		}
	}
	return metre, phase
}
