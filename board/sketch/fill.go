package sketch

import (
	"errors"
	"image"

	"stillbeat/board"
)

// likeness is how far a channel of a pixel may be from that of the first and
// still belong to the region.
const likeness = 60

// ErrNoRegion is returned where there is nothing to fill.
var ErrNoRegion = errors.New("there is nothing to fill here")

// Fill returns the outline of the region of like pixels about a pixel of a
// picture of the whole frame, grown by a pixel so that it runs under the lines
// about it, as a patch of colour in the layer and ink of like. Parts that the
// region goes around are left out.
func Fill(img *image.RGBA, at image.Point, like board.Stroke) (board.Stroke, error) {
	if !at.In(img.Rect) {
		return board.Stroke{}, ErrNoRegion
	}
	region := grown(flood(img, at))
	loops := region.trace()
	high := img.Rect.Dy()
	dots := joined(loops, func(p image.Point) board.Dot {
		x, y := p.X, p.Y
		// What goes to the edge of the frame goes a little beyond.
		if x <= 0 {
			x = -high / 64
		} else if x >= img.Rect.Dx() {
			x = img.Rect.Dx() + high/64
		}
		if y <= 0 {
			y = -high / 64
		} else if y >= high {
			y = high + high/64
		}
		return dotAt(board.Point{
			X: (float64(x) - float64(img.Rect.Dx())/2) / float64(high),
			Y: (float64(y) - float64(high)/2) / float64(high),
		}, 1)
	}, float64(board.SketchUnit)/float64(high))
	if len(dots) < 3 {
		return board.Stroke{}, ErrNoRegion
	}
	like.Filled, like.Closed, like.Smooth, like.Width, like.Dots = true, true, false, 0, dots
	return like, nil
}

// mask is a region of pixels.
type mask struct {
	w, h int
	in   []bool
}

func (m *mask) at(x, y int) bool { return x >= 0 && y >= 0 && x < m.w && y < m.h && m.in[y*m.w+x] }

// flood finds the region, row by row.
func flood(img *image.RGBA, at image.Point) *mask {
	m := &mask{img.Rect.Dx(), img.Rect.Dy(), nil}
	m.in = make([]bool, m.w*m.h)
	open := make([]bool, m.w*m.h) // like the first pixel, and not in the region yet
	first := [4]uint8(img.Pix[img.PixOffset(at.X, at.Y):])
	for y := range m.h {
		pix, row := img.Pix[y*img.Stride:], open[y*m.w:(y+1)*m.w]
		for x := range row {
			p := pix[4*x:][:4:4]
			row[x] = near(p[0], first[0]) && near(p[1], first[1]) && near(p[2], first[2]) && near(p[3], first[3])
		}
	}
	todo := []image.Point{at.Sub(img.Rect.Min)}
	for len(todo) > 0 {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		row := open[p.Y*m.w : (p.Y+1)*m.w]
		if !row[p.X] {
			continue
		}
		x0, x1 := p.X, p.X+1
		for x0 > 0 && row[x0-1] {
			x0--
		}
		for x1 < m.w && row[x1] {
			x1++
		}
		for x := x0; x < x1; x++ {
			row[x], m.in[p.Y*m.w+x] = false, true
		}
		for _, y := range []int{p.Y - 1, p.Y + 1} {
			if y < 0 || y >= m.h {
				continue
			}
			beside := open[y*m.w : (y+1)*m.w]
			for x := x0; x < x1; x++ {
				if beside[x] && (x == x0 || !beside[x-1]) {
					todo = append(todo, image.Pt(x, y))
				}
			}
		}
	}
	return m
}

func near(a, b uint8) bool {
	d := int(a) - int(b)
	return d <= likeness && d >= -likeness
}

// grown returns the region with the pixels beside it.
func grown(m *mask) *mask {
	out := &mask{m.w, m.h, make([]bool, len(m.in))}
	for y := range m.h {
		for x := range m.w {
			i := y*m.w + x
			if !m.in[i] {
				continue
			}
			out.in[i] = true
			if x > 0 {
				out.in[i-1] = true
			}
			if x < m.w-1 {
				out.in[i+1] = true
			}
			if y > 0 {
				out.in[i-m.w] = true
			}
			if y < m.h-1 {
				out.in[i+m.w] = true
			}
		}
	}
	return out
}
