package demo

import (
	"fmt"
	"strings"

	"stillbeat/assets/internal/synth"
)

// band plays the score into the mix and remembers the sounds it has made.
type band struct {
	mix  *synth.Mixer
	made map[string][]float32
}

// play lays an instrument's note on a beat. Notes of one name are made once.
func (b *band) play(beat float64, name string, key int, make func(int) []float32, p synth.Place) {
	id := fmt.Sprint(name, key)
	sound, ok := b.made[id]
	if !ok {
		sound = make(key)
		b.made[id] = sound
	}
	b.mix.Add(beatTime(beat), sound, p)
}

// notes reads a line of the score and says at which beat it ends. The lines
// are part of the program, so a mistake in one is a mistake in the program.
func notes(line string, first float64) (out []synth.Note, end float64) {
	out, end, err := synth.Read(line, first)
	if err != nil {
		panic(err)
	}
	return out, end
}

// keys reads the names of a chord.
func keys(names string) []int {
	var out []int
	for _, name := range strings.Fields(names) {
		key, err := synth.Key(name)
		if err != nil {
			panic(err)
		}
		out = append(out, key)
	}
	return out
}

func (b *band) playMelody() {
	tune, _ := notes(melody, 0)
	for _, n := range tune {
		gain := 0.66
		if n.Beat == float64(int(n.Beat)) {
			gain = 0.8
		}
		b.play(n.Beat, "mallet", n.Key, synth.Mallet, synth.Place{Gain: gain, Pan: 0.12, Room: 0.25})
	}
	over, _ := notes(flightLine, 40)
	for _, n := range over {
		b.play(n.Beat, "bell", n.Key+12, synth.Bell, synth.Place{Gain: 0.2, Pan: -0.6 + (n.Beat-40)*0.18, Room: 0.4})
	}
	round, _ := notes(stirLine, 56)
	for _, n := range round {
		b.play(n.Beat, "bell", n.Key, synth.Bell, synth.Place{Gain: 0.07, Pan: 0.45, Room: 0.5})
	}
}

// playHarmony gives the bass the first beat of each half bar and the strings
// the second.
func (b *band) playHarmony() {
	for i, c := range harmony {
		if c == none {
			continue
		}
		beat := float64(2 * i)
		b.play(beat, "bass", keys(c.bass)[0]+12, synth.Bass, synth.Place{Gain: 0.62, Room: 0.08})
		for k, key := range keys(c.strings) {
			pan := -0.35 + 0.1*float64(k)
			b.play(beat+1, "pluck", key, synth.Pluck, synth.Place{Gain: 0.85, Pan: pan, Room: 0.3})
			b.play(beat+1.5, "pluck", key, synth.Pluck, synth.Place{Gain: 0.35, Pan: pan, Room: 0.3})
		}
	}
}

// playPercussion keeps time wherever there is harmony.
func (b *band) playPercussion() {
	for i, c := range harmony {
		if c == none {
			continue
		}
		beat := float64(2 * i)
		soft := 1.0
		if beat >= 64 {
			soft = 0.6
		}
		first, block := 0.4*soft, 79
		if i%2 == 0 {
			first, block = 0.6*soft, 74
		}
		b.play(beat, "drum", 43, synth.Drum, synth.Place{Gain: first, Room: 0.1})
		for k := range 2 {
			b.play(beat+float64(k), "wood", block+5*k, synth.Wood, synth.Place{Gain: 0.26 * soft, Pan: 0.3, Room: 0.2})
			for half := range 2 {
				at := beat + float64(k) + 0.5*float64(half)
				b.play(at, "shaker", 0, func(int) []float32 { return synth.Shaker() }, synth.Place{Gain: soft * (0.2 - 0.08*float64(half)), Pan: -0.4, Room: 0.1})
			}
		}
		b.play(beat+1, "brush", 0, func(int) []float32 { return synth.Brush() }, synth.Place{Gain: 0.42 * soft, Pan: -0.15, Room: 0.2})
	}
}

// playStory adds what the objects do.
func (b *band) playStory() {
	at := func(beat float64, sound []float32, gain, pan float64) {
		b.mix.Add(beatTime(beat), sound, synth.Place{Gain: gain, Pan: pan, Room: 0.3})
	}
	for hop := range 4 {
		at(20+float64(hop), synth.Wood(84+2*hop), 0.4, -0.5+0.2*float64(hop))
	}
	at(28, synth.Drum(50), 0.6, -0.4)
	at(30, synth.Bell(96), 0.15, -0.2)
	at(32, synth.Wood(88), 0.4, -0.5)
	at(38, synth.Thud(), 1, 0)
	at(38, synth.Bell(91), 0.25, -0.3)
	at(39.5, synth.Whirr(1.4), 0.5, -0.2)
	at(46, synth.Bell(96), 0.55, 0.5)
	at(46, synth.Wood(91), 0.5, 0.5)
	at(52, synth.Creak(0.55), 0.5, 0.5)
	at(54, synth.Plop(), 1.1, 0.3)
}

// playEnding rolls the last chord from the bottom up and leaves it ringing.
func (b *band) playEnding() {
	const last = beatCount - BeatsPerBar
	b.play(last, "bass", keys("f2")[0], synth.Bass, synth.Place{Gain: 0.8, Room: 0.2})
	b.play(last, "drum", 43, synth.Drum, synth.Place{Gain: 0.4, Room: 0.2})
	for i, key := range keys("f3 c4 f4 a4 c5 f5 g5 c6") {
		p := synth.Place{Gain: 0.32, Pan: -0.4 + 0.1*float64(i), Room: 0.5}
		b.play(last+0.04*float64(i), "mallet", key, synth.Mallet, p)
		p.Gain = 0.22
		b.play(last+0.04*float64(i), "bell", key, synth.Bell, p)
	}
	b.play(last+2, "bell", 89, synth.Bell, synth.Place{Gain: 0.2, Pan: 0.3, Room: 0.6})
}
