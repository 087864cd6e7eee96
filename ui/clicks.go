package ui

import (
	"math"
	"sort"
	"sync/atomic"

	"stillbeat/board"
)

// clickRate is the sample rate of the click of a film without a song; a sound
// device's is a multiple.
const clickRate = 22050

// clickLength is how long a click is heard, in seconds.
const clickLength = 0.03

// loudness is a level in dB that can be set while it is heard.
type loudness struct{ db atomic.Int32 }

// Set sets the level, in dB.
func (l *loudness) Set(db int) { l.db.Store(int32(db)) }

// factor is what samples are multiplied by.
func (l *loudness) factor() float32 { return float32(math.Pow(10, float64(l.db.Load())/20)) }

// clicker mixes a short decaying tone into a sound on each beat, higher and
// louder on those that start a bar.
type clicker struct {
	rate      int // samples per second
	beat, bar []float32
	level     *loudness
}

func newClicker(rate int, level *loudness) clicker {
	return clicker{rate, tone(rate, 1200, 0.35), tone(rate, 1800, 0.6), level}
}

func tone(rate int, pitch, level float64) []float32 {
	out := make([]float32, int(clickLength*float64(rate)))
	for i := range out {
		t := float64(i) / float64(rate)
		out[i] = float32(level * math.Exp(-t*120) * math.Sin(2*math.Pi*pitch*t))
	}
	return out
}

// place returns the sample at t seconds.
func (c *clicker) place(t float64) int { return int(math.Round(t * float64(c.rate))) }

// mix adds the tones of the beats to dst, [channel][sample], whose first sample
// is the one at at.
func (c *clicker) mix(dst [][]float32, at int, beats []board.Beat) {
	if len(dst) == 0 {
		return
	}
	end, level := at+len(dst[0]), c.level.factor()
	first := sort.Search(len(beats), func(i int) bool { return c.place(beats[i].Time)+len(c.bar) > at })
	for i := first; i < len(beats) && c.place(beats[i].Time) < end; i++ {
		tone := c.beat
		if beats[i].Bar {
			tone = c.bar
		}
		start := c.place(beats[i].Time)
		for k := max(at, start); k < min(end, start+len(tone)); k++ {
			for _, ch := range dst {
				ch[k-at] += level * tone[k-start]
			}
		}
	}
}

// clicked is a sound with a click on each beat, mixed in as it is read.
type clicked struct {
	board.Sound
	clicker
	beats []board.Beat
}

func newClicked(under board.Sound, beats []board.Beat, level *loudness) *clicked {
	return &clicked{under, newClicker(under.Rate(), level), beats}
}

func (c *clicked) Read(dst [][]float32, at int) {
	c.Sound.Read(dst, at)
	c.mix(dst, at, c.beats)
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
