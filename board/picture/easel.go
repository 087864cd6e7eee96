package picture

import (
	"fmt"
	"image"
	"image/color"

	"stillbeat/board"
)

// Parts are what a panel's picture is made of beside its sketch, for those who
// draw on it. All are of one size; a part that is not there is nil.
type Parts struct {
	Ground  color.RGBA  // under everything but the paper of a sketch
	Photo   *image.RGBA // clear where it does not reach
	Letters *image.RGBA // the lettering alone
}

// Apart returns the parts of panel i before the camera frames any of it, in w x
// h pixels of the film's shape. It takes as long as the photograph takes to be
// drawn.
func (f *Film) Apart(i, w, h int) (Parts, error) {
	if i < 0 || i >= len(f.board.Panels) {
		return Parts{}, ErrOutside
	}
	v := f.Whole(i).up
	p := Parts{Ground: Blank}
	eye := lensOf(v.framing, w, h)
	if v.picture != "" {
		p.Ground, p.Photo = Surround, image.NewRGBA(image.Rect(0, 0, w, h))
		if v.sketch == "" {
			v.sketch = sketchToBe
		}
		if err := f.pics.drawPhoto(p.Photo, v, eye); err != nil {
			return Parts{}, fmt.Errorf("panel %s: %w", f.board.Number(i), err)
		}
	}
	if letters := v.lettering(); len(letters) > 0 {
		p.Letters = image.NewRGBA(image.Rect(0, 0, w, h))
		for _, l := range letters {
			paintLetter(p.Letters, l, f.board.Aspect, eye)
		}
	}
	return p, nil
}

// sketchToBe has the photograph kept at its size, as it is under a sketch.
const sketchToBe = "to be"

// PaintStrokes draws strokes on an image of the whole frame, from the first to
// the last; those that erase make it clear. It returns the pixels that may have
// changed.
func PaintStrokes(dst *image.RGBA, strokes []board.Stroke) image.Rectangle {
	return paintStrokes(dst, nil, strokes, lensOf(board.Framing{}, dst.Rect.Dx(), dst.Rect.Dy()))
}
