// Package desk is the open film without a screen: the board with its history,
// the file it lives in, and the long jobs that bring things in. Window and
// commands work through it.
//
// Slow work is done by the Read functions, which touch no open film and may
// run on any goroutine; their results are laid on the film by methods of Desk,
// which are quick and belong to one goroutine (the window's).
package desk

import (
	"context"

	"stillbeat/board"
)

// Progress is told how far a job is, 0 to 1. It may be nil.
type Progress func(done float64)

// part returns a Progress that covers from..to of p.
func (p Progress) part(from, to float64) Progress {
	if p == nil {
		return nil
	}
	return func(done float64) { p(from + (to-from)*done) }
}

func (p Progress) report(done float64) {
	if p != nil {
		p(done)
	}
}

// Sound is a decoded song.
type Sound struct {
	Rate    int         // samples per second and channel, Hz
	Samples [][]float32 // [channel][sample], -1..1
	Title   string      // from the file's tags, "" if none
}

// Seconds returns the length of the sound.
func (s *Sound) Seconds() float64 {
	if s == nil || s.Rate <= 0 || len(s.Samples) == 0 {
		return 0
	}
	return float64(len(s.Samples[0])) / float64(s.Rate)
}

// Ear is what a desk needs of the sound side: the boards know nothing of
// audio, so whoever starts the program hands one in.
type Ear interface {
	// Decode reads a song by content; name is for its error sentences.
	Decode(ctx context.Context, name string, data []byte, p Progress) (*Sound, error)
	// Listen finds onsets, beats and bars; a song without a steady beat
	// gives a grid without beats and no error.
	Listen(ctx context.Context, s *Sound, p Progress) (board.Grid, error)
}
