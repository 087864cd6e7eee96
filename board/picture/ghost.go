package picture

import (
	"image"
	"image/color"

	"stillbeat/board"
)

// Dashes is a broken line, in pixels: how wide it is, how long its dashes are
// and what is between them. Dashes of no length are dots.
type Dashes struct{ Wide, Dash, Gap float64 }

// PaintGhosts draws the lines of strokes alone, on an image of the whole frame,
// all of one ink and as broken lines; patches as their outlines. Strokes that
// erase are left out.
func PaintGhosts(dst *image.RGBA, strokes []board.Stroke, ink color.Color, d Dashes) {
	l := lensOf(board.Framing{}, dst.Rect.Dx(), dst.Rect.Dy())
	for _, k := range strokes {
		if k.Erases {
			continue
		}
		line := flatten(&k, l, 200)
		if k.Closed && len(line) > 1 {
			line = append(line, line[0])
		}
		o := &outline{}
		for _, run := range d.cut(line) {
			o.pen(run, false)
		}
		o.paint(dst, ink)
	}
}

// cut returns the dashes of a line.
func (d Dashes) cut(line []dot) [][]dot {
	var out [][]dot
	var run []dot
	on, left := true, float32(d.Dash)
	half := float32(d.Wide / 2)
	end := func() {
		if len(run) > 0 {
			out, run = append(out, run), nil
		}
	}
	for i, p := range line {
		p.half = half
		if i > 0 {
			q := line[i-1]
			long := hypot(p.x-q.x, p.y-q.y)
			for done := float32(0); long-done > left; {
				done += left
				at := dot{pt{q.x + (p.x-q.x)*done/long, q.y + (p.y-q.y)*done/long}, half}
				if on {
					run = append(run, at)
					end()
				} else {
					run = []dot{at}
				}
				on, left = !on, float32(max(d.Gap, 1))
				if on {
					left = float32(max(d.Dash, 0.01))
				}
				long, q = long-done, at
				done = 0
			}
			left -= long
		}
		if on {
			run = append(run, p)
		}
	}
	end()
	return out
}
