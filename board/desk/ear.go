// Package desk is the open film without a screen: the board with its history,
// the file it lives in, and the long jobs that bring things in. Window and
// commands work through it.
//
// Slow work is done by functions that touch no open film and may run on any
// goroutine; their results are laid on the film by methods of Desk, which are
// quick and belong to one goroutine (the window's).
package desk

import (
	"context"

	"stillbeat/board"
)

// Progress is told how far a job is, 0 to 1. It may be nil.
type Progress func(done float64)

// Part returns a Progress that covers from..to of p.
func (p Progress) Part(from, to float64) Progress {
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

// SongFile is a song as a file: its bytes if they are at hand, else the place
// to read them from.
type SongFile struct {
	Name string // for sentences
	Path string
	Data []byte // nil: read Path
}

// Wish says what is wanted of a song beside what is heard in any case.
type Wish struct {
	Beats   bool // its onsets, beats and bars
	Samples bool // to play it
}

// Heard is what an ear hears in a song.
type Heard struct {
	Rate     int // samples per second and channel, Hz
	Channels int
	Seconds  float64
	Title    string      // from the file's tags, "" if none
	Waveform []byte      // to be drawn by whoever knows how the ear writes it
	Grid     board.Grid  // if wished for; a song without a steady beat gives one without beats
	Sound    board.Sound // if wished for
}

// Ear is what a desk needs of the sound side: the boards know nothing of
// audio, so whoever starts the program hands one in.
type Ear interface {
	// Hear reads a song by content, in one go. Its errors name the song.
	Hear(ctx context.Context, song SongFile, wish Wish, p Progress) (*Heard, error)
}
