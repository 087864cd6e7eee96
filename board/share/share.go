// Package share makes of a film what is handed to others: a film (MP4, GIF),
// its pictures (PNG) and its sound (WAV). It draws every frame through
// board/picture, so that a share shows what the window shows.
//
// Each export is a call of its own that changes nothing but the file it
// writes, which is whole or not there; they may follow each other or run at
// once.
package share

import (
	"errors"
	"fmt"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/mp4"
)

// Errors of films that cannot be shared.
var (
	ErrEmpty   = errors.New("the film has no panels to show")
	ErrNoSong  = errors.New("the film's song is not loaded")
	ErrNoBeats = errors.New("the film has no beats to click on")
	ErrNoSound = errors.New("the film has no sound")
)

// Options sets an export. The zero value is ready to use: the whole film with
// its song, as it is.
type Options struct {
	From, To board.Frame // the frames from From up to, not with, To; a To of 0 is the end of the film

	// Width and Height are in pixels; one that is 0 follows from the film's
	// shape. With both set a film of another shape has bars beside it. With
	// none the film is as large as fits into 1280x720, upright films into
	// 720x1280, GIFs into 640x640. See SizeOf.
	Width, Height int

	Quality mp4.Quality // of an MP4
	Under   int64       // bytes an MP4 may have, whose quality is as high as that allows; 0: as Quality says

	Silent bool // leave the song out
	Click  bool // mix a click on each beat into the sound
	Burn   Burn // what stands over the pictures

	Progress func(done float64) // told the part done, 0..1; may be nil
}

// Heights are the usual heights of a 16:9 frame, for menus.
var Heights = []int{480, 720, 1080, 1440, 2160}

// SizeOf returns the pixels of a film of a shape, without bars: so high, and no
// wider than 16:9 of that height, so that a wide film is less high. Both are
// even.
func SizeOf(a board.Aspect, height int) (w, h int) {
	height += height % 2
	return a.Inside((height*8+8)/9*2, height)
}

// gifSide is the longer side of a GIF where no size is asked for.
const gifSide = 640

// size returns the pixels to write, where usual holds them if none are asked
// for.
func (o Options) size(a board.Aspect, usualW, usualH int) (w, h int) {
	switch {
	case o.Width > 0 && o.Height > 0:
		return o.Width, o.Height
	case o.Height > 0:
		return SizeOf(a, o.Height)
	case o.Width > 0:
		return a.Inside(o.Width, board.MaxAspect*o.Width+2)
	case a.Ratio() < 1:
		return a.Inside(usualH, usualW)
	}
	return a.Inside(usualW, usualH)
}

// span returns the frames to write of a film.
func (o Options) span(b board.Board) (board.Span, error) {
	if len(b.Panels) == 0 {
		return board.Span{}, ErrEmpty
	}
	all := b.Frames()
	s := board.Span{Start: o.From, End: o.To}
	if s.End == 0 {
		s.End = all
	}
	if s.Start < 0 || s.End > all || s.Len() == 0 {
		return board.Span{}, fmt.Errorf("there are no frames from %d up to %d: the film has %d", s.Start, s.End, all)
	}
	return s, nil
}

// sound returns what is heard of an export, nil for none.
func (o Options) sound(b board.Board, sound board.Sound, span board.Span) (*mp4.Sound, error) {
	var heard board.Sound
	if b.Song != nil && !o.Silent {
		if sound == nil {
			return nil, ErrNoSong
		}
		heard = b.Song.Shape(sound)
	}
	if o.Click {
		if b.Grid.Empty() {
			return nil, ErrNoBeats
		}
		heard = board.ClicksOn(heard, b.Grid.Beats)
	}
	if heard == nil {
		return nil, nil
	}
	return &mp4.Sound{Samples: heard, Start: b.SongOffset() - b.Rate.Seconds(span.Start)}, nil
}

// usualSize is size for all but GIFs.
func (o Options) usualSize(a board.Aspect) (w, h int) {
	return o.size(a, picture.Width, picture.Height)
}

// Left returns how long an export still takes of which a part is done, 0..1,
// after a time; false while that cannot be told.
func Left(done float64, after time.Duration) (time.Duration, bool) {
	if !(done >= 0.02 && done < 1) || after < time.Second {
		return 0, false
	}
	return time.Duration(float64(after) * (1 - done) / done), true
}
