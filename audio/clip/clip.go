// Package clip holds decoded sound, and says how it goes from the readers to
// whoever wants it: a reader feeds a Sink. It is the floor of the audio
// packages.
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

// Clip is decoded sound as plain samples: a Sink for short sounds. See Packed
// for songs.
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

// Begin empties the clip.
func (c *Clip) Begin(info Info) error {
	*c = Clip{Rate: info.Rate, Samples: make([][]float32, info.Channels), Title: info.Title}
	return nil
}

// Add appends samples.
func (c *Clip) Add(block [][]float32) error {
	for ch := range c.Samples {
		c.Samples[ch] = append(c.Samples[ch], block[ch]...)
	}
	return nil
}

// End does nothing: the clip is complete.
func (c *Clip) End() error { return nil }
