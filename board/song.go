package board

import (
	"errors"
	"fmt"
)

// Song is the music a film is laid on, and what of it is heard. Trims and
// fades change the sound alone: beats stay at their times in the song, and so
// does what is anchored to them.
type Song struct {
	Name    string  `json:"name"`    // file name as it was brought in
	Media   MediaID `json:"media"`   // its bytes
	Seconds float64 `json:"seconds"` // length
	Offset  float64 `json:"offset"`  // seconds of film at which it begins

	TrimIn  float64 `json:"trim_in,omitempty"`  // seconds cut off its beginning
	TrimOut float64 `json:"trim_out,omitempty"` // seconds cut off its end
	FadeIn  float64 `json:"fade_in,omitempty"`  // seconds it takes to rise, from the trimmed beginning
	FadeOut float64 `json:"fade_out,omitempty"` // seconds it takes to fall, to the trimmed end
	Gain    float64 `json:"gain,omitempty"`     // decibels, 0 as recorded
}

// Least and greatest gain of a song, in decibels.
const (
	MinGain = -60
	MaxGain = 12
)

// Sounding returns the seconds of song between which it is heard.
func (s Song) Sounding() (from, to float64) { return s.TrimIn, s.Seconds - s.TrimOut }

// Level returns the factor by which samples at second t of the song are
// multiplied: 0 outside the trims, rising and falling in a straight line over
// the fades, times 10^(Gain/20).
func (s Song) Level(t float64) float64 { return s.gain() * s.open(t) }

// slack is what sums of typed seconds may miss by.
const slack = 1e-9

func (s Song) check() error {
	if !readable(s.Name) || !finite(s.Offset, MaxSeconds) || !finite(s.Seconds, 2*MaxSeconds) || s.Seconds < 0 {
		return fmt.Errorf("the song %.80q has an impossible name, length or place", s.Name)
	}
	for _, v := range []float64{s.TrimIn, s.TrimOut, s.FadeIn, s.FadeOut} {
		if !finite(v, 2*MaxSeconds) || v < 0 {
			return errors.New("a trim or fade of the song is not a length of time")
		}
	}
	from, to := s.Sounding()
	if s.TrimIn+s.TrimOut > 0 && to <= from {
		return fmt.Errorf("trims of %g and %g seconds leave nothing of a song of %.3f", s.TrimIn, s.TrimOut, s.Seconds)
	}
	if s.FadeIn+s.FadeOut > to-from+slack {
		return fmt.Errorf("fades of %g and %g seconds do not fit in the %.3f that are heard of the song", s.FadeIn, s.FadeOut, to-from)
	}
	if !(s.Gain >= MinGain && s.Gain <= MaxGain) {
		return fmt.Errorf("a gain of %g dB is outside %d to %d", s.Gain, MinGain, MaxGain)
	}
	return nil
}

// TrimSong cuts seconds off the beginning and the end of what is heard of the
// song, counted from its own ends. Fades that no longer fit become shorter,
// both in the same measure.
func TrimSong(in, out float64) Edit {
	return onSong("trim the song", func(s *Song) {
		s.TrimIn, s.TrimOut = in, out
		from, to := s.Sounding()
		if room, fades := to-from, s.FadeIn+s.FadeOut; room > 0 && fades > room {
			s.FadeIn, s.FadeOut = s.FadeIn*room/fades, s.FadeOut*room/fades
		}
	})
}

// FadeSong gives the song a rise and a fall of so many seconds.
func FadeSong(in, out float64) Edit {
	return onSong("fade the song", func(s *Song) { s.FadeIn, s.FadeOut = in, out })
}

// SetGain makes the song louder or softer by so many decibels.
func SetGain(db float64) Edit {
	return onSong("gain of the song", func(s *Song) { s.Gain = db })
}

// SetSongSound sets at once where the song begins in the film and what of it
// is heard: all in seconds, the gain in decibels.
func SetSongSound(offset, trimIn, trimOut, fadeIn, fadeOut, gain float64) Edit {
	e := onSong("place and sound of the song", func(s *Song) {
		s.Offset, s.TrimIn, s.TrimOut, s.FadeIn, s.FadeOut, s.Gain = offset, trimIn, trimOut, fadeIn, fadeOut, gain
	})
	e.Merge = ""
	return e
}

// SlideSong moves the song to begin at the given second of film. Anchored
// starts go with it.
func SlideSong(offset float64) Edit {
	return onSong("slide the song", func(s *Song) { s.Offset = offset })
}

func onSong(name string, change func(*Song)) Edit {
	return Edit{Name: name, Merge: name, Apply: func(b Board) (Board, error) {
		if b.Song == nil {
			return b, errors.New("there is no song in the film")
		}
		c := *b.Song
		change(&c)
		out := b
		out.Song = &c
		return out.checked(b)
	}}
}
