package share

import (
	"context"
	"image"
	"image/png"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/gif"
	"stillbeat/board/share/guess"
	"stillbeat/board/share/mp4"
)

// EstimateGIF tells how large GIF will make the file, as Estimate does.
func EstimateGIF(ctx context.Context, b board.Board, pics *picture.Cache, opts Options) (guess.Size, error) {
	r, film, err := gifFilm(b, pics, opts)
	if err != nil {
		return guess.Size{}, err
	}
	return gif.Estimate(ctx, film, func(n int64) bool {
		at := r.span.Start + board.Frame(n)
		return r.shown.Shot(at) == r.shown.Shot(at-1)
	})
}

// EstimatePanels tells how large the files of Panels are together.
func EstimatePanels(ctx context.Context, b board.Board, pics *picture.Cache, opts Options) (guess.Size, error) {
	f, err := panelFiles(b, pics, opts)
	if err != nil {
		return guess.Size{}, err
	}
	return guess.Sum(ctx, f.count, func(k int) (int64, error) {
		_, img, err := f.draw(k)
		if err != nil {
			return 0, err
		}
		return pngSize(img)
	})
}

// EstimateFrames tells how large the files of Frames are together.
func EstimateFrames(ctx context.Context, b board.Board, pics *picture.Cache, opts Options) (guess.Size, error) {
	span, err := opts.span(b)
	if err != nil {
		return guess.Size{}, err
	}
	w, h := opts.usualSize(b.Aspect)
	r := newReel(b, pics, span, w, h, opts)
	return guess.Sum(ctx, int(span.Len()), func(k int) (int64, error) {
		img, err := r.frame(span.Start + board.Frame(k))
		if err != nil {
			return 0, err
		}
		return pngSize(img)
	})
}

func pngSize(img *image.RGBA) (int64, error) {
	var n counter
	err := pngCoder.Encode(&n, img)
	return int64(n), err
}

// pngCoder codes all pictures: there may be thousands.
var pngCoder = png.Encoder{CompressionLevel: png.BestSpeed}

// counter counts what is written.
type counter int64

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}

// SizeOfWAV returns how large WAV will make the file. The song need not be
// loaded: without it the rate is taken to be 44.1 kHz, and the size may be off
// by a tenth.
func SizeOfWAV(b board.Board, sound board.Sound, opts Options) (guess.Size, error) {
	within := int64(0)
	if b.Song != nil && sound == nil && !opts.Silent {
		sound, within = board.Silence{}, 1
	}
	pcm, err := wavSound(b, sound, opts)
	if err != nil {
		return guess.Size{}, err
	}
	bytes := wavHead + pcm.Len*wavFrame
	return guess.Size{Bytes: bytes, Within: within * bytes / 10}, nil
}

// wavSound returns the samples of a WAV file.
func wavSound(b board.Board, sound board.Sound, opts Options) (*mp4.PCM, error) {
	span, err := opts.span(b)
	if err != nil {
		return nil, err
	}
	heard, err := opts.sound(b, sound, span)
	if err == nil && heard == nil {
		err = ErrNoSound
	}
	if err != nil {
		return nil, err
	}
	return mp4.NewPCM(mp4.Film{Num: b.Rate.Num, Den: b.Rate.Den, Frames: int64(span.Len()), Sound: heard})
}
