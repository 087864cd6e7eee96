package main

import (
	"stillbeat/assets/demo"
	"stillbeat/assets/internal/synth"
)

// level is the highest peak of each sound: 3 dB below full scale.
const level = 0.7079

// steady returns beats from first on, at bpm, before the end, in seconds.
func steady(first, bpm, end float64) []float64 {
	var out []float64
	for i := 0; ; i++ {
		t := first + float64(i)*60/bpm
		if t >= end {
			return out
		}
		out = append(out, t)
	}
}

// mono returns the mix as one channel at the common level.
func mono(m *synth.Mixer) []float32 {
	stereo := m.Stereo(level, 0.1)
	out := make([]float32, len(stereo[0]))
	for i := range out {
		out[i] = (stereo[0][i] + stereo[1][i]) / 2
	}
	return out
}

// clicks is a bare click at 120 beats per minute, the first of each four higher.
func clicks() sound {
	const seconds = 12
	beats := steady(0.5, 120, seconds-0.1)
	m := synth.NewMixer(seconds)
	for i, t := range beats {
		hz := 1000.0
		if i%4 == 0 {
			hz = 1500
		}
		m.Add(t, synth.Click(hz), synth.Place{Gain: 1})
	}
	return sound{"clicks-120.mp3", mono(m), beats}
}

// tuneStart is the first sixteen seconds of the demonstration film's tune.
func tuneStart() sound {
	const seconds = 16
	stereo, rate := demo.Tune()
	out := make([]float32, seconds*rate)
	for i := range out {
		out[i] = (stereo[0][i] + stereo[1][i]) / 2
		if left := len(out) - i; left < rate/10 {
			out[i] *= float32(left) / float32(rate/10)
		}
	}
	var beats []float64
	for _, t := range demo.Beats() {
		if t < seconds-0.1 {
			beats = append(beats, t)
		}
	}
	return sound{"tune-108.ogg", out, beats}
}

// waltz is three beats to the bar at 138 beats per minute: bass, string, string.
func waltz() sound {
	const seconds = 12
	beats := steady(0.4, 138, seconds-0.3)
	m := synth.NewMixer(seconds)
	roots := []int{43, 48, 50, 43}
	tops := []int{67, 71, 74, 72, 76, 79, 74, 78, 81, 71, 74, 79}
	for i, t := range beats {
		bar := i / 3 % len(roots)
		if i%3 == 0 {
			m.Add(t, synth.Bass(roots[bar]), synth.Place{Gain: 0.9})
			m.Add(t, synth.Drum(43), synth.Place{Gain: 0.5})
		} else {
			m.Add(t, synth.Pluck(roots[bar]+12+4*(i%3)), synth.Place{Gain: 0.8, Room: 0.2})
			m.Add(t, synth.Brush(), synth.Place{Gain: 0.2})
		}
		m.Add(t, synth.Mallet(tops[3*bar+i%3]), synth.Place{Gain: 0.5, Room: 0.2})
	}
	return sound{"waltz-138.mp3", mono(m), beats}
}

// slowing starts at 110 beats per minute and each beat is a little longer than
// the last, down to 84.
func slowing() sound {
	const from, to, count = 110.0, 84.0, 19
	beats := make([]float64, count)
	t := 0.5
	for i := range beats {
		beats[i] = t
		t += 60 / (from + (to-from)*float64(i)/(count-2))
	}
	m := synth.NewMixer(beats[count-1] + 1)
	tune := []int{69, 72, 76, 72, 67, 71, 74, 71}
	for i, t := range beats {
		m.Add(t, synth.Wood(79), synth.Place{Gain: 0.5})
		m.Add(t, synth.Mallet(tune[i%len(tune)]), synth.Place{Gain: 0.8, Room: 0.2})
		if i%2 == 0 {
			m.Add(t, synth.Bass(tune[i%len(tune)]-24), synth.Place{Gain: 0.7})
			m.Add(t, synth.Drum(45), synth.Place{Gain: 0.5})
		} else {
			m.Add(t, synth.Brush(), synth.Place{Gain: 0.4})
		}
	}
	return sound{"slowing-110-84.ogg", mono(m), beats}
}
