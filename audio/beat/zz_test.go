package beat

import (
	"context"
	"fmt"
	"math"
	"testing"

	"stillbeat/audio/onset"
)

func TestZZ(t *testing.T) {
	show := func(name string, x []float32) {
		env, _ := onset.Measure(context.Background(), x, testRate, nil)
		f := newFeatures(env)
		tg := newTempogram(f)
		beats, _ := decode(context.Background(), newEvidence(f), tg)
		beats = audible(env, beats)
		s := measure(f, env.Colour, beats)
		fmt.Print(name, " ", len(beats))
		for m := 3; m <= 6; m++ {
			fmt.Printf("  m%d", m)
			for p := range m {
				fmt.Printf(" %.4f", barScore(s, m, p))
			}
		}
		fmt.Println()
		for i, b := range s {
			if i < 12 {
				fmt.Printf(" %.2f", b.change)
			}
		}
		fmt.Println()
	}
	for _, bpm := range []float64{92.6, 113, 128, 155} {
		b := newBand(20)
		for _, c := range grid(0.5, 20, at(bpm)) {
			b.click(c)
		}
		show(fmt.Sprint(bpm), b.x)
	}
	b := newBand(30)
	rock(b, grid(0.3, 30, func(i int) float64 { return 60 / math.Min(130, 100+0.6*float64(i)) }), 0)
	show("rise", b.x)
	b = newBand(30)
	rock(b, grid(0.3, 30, at(113)), 0)
	show("rock", b.x)
}

func TestYY(t *testing.T) {
	PrintF = true
	for _, sec := range []float64{10, 20, 60} {
		for _, bpm := range []float64{80, 92.6, 113, 120, 128, 155} {
			b := newBand(sec)
			for _, c := range grid(0.5, sec, at(bpm)) {
				b.click(c)
			}
			Analyse(context.Background(), b.x, testRate, Options{})
		}
		b := newBand(sec)
		for _, c := range grid(0.5, sec, at(110)) {
			b.snare(c)
		}
		Analyse(context.Background(), b.x, testRate, Options{})
		rock(b, grid(0.5, sec, at(110)), 0)
		Analyse(context.Background(), b.x, testRate, Options{})
		fmt.Println()
	}
}
