package picture

import (
	"math"

	"stillbeat/board"
)

// courseHigh is for how many lines to the frame a course is fine enough.
const courseHigh = 4096

// Course returns the straight lines that a stroke is drawn in, curves broken down
// so that no corner is seen in a frame of up to 4096 lines.
func Course(k board.Stroke) []board.Dot {
	const unit = float64(board.SketchUnit) / courseHigh
	line := flatten(&k, lens{scale: courseHigh}, maxLines)
	out := make([]board.Dot, len(line))
	for i, d := range line {
		wide := 255.
		if k.Width > 0 {
			wide = math.Round(float64(d.half) * 2 * unit / float64(k.Width) * 255)
		}
		out[i] = board.Dot{X: int32(math.Round(float64(d.x) * unit)), Y: int32(math.Round(float64(d.y) * unit)), Wide: uint8(min(max(wide, 0), 255))}
	}
	return out
}
