package board

import (
	"math"
	"sort"
)

// Clicks mixes a short decaying tone into a sound on each beat, higher and
// louder on those that start a bar. NewClicks makes it.
type Clicks struct {
	rate      int // samples per second
	beat, bar []float32
}

// clickLength is how long a click is heard, in seconds.
const clickLength = 0.03

// NewClicks returns the clicks for a sound of so many samples per second.
func NewClicks(rate int) Clicks {
	return Clicks{rate, clickTone(rate, 1200, 0.35), clickTone(rate, 1800, 0.6)}
}

func clickTone(rate int, pitch, level float64) []float32 {
	out := make([]float32, int(clickLength*float64(rate)))
	for i := range out {
		t := float64(i) / float64(rate)
		out[i] = float32(level * math.Exp(-t*120) * math.Sin(2*math.Pi*pitch*t))
	}
	return out
}

// Place returns the sample at t seconds.
func (c *Clicks) Place(t float64) int { return int(math.Round(t * float64(c.rate))) }

// Mix adds the tones of the beats, times level, to dst, [channel][sample],
// whose first sample is the one at at. It takes no memory.
func (c *Clicks) Mix(dst [][]float32, at int, beats []Beat, level float32) {
	if len(dst) == 0 {
		return
	}
	end := at + len(dst[0])
	first := sort.Search(len(beats), func(i int) bool { return c.Place(beats[i].Time)+len(c.bar) > at })
	for i := first; i < len(beats) && c.Place(beats[i].Time) < end; i++ {
		tone := c.beat
		if beats[i].Bar {
			tone = c.bar
		}
		start := c.Place(beats[i].Time)
		for k := max(at, start); k < min(end, start+len(tone)); k++ {
			for _, ch := range dst {
				ch[k-at] += level * tone[k-start]
			}
		}
	}
}

// ClicksOn returns a sound with a click on each beat, mixed in as it is read.
// Without a sound it is the clicks alone. The beats' times are seconds of the
// sound, ascending.
func ClicksOn(under Sound, beats []Beat) Sound {
	if under == nil {
		under = Silence{}
	}
	return clicking{under, NewClicks(under.Rate()), beats}
}

type clicking struct {
	Sound
	clicks Clicks
	beats  []Beat
}

func (c clicking) Read(dst [][]float32, at int) {
	c.Sound.Read(dst, at)
	c.clicks.Mix(dst, at, c.beats, 1)
}

// Silence is a sound of one channel without anything to hear, under the clicks
// of a film without a song.
type Silence struct{}

// SilenceRate is the sample rate of silence; a sound device's is a multiple.
const SilenceRate = 22050

// Rate returns SilenceRate.
func (Silence) Rate() int { return SilenceRate }

// Channels returns 1.
func (Silence) Channels() int { return 1 }

// Len returns 0: silence ends when what is heard over it does.
func (Silence) Len() int { return 0 }

// Read clears dst.
func (Silence) Read(dst [][]float32, _ int) {
	for _, ch := range dst {
		clear(ch)
	}
}
