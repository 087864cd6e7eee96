package share

import (
	"bytes"
	"context"
	"fmt"
	"image"
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
	f, err := panelFiles(b, pics, opts)
	if err != nil {
		return err
	}
	return f.folder(ctx, folder, replace)
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
	f := files{opts, int(span.Len()), func(k int) (string, *image.RGBA, error) {
		name := fmt.Sprintf("%0*d.png", width, int(span.Start)+k)
		if len(cuts) == 0 || cuts[0] != int64(k) {
			return name, nil, nil // as the one before
		}
		cuts = cuts[1:]
		img, err := r.frame(span.Start + board.Frame(k))
		return name, img, err
	}}
	return f.folder(ctx, folder, replace)
}

// files are the pictures of a folder.
type files struct {
	opts  Options
	count int
	draw  func(k int) (name string, img *image.RGBA, err error) // asked in order; a nil picture is the one before once more
}

// panelFiles are the files of Panels, which may be drawn in any order.
func panelFiles(b board.Board, pics *picture.Cache, opts Options) (files, error) {
	span, err := opts.span(b)
	if err != nil {
		return files{}, err
	}
	w, h := opts.usualSize(b.Aspect)
	r := newReel(b, pics, span, w, h, opts)
	first, last := board.PanelAt(r.starts, span.Start), board.PanelAt(r.starts, span.End-1)
	names := lists.PictureNames(b)
	return files{opts, last - first + 1, func(k int) (string, *image.RGBA, error) {
		i := first + k
		img, err := r.shown.Panel(i, 0, w, h)
		if err != nil {
			return "", nil, err
		}
		return names[i], r.under(img, r.shown.PanelShot(i, 0), r.over(r.starts[i])), nil
	}}, nil
}

// folder writes the pictures into a folder.
func (f files) folder(ctx context.Context, folder string, replace bool) error {
	err := beside.Folder(folder, replace, ".png", func(dir string) error {
		var coded bytes.Buffer
		for k := range f.count {
			if err := ctx.Err(); err != nil {
				return err
			}
			name, img, err := f.draw(k)
			if err != nil {
				return err
			}
			if img != nil {
				coded.Reset()
				if err := pngCoder.Encode(&coded, img); err != nil {
					return err
				}
			}
			if err := os.WriteFile(filepath.Join(dir, name), coded.Bytes(), 0o666); err != nil {
				return err
			}
			if f.opts.Progress != nil {
				f.opts.Progress(float64(k+1) / float64(f.count))
			}
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", folder, err)
	}
	return nil
}
