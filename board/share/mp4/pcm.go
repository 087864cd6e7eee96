package mp4

import "fmt"

// PCM is a film's sound as it is before it is coded: stereo, 16 bits, from the
// first frame to the end of the last.
type PCM struct {
	Rate int   // samples per second and channel
	Len  int64 // samples in each channel, the last of them still sounding when the film ends
	from *soundtrack
}

// NewPCM returns the sound of a film as Write codes it. The film needs no
// pictures for it.
func NewPCM(film Film) (*PCM, error) {
	num, den, err := film.clock()
	if err == nil {
		err = film.Sound.check()
	}
	if err != nil {
		return nil, fmt.Errorf("share sound: %w", err)
	}
	rate := film.Sound.codedRate()
	return &PCM{rate, samplesIn(film.Frames*den, num, rate), newSoundtrack(film.Sound, rate)}, nil
}

// Read fills dst with the left and right samples in turn from sample at on.
func (p *PCM) Read(dst []int16, at int64) { p.from.read(dst, at) }
