package beat

import (
	"math"

	"stillbeat/audio/onset"
	"stillbeat/audio/onset/fft"
)

const (
	tgWindow = 8 * onset.FrameRate // frames whose repetition is measured
	tgHop    = onset.FrameRate
	tgFFT    = 2048
	tgBeats  = 4 // multiples of the beat that should repeat
)

// tempogram holds, for each second, how well the sound repeats after each
// beat interval and its multiples: [second][interval - shortest].
type tempogram [][]float64

func newTempogram(f *features) tempogram {
	n := len(f.rows[0])
	tr := fft.New(tgFFT)
	buf, bins := make([]float32, tgFFT), make([]complex64, tgFFT/2+1)
	var tg tempogram
	acf := make([]float64, tgBeats*longest+tgBeats+1)
	for c := 0; c < n; c += tgHop {
		clear(acf)
		lo, hi := max(0, c-int(P.TGW*onset.FrameRate/2)), min(n, c+int(P.TGW*onset.FrameRate/2))
		for _, row := range f.rows[:colour] {
			mean := float32(0)
			for _, v := range row[lo:hi] {
				mean += v
			}
			mean /= float32(hi - lo)
			clear(buf)
			for i, v := range row[lo:hi] {
				buf[i] = v - mean
			}
			tr.Transform(bins, buf)
			for k, z := range bins {
				p := real(z)*real(z) + imag(z)*imag(z)
				buf[k] = p
				if k > 0 && k < tgFFT/2 {
					buf[tgFFT-k] = p
				}
			}
			tr.Transform(bins, buf)
			scale := 1 / (float64(real(bins[0])) + 1e-6) / float64(colour)
			for l := range acf {
				acf[l] += float64(real(bins[l])) * scale
			}
		}
		score := make([]float64, intervals)
		for i := range score {
			for k := 1; k <= tgBeats; k++ {
				best := math.Inf(-1)
				at := k * (shortest + i)
				for l := at - k/2; l <= at+k/2; l++ {
					best = math.Max(best, acf[l])
				}
				score[i] += best / tgBeats
			}
		}
		tg = append(tg, score)
	}
	return tg
}
