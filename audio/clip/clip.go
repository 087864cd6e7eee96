// Package clip holds decoded sound. It is the floor of the audio packages:
// every reader returns a *Clip, everything else reads one.
package clip

import "errors"

// MaxSeconds is the longest sound a reader accepts: three hours. A film made
// frame by frame is minutes long; anything longer is a mistake or an attack.
const MaxSeconds = 3 * 60 * 60

// Errors a reader wraps, so that callers can tell the causes apart.
var (
	ErrFormat  = errors.New("not a sound this program reads")
	ErrDamaged = errors.New("the sound is damaged")
	ErrTooLong = errors.New("the sound is longer than three hours")
)

// Clip is decoded sound.
type Clip struct {
	Rate    int         // samples per second and channel, Hz
	Samples [][]float32 // [channel][sample], nominally -1..1; all channels have one length
	Title   string      // title from the file's tags, "" if none
}

// Len returns the number of samples in each channel.
func (c *Clip) Len() int {
	if c == nil || len(c.Samples) == 0 {
		return 0
	}
	return len(c.Samples[0])
}

// Channels returns the number of channels.
func (c *Clip) Channels() int { return len(c.Samples) }

// Seconds returns the length in seconds, 0 for a clip without a rate.
func (c *Clip) Seconds() float64 {
	if c == nil || c.Rate <= 0 {
		return 0
	}
	return float64(c.Len()) / float64(c.Rate)
}

// Mono returns the mean of the channels, one value per sample. With one
// channel it is that channel itself, not a copy.
func (c *Clip) Mono() []float32 {
	if len(c.Samples) == 1 {
		return c.Samples[0]
	}
	out := make([]float32, c.Len())
	gain := 1 / float32(max(1, len(c.Samples)))
	for _, ch := range c.Samples {
		for i, v := range ch {
			out[i] += v * gain
		}
	}
	return out
}
