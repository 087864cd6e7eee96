package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"stillbeat/board"
)

// Bench is where a panel is worked on: the place of the frame among the pixels
// of a picture, which may have room about it.
type Bench struct {
	X, Y float64 // the middle of the frame, in pixels
	High float64 // of the frame, in pixels
}

func (b Bench) lens() lens { return lens{b.High, b.X, b.Y} }

// maxStaged is how many pixels the level of a photograph has that it is worked
// on with.
const maxStaged = 8_000_000

// Stage draws panel i with its photograph placed otherwise, and what of it lies
// beside the frame, over dst. It is for work under the pointer: the photograph
// is laid quickly from what the cache has of it. Without that it draws nothing
// and returns false; Warm has it made.
func (f *Film) Stage(dst *image.RGBA, i int, placed board.Placement, at Bench) bool {
	v, c, eye := f.Whole(i).up, f.pics, at.lens()
	sketch, ok := &board.Sketch{}, true
	if v.sketch != "" {
		if sketch, ok = peek[*board.Sketch](c, sketchKey{v.sketch}); !ok {
			return false
		}
	}
	var size image.Point
	var level *image.RGBA
	if v.picture != "" {
		if size, ok = peek[image.Point](c, sizeKey{v.picture}); !ok {
			return false
		}
		if level = c.staged(v.picture, stageLevel(placed, size, eye, f.board.Aspect)); level == nil {
			return false
		}
	}
	wide := at.High * f.board.Aspect.Ratio()
	frame := image.Rect(int(math.Round(at.X-wide/2)), int(math.Round(at.Y-at.High/2)),
		int(math.Round(at.X+wide/2)), int(math.Round(at.Y+at.High/2)))
	draw.Draw(dst, frame, image.NewUniform(v.ground(sketch)), image.Point{}, draw.Src)
	paintLayer(dst, sketch, board.Below, eye)
	if level != nil {
		m := mapOf(placed, size, eye, f.board.Aspect.Ratio())
		lay(dst, dst.Rect, level, m.after(float64(level.Rect.Dx())/float64(size.X), float64(level.Rect.Dy())/float64(size.Y)))
	}
	paintLayer(dst, sketch, board.Middle, eye)
	paintLayer(dst, sketch, board.Above, eye)
	for _, l := range v.lettering() {
		paintLetter(dst, l, f.board.Aspect, eye)
	}
	return true
}

// Warm has the cache make what Stage needs. It may take as long as reading a
// photograph does, on any goroutine.
func (f *Film) Warm(i int, placed board.Placement, at Bench) error {
	v, c := f.Whole(i).up, f.pics
	if _, err := c.sketch(v.sketch); err != nil || v.picture == "" {
		return err
	}
	whole := func() (stored, error) { return c.decoded(v.picture) }
	size, err := kept(c, sizeKey{v.picture}, from(whole, stored.size))
	if err != nil {
		return err
	}
	k := stageLevel(placed, size, at.lens(), f.board.Aspect)
	_, err = kept(c, levelKey{v.picture, k}, from(whole, func(s stored) *image.RGBA { return s.level(k) }))
	return err
}

// stageLevel returns the level of a photograph to work with.
func stageLevel(placed board.Placement, size image.Point, eye lens, a board.Aspect) int {
	k := levelFor(mapOf(placed, size, eye, a.Ratio()))
	for levelSize(size, k).X*levelSize(size, k).Y > maxStaged {
		k++
	}
	return k
}

// staged returns a level of a photograph or what comes next to it, nil if there
// is none that would do.
func (c *Cache) staged(id board.MediaID, k int) *image.RGBA {
	for _, by := range []int{0, -1, 1, -2, 2, -3, 3} {
		if img, ok := peek[*image.RGBA](c, levelKey{id, k + by}); ok {
			return img
		}
	}
	return nil
}

// ground is what lies under everything in the frame.
func (v view) ground(s *board.Sketch) color.RGBA {
	switch {
	case v.picture != "":
		return Surround
	case s.Paper.A == 255:
		return color.RGBA(s.Paper)
	}
	return Blank
}

// PictureSize returns the size in pixels of panel i's photograph, upright, if
// the cache has read it: Warm does, and each drawing of it.
func (f *Film) PictureSize(i int) (image.Point, bool) {
	id := f.board.Panels[i].Picture
	if id == "" {
		return image.Point{}, false
	}
	return peek[image.Point](f.pics, sizeKey{id})
}

// SizeOf returns how wide and high a picture of so many pixels lies in a frame,
// in heights of the frame and before it is turned.
func SizeOf(p board.Placement, size image.Point, a board.Aspect) (wide, tall float64) {
	shape := float64(size.X) / float64(size.Y)
	tall = high(p, shape, a.Ratio())
	return tall * shape, tall
}

// AsByHand returns the placement by hand that looks the same.
func AsByHand(p board.Placement, size image.Point, a board.Aspect) board.Placement {
	_, tall := SizeOf(p, size, a)
	_, fit := SizeOf(board.Placement{}, size, a)
	p.Fit, p.Scale = board.ByHand, tall/fit
	return p
}

// peek returns what the cache has by a key, if it is made.
func peek[T any](c *Cache, key any) (made T, ok bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	el, found := c.items[key]
	if !found {
		return made, false
	}
	e := el.Value.(*cached)
	if !e.ready.Load() || e.err != nil {
		return made, false
	}
	c.order.MoveToFront(el)
	return e.made.(T), true
}
