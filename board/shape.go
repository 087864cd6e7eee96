package board

// Shape returns the song's samples, [channel][sample] at rate per second, as
// they are heard: trimmed, faded and with its gain. The samples given are not
// changed; where there is nothing to do they are returned themselves.
func (s Song) Shape(samples [][]float32, rate int) [][]float32 {
	if s.TrimIn == 0 && s.TrimOut == 0 && s.FadeIn == 0 && s.FadeOut == 0 && s.Gain == 0 {
		return samples
	}
	out := make([][]float32, len(samples))
	for c, ch := range samples {
		out[c] = make([]float32, len(ch))
		for i, v := range ch {
			out[c][i] = v * float32(s.Level(float64(i)/float64(rate)))
		}
	}
	return out
}
