package sketch

import (
	"math"

	"stillbeat/board"
)

// widthWeight is how many units of place a full change of width counts as.
const widthWeight = 120. / 255

// Simplify leaves out dots that lie within so many units of the line between
// those that stay, in place and width (Ramer, Computer Graphics and Image
// Processing 1, 1972; Douglas and Peucker, Cartographica 10, 1973). The first
// and the last stay.
func Simplify(dots []board.Dot, within float64) []board.Dot {
	if len(dots) < 3 {
		return append([]board.Dot(nil), dots...)
	}
	stays := make([]bool, len(dots))
	stays[0], stays[len(dots)-1] = true, true
	runs := [][2]int{{0, len(dots) - 1}}
	for len(runs) > 0 {
		from, to := runs[len(runs)-1][0], runs[len(runs)-1][1]
		runs = runs[:len(runs)-1]
		worst, at := within, -1
		for i := from + 1; i < to; i++ {
			if d := off(dots[from], dots[to], dots[i]); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			stays[at] = true
			runs = append(runs, [2]int{from, at}, [2]int{at, to})
		}
	}
	var out []board.Dot
	for i, d := range dots {
		if stays[i] {
			out = append(out, d)
		}
	}
	return out
}

// off returns how far c is from the line from a to b, its width counted in.
func off(a, b, c board.Dot) float64 {
	x, y, w := apart(a, b)
	cx, cy, cw := apart(a, c)
	k := 0.
	if long := x*x + y*y + w*w; long > 0 {
		k = min(max((x*cx+y*cy+w*cw)/long, 0), 1)
	}
	cx, cy, cw = cx-k*x, cy-k*y, cw-k*w
	return math.Sqrt(cx*cx + cy*cy + cw*cw)
}

func apart(a, b board.Dot) (x, y, w float64) {
	return float64(b.X - a.X), float64(b.Y - a.Y), (float64(b.Wide) - float64(a.Wide)) * widthWeight
}
