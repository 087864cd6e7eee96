package share

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strconv"

	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/picture"
	"stillbeat/board/share/lists"
)

// Panels writes a PNG of each panel that is up in the frames asked for, as it
// is when its hold begins, into a new folder. The names are those that lists
// and timelines of the film give the panels' pictures: lists.PictureNames.
//
// The folder comes up whole or not at all. One that is there is replaced only
// if replace is set and it holds nothing but PNGs.
func Panels(ctx context.Context, folder string, b board.Board, pics *picture.Cache, opts Options, replace bool) error {
	span, err := opts.span(b)
	if err != nil {
		return err
	}
	w, h := opts.usualSize(b.Aspect)
	r := newReel(b, pics, span, w, h, opts)
	first, last := board.PanelAt(r.starts, span.Start), board.PanelAt(r.starts, span.End-1)
	names := lists.PictureNames(b)
	return r.folder(ctx, folder, replace, last-first+1, func(k int) (string, *image.RGBA, error) {
		i := first + k
		img, err := r.shown.Panel(i, 0, w, h)
		if err != nil {
			return "", nil, err
		}
		return names[i], r.under(img, r.over(r.starts[i])), nil
	})
}

// Frames writes a PNG of each frame into a new folder, as Panels does. Their
// names are the frames' numbers in the film, with zeros before them so that
// they keep their order.
func Frames(ctx context.Context, folder string, b board.Board, pics *picture.Cache, opts Options, replace bool) error {
	span, err := opts.span(b)
	if err != nil {
		return err
	}
	w, h := opts.usualSize(b.Aspect)
	r := newReel(b, pics, span, w, h, opts)
	width := max(5, len(strconv.Itoa(int(b.Frames()))))
	cuts := r.cuts()
	return r.folder(ctx, folder, replace, int(span.Len()), func(k int) (string, *image.RGBA, error) {
		name := fmt.Sprintf("%0*d.png", width, int(span.Start)+k)
		if len(cuts) == 0 || cuts[0] != int64(k) {
			return name, nil, nil // as the one before
		}
		cuts = cuts[1:]
		img, err := r.frame(span.Start + board.Frame(k))
		return name, img, err
	})
}

// folder writes count pictures into a folder. A nil picture is the one before
// once more.
func (r *reel) folder(ctx context.Context, folder string, replace bool, count int, draw func(k int) (string, *image.RGBA, error)) error {
	err := beside.Folder(folder, replace, ".png", func(dir string) error {
		var coded bytes.Buffer
		coder := png.Encoder{CompressionLevel: png.BestSpeed}
		for k := range count {
			if err := ctx.Err(); err != nil {
				return err
			}
			name, img, err := draw(k)
			if err != nil {
				return err
			}
			if img != nil {
				coded.Reset()
				if err := coder.Encode(&coded, img); err != nil {
					return err
				}
			}
			if err := os.WriteFile(filepath.Join(dir, name), coded.Bytes(), 0o666); err != nil {
				return err
			}
			if r.opts.Progress != nil {
				r.opts.Progress(float64(k+1) / float64(count))
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", folder, err)
	}
	return nil
}
