package ui

import (
	"math"
	"sort"

	"stillbeat/board"
)

// clickRate is the sample rate of the click of a film without a song; a sound
// device's is a multiple.
const clickRate = 22050

// clickLength is how long a click is heard, in seconds.
const clickLength = 0.03

// clicked is a sound with a short decaying tone on each beat, higher and louder
// on those that start a bar. The tones are mixed in as it is read.
type clicked struct {
	board.Sound
	beats     []board.Beat
	beat, bar []float32 // the tones
}

func newClicked(under board.Sound, beats []board.Beat) *clicked {
	rate := under.Rate()
	return &clicked{under, beats, tone(rate, 1200, 0.35), tone(rate, 1800, 0.6)}
}

func tone(rate int, pitch, level float64) []float32 {
	out := make([]float32, int(clickLength*float64(rate)))
	for i := range out {
		t := float64(i) / float64(rate)
		out[i] = float32(level * math.Exp(-t*120) * math.Sin(2*math.Pi*pitch*t))
	}
	return out
}

func (c *clicked) Read(dst [][]float32, at int) {
	c.Sound.Read(dst, at)
	if len(dst) == 0 {
		return
	}
	end := at + len(dst[0])
	place := func(i int) int { return int(math.Round(c.beats[i].Time * float64(c.Rate()))) }
	first := sort.Search(len(c.beats), func(i int) bool { return place(i)+len(c.bar) > at })
	for i := first; i < len(c.beats) && place(i) < end; i++ {
		tone := c.beat
		if c.beats[i].Bar {
			tone = c.bar
		}
		start := place(i)
		for k := max(at, start); k < min(end, start+len(tone)); k++ {
			for _, ch := range dst {
				ch[k-at] += tone[k-start]
			}
		}
	}
}

// quietness is silence of one channel, under the click of a film without a
// song.
type quietness struct{}

func (quietness) Rate() int     { return clickRate }
func (quietness) Channels() int { return 1 }
func (quietness) Len() int      { return 0 }
func (quietness) Read(dst [][]float32, _ int) {
	for _, ch := range dst {
		clear(ch)
	}
}
