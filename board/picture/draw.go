package picture

import (
	"encoding/binary"
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"

	"stillbeat/board"
)

// drawView draws the one panel of a shot in w x h pixels, from the bottom up: paper, strokes
// below, photograph, strokes on it and over it, lettering of the picture,
// lettering of the screen.
func (c *Cache) drawView(s Shot, w, h int) (*image.RGBA, error) {
	v := s.up
	if v.black {
		return filled(w, h, color.RGBA{A: 255}), nil
	}
	sketch, err := c.sketch(v.sketch)
	if err != nil {
		return nil, err
	}
	dst := filled(w, h, v.ground(sketch))
	if len(dst.Pix) == 0 {
		return dst, nil
	}
	eye := lensOf(v.framing, w, h)
	paintLayer(dst, sketch, board.Below, eye)
	if v.picture != "" {
		if err := c.drawPhoto(dst, v, eye); err != nil {
			return nil, err
		}
	}
	paintLayer(dst, sketch, board.Middle, eye)
	paintLayer(dst, sketch, board.Above, eye)
	letters := v.lettering()
	screen := lensOf(board.Framing{}, w, h)
	for _, onScreen := range []bool{false, true} {
		for _, l := range letters {
			switch {
			case l.Kind.OnScreen() != onScreen:
			case onScreen:
				paintLetter(dst, l, s.aspect, screen)
			default:
				paintLetter(dst, l, s.aspect, eye)
			}
		}
	}
	return dst, nil
}

// drawPhoto draws a panel's photograph. One that stands still and straight is
// scaled once for its place; one that moves or is turned is drawn from one of
// its levels.
func (c *Cache) drawPhoto(dst *image.RGBA, v view, eye lens) error {
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	whole := sync.OnceValues(func() (stored, error) { return c.decoded(v.picture) })
	size, err := kept(c, sizeKey{v.picture}, from(whole, stored.size))
	if err != nil {
		return err
	}
	if !v.travels && v.placed.Turn == 0 {
		part := cropOf(v.placed, size, eye, w, h)
		if part.at.Empty() {
			return nil
		}
		make := from(whole, func(s stored) scaled { return s.cut(part) })
		var img scaled
		if v.sketch == "" && v.words == "" {
			img, err = make() // with nothing on it, the frame is kept and this is not
		} else {
			img, err = kept(c, cropKey{v.picture, part}, make)
		}
		if err != nil {
			return err
		}
		op := draw.Over
		if img.opaque {
			op = draw.Src
		}
		draw.Draw(dst, part.at, img.RGBA, image.Point{}, op)
		return nil
	}
	m := mapOf(v.placed, size, eye, float64(w)/float64(h))
	k := levelFor(m)
	img, err := kept(c, levelKey{v.picture, k}, from(whole, func(s stored) *image.RGBA { return s.level(k) }))
	if err != nil {
		return err
	}
	lay(dst, dst.Rect, img, m.after(float64(img.Rect.Dx())/float64(size.X), float64(img.Rect.Dy())/float64(size.Y)))
	return nil
}

// from makes something of a picture, which is decoded if it has to be made.
func from[T any](whole func() (stored, error), make func(stored) T) func() (T, error) {
	return func() (T, error) {
		s, err := whole()
		if err != nil {
			var none T
			return none, err
		}
		return make(s), nil
	}
}

// mixed goes the part k from a to b, both opaque. Levels are mixed as they are,
// which is how mixers of video dissolve.
func mixed(a, b *image.RGBA, k float32) *image.RGBA {
	out := image.NewRGBA(a.Rect)
	part := uint64(math.Round(float64(k) * 256))
	inBands(a.Rect.Dy(), rowsAtOnce, func(from, to int) {
		one, two, all := a.Pix[from*a.Stride:to*a.Stride], b.Pix[from*b.Stride:to*b.Stride], out.Pix[from*out.Stride:to*out.Stride]
		for ; len(one) >= 8; one, two, all = one[8:], two[8:], all[8:] { // two pixels
			p, q := binary.LittleEndian.Uint64(one), binary.LittleEndian.Uint64(two)
			binary.LittleEndian.PutUint64(all, mix(p&lanes, q&lanes, part)|mix(p>>8&lanes, q>>8&lanes, part)<<8)
		}
		for i, v := range one { // and the last of an odd number
			all[i] = uint8((uint64(v)*(256-part) + uint64(two[i])*part + 128) >> 8)
		}
	})
	return out
}

// faded draws a view of which the part k has gone to black.
func faded(alone func(view) (*image.RGBA, error), v view, k float32) (*image.RGBA, error) {
	img, err := alone(v)
	if err != nil {
		return nil, err
	}
	return mixed(img, filled(img.Rect.Dx(), img.Rect.Dy(), color.RGBA{A: 255}), k), nil
}

// wiped shows b left of the edge and a right of it, the pixels on it mixed.
func wiped(a, b *image.RGBA, done float32) *image.RGBA {
	out := image.NewRGBA(a.Rect)
	draw.Draw(out, out.Rect, a, image.Point{}, draw.Src)
	edge := float64(done) * float64(a.Rect.Dx())
	whole := int(edge)
	draw.Draw(out, image.Rect(0, 0, whole, a.Rect.Dy()), b, image.Point{}, draw.Src)
	if whole < a.Rect.Dx() {
		part := uint64(math.Round((edge - float64(whole)) * 256))
		for y := range a.Rect.Dy() {
			o := y*out.Stride + 4*whole
			v := mix(spread(a.Pix[o:o+4]), spread(b.Pix[o:o+4]), part)
			out.Pix[o], out.Pix[o+1], out.Pix[o+2], out.Pix[o+3] = uint8(v), uint8(v>>16), uint8(v>>32), uint8(v>>48)
		}
	}
	return out
}
