package demo

import (
	"stillbeat/assets/internal/synth"
)

// The tune: 18 bars of four beats in F, 40 seconds, with a short silence
// before the first beat and room for the last chord to ring.
const (
	Tempo       = 108.0 // beats per minute
	BeatsPerBar = 4
	beatCount   = 72
	leadIn      = 0.35 // seconds before the first beat
	tuneSeconds = 42.0
	peakLevel   = 0.7079 // -3 dB below full scale
)

// melody is played on mallets. Each bar is a story beat; the hush of bar 13 is
// where the lump hangs on the lamp.
const melody = `
	c5:1 a4:.5 c5:.5 f5:1 e5:.5 d5:.5 | c5:1 bb4:.5 a4:.5 g4:1 -:.5 e5:.5
	| f5:1 d5:.5 f5:.5 a5:1 g5:.5 f5:.5 | d5:1 e5:.5 f5:.5 g5:1.5 e5:.5
	| f5:1 c5:1 a4:.5 bb4:.5 b4:.5 c5:.5 | bb4:.5 -:.5 d5:.5 -:.5 f5:.5 -:.5 a5:.5 -:.5
	| g5:.5 a5:.5 bb5:.5 c6:.5 d6:2 | c6:.5 bb5:.5 g5:.5 e5:.5 e5:.5 g5:.5 bb5:1
	| d5:1 a4:.5 d5:.5 f5:1 e5:.5 d5:.5 | c5:.5 e5:.5 g5:.5 bb5:.5 c6:2
	| -:4 | -:4 | -:4 | -:1 d5:.25 db5:.25 c5:.25 b4:.25 -:1 c5:.5 c5:.5
	| c5:1 a4:.5 c5:.5 f5:1 e5:.5 d5:.5 | c5:.5 bb4:.5 d5:.5 g5:.5 e5:1 c5:1
	| d5:1 c5:1 a4:1 g4:1 | f4:4`

// flightLine is played on bells while the lump is in the air (bars 11 and 12);
// its last note is the lump on the lamp.
const flightLine = `
	f4:.25 a4:.25 c5:.25 f5:.25 a4:.25 c5:.25 f5:.25 a5:.25
	c5:.25 f5:.25 a5:.25 c6:.25 f6:.25 c6:.25 a5:.25 f5:.25
	| f6:.5 db6:.5 bb5:.5 g5:.5 c6:2`

// stirLine runs round and round over the reprise, as the spoon does.
const stirLine = `
	f5:.25 a5:.25 c6:.25 a5:.25 f5:.25 a5:.25 c6:.25 a5:.25 f5:.25 a5:.25 d6:.25 a5:.25 f5:.25 a5:.25 d6:.25 a5:.25
	| g5:.25 bb5:.25 d6:.25 bb5:.25 g5:.25 bb5:.25 d6:.25 bb5:.25 g5:.25 bb5:.25 e6:.25 bb5:.25 g5:.25 bb5:.25 e6:.25 bb5:.25`

// chord is what bass and strings play for half a bar; "" is silence.
type chord struct {
	bass    string
	strings string
}

var (
	chF  = chord{"f2", "c4 f4 a4"}
	chFc = chord{"c2", "c4 f4 a4"}
	chC7 = chord{"c2", "bb3 e4 g4"}
	chCg = chord{"g2", "bb3 e4 g4"}
	chDm = chord{"d2", "a3 d4 f4"}
	chDa = chord{"a2", "a3 d4 f4"}
	chBb = chord{"bb1", "bb3 d4 f4"}
	chBf = chord{"f2", "bb3 d4 f4"}
	chGm = chord{"g2", "bb3 d4 g4"}
	chGd = chord{"d2", "bb3 d4 g4"}
	chBm = chord{"bb1", "bb3 db4 f4"}
	none = chord{}
)

// harmony has two chords to the bar.
var harmony = [2 * beatCount / BeatsPerBar]chord{
	chF, chFc, chC7, chCg, chDm, chDa, chBb, chC7,
	chF, chFc, chBb, chBf, chGm, chGd, chC7, chCg,
	chDm, chDa, chC7, chC7, chF, chFc, chBm, none,
	none, none, none, none, chF, chFc, chGm, chC7,
	chBb, chC7, none, none,
}

// Tune plays the film's tune: two channels of samples, -1..1, and the sample
// rate in Hz. It is the same every time.
func Tune() (samples [][]float32, rate int) {
	b := &band{mix: synth.NewMixer(tuneSeconds), made: map[string][]float32{}}
	b.playMelody()
	b.playHarmony()
	b.playPercussion()
	b.playStory()
	b.playEnding()
	return b.mix.Stereo(peakLevel, 0.6), synth.Rate
}

// Beats returns the times of the tune's beats in seconds, from the score: all
// of them, also those in the hush and under the last chord, where nothing is
// struck.
func Beats() []float64 {
	out := make([]float64, beatCount)
	for i := range out {
		out[i] = beatTime(float64(i))
	}
	return out
}

// Downbeats returns the times in seconds of the beats that start bars.
func Downbeats() []float64 {
	var out []float64
	for i := 0; i < beatCount; i += BeatsPerBar {
		out = append(out, beatTime(float64(i)))
	}
	return out
}

// beatTime is when a beat of the score falls, in seconds.
func beatTime(beat float64) float64 { return leadIn + beat*60/Tempo }
