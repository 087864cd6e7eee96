// Package page writes a film as one web page to be looked at and noted on: the
// pictures, the sound, the words and the notes are inside, nothing is fetched,
// and what is noted there is saved to a file that board/review reads.
//
// The page's own files are in the folder web; each says what it does.
package page

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share"
	"stillbeat/board/share/mp4"
)

// Bounds of a page. Browsers hold all of it in memory.
const (
	MaxPictures = 3000
	MaxBytes    = 150 << 20 // pictures and sound, before they are made text
	MaxHeight   = 2160
)

// Options sets a page. The zero value is ready to use.
type Options struct {
	Silent   bool               // leave the song out
	Height   int                // of the pictures in pixels; 0: 540
	Quality  int                // of JPEG, 1 to 100; 0: 80
	Caution  string             // shown before the film is, such as that it flashes
	Name     string             // files of notes are called after it; "": after the title
	Progress func(done float64) // told the part done, 0..1; may be nil
}

func (o Options) check() error {
	if o.Height < 0 || o.Height > MaxHeight || o.Quality < 0 || o.Quality > 100 {
		return fmt.Errorf("pictures %d pixels high with the quality %d: the most are %d and 100", o.Height, o.Quality, MaxHeight)
	}
	return nil
}

// Made tells what a page came to hold.
type Made struct {
	Pictures      int
	Width, Height int   // of the pictures
	PictureBytes  int64 // of JPEG
	SoundBytes    int64 // of AAC; 0: it is silent
	Bytes         int64 // of the page
}

// Write writes the page of b to w. It returns share.ErrEmpty for a film without
// panels, share.ErrNoSong if sound is missing, and an error if the page would
// pass a bound; what is written by then is no page.
func Write(ctx context.Context, w io.Writer, b board.Board, pics *picture.Cache, sound board.Sound, opts Options) (Made, error) {
	if len(b.Panels) == 0 {
		return Made{}, share.ErrEmpty
	}
	if err := opts.check(); err != nil {
		return Made{}, err
	}
	p, err := newPictures(pics, b, opts)
	if err != nil {
		return Made{}, err
	}
	made := Made{Pictures: len(p.shots), Width: p.width, Height: p.height}
	var heard []byte
	if b.Song != nil && !opts.Silent {
		if heard, err = coded(ctx, b, sound); err != nil {
			return made, err
		}
		made.SoundBytes = int64(len(heard))
	}
	out := &counter{w: bufio.NewWriterSize(w, 1<<16)}
	doc := writer{out: out}
	doc.head(b.Title)
	doc.data(newDocument(b, p, len(heard) > 0, opts))
	bytes, err := p.each(ctx, made.SoundBytes, opts.Progress, doc.picture)
	if err != nil {
		return made, err
	}
	made.PictureBytes = bytes
	doc.sound(heard)
	doc.tail()
	if doc.err == nil {
		doc.err = out.w.Flush()
	}
	made.Bytes = out.n
	return made, doc.err
}

// coded returns the film's sound as AAC.
func coded(ctx context.Context, b board.Board, sound board.Sound) ([]byte, error) {
	if sound == nil {
		return nil, share.ErrNoSong
	}
	if soundBytes(b) > MaxBytes {
		return nil, errTooLarge
	}
	return mp4.WriteSound(ctx, mp4.Film{Num: b.Rate.Num, Den: b.Rate.Den, Frames: int64(b.Frames()),
		Sound: &mp4.Sound{Samples: b.Song.Shape(sound), Start: b.SongOffset()}})
}

var errTooLarge = errors.New("the page would hold more than 150 MB of pictures and sound: lower pictures take less, and a long film goes better as .mp4")

// counter counts what passes through to w.
type counter struct {
	w *bufio.Writer
	n int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n += int64(n)
	return n, err
}
