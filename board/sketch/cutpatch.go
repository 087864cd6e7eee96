package sketch

import (
	"image"
	"image/color"

	"stillbeat/board"
)

// patchSide is on how many pixels a side a patch is drawn to see what erasers
// leave of it.
const patchSide = 1024

// patchLeft returns what erasers leave of a patch of colour: itself where they
// miss it, else the outline of the rest, and none where nothing is left.
func patchLeft(k board.Stroke, erasers []board.Stroke, paint func(*image.RGBA, []board.Stroke) image.Rectangle) []board.Stroke {
	box := Around([]board.Stroke{k}, []int{0})
	mid := box.Middle()
	zoom := 0.95 / max(box.X1-box.X0, box.Y1-box.Y0, 0.01)
	near := func(k board.Stroke) board.Stroke {
		return Scale(board.Point{}, zoom, zoom).Stroke(Shift(-mid.X, -mid.Y).Stroke(k))
	}
	seen := []board.Stroke{near(k)}
	seen[0].Ink = color.NRGBA{A: 255} // glazes too
	for _, e := range erasers {
		seen = append(seen, near(e))
	}
	whole, _ := drawnMask(seen[:1], paint)
	left, region := drawnMask(seen, paint)
	if left == whole {
		return []board.Stroke{k}
	}
	dots := joined(region.trace(), func(p image.Point) board.Dot {
		return dotAt(board.Point{X: float64(p.X)/patchSide - 0.5, Y: float64(p.Y)/patchSide - 0.5}, 1)
	}, float64(board.SketchUnit)/patchSide)
	if len(dots) < 3 {
		return nil
	}
	k.Filled, k.Closed, k.Smooth, k.Width, k.Dots = true, true, false, 0, dots
	return []board.Stroke{Shift(mid.X, mid.Y).Stroke(Scale(board.Point{}, 1/zoom, 1/zoom).Stroke(k))}
}

// drawnMask draws strokes and returns how many pixels they cover at least half,
// and which.
func drawnMask(strokes []board.Stroke, paint func(*image.RGBA, []board.Stroke) image.Rectangle) (n int, m *mask) {
	img := image.NewRGBA(image.Rect(0, 0, patchSide, patchSide))
	paint(img, strokes)
	m = &mask{patchSide, patchSide, make([]bool, patchSide*patchSide)}
	for i := range m.in {
		if img.Pix[4*i+3] > 127 {
			m.in[i] = true
			n++
		}
	}
	return n, m
}
