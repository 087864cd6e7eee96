package paper

import "image/color"

// Dashes draws a straight line, thick millimetres wide, in dashes and gaps of
// the given length.
func (d *Doc) Dashes(x1, y1, x2, y2, thick, length float64, ink color.RGBA) {
	d.raw("q [" + num(length*mm) + "] 0 d " + d.thick(thick) + stroke(ink) + d.at(x1, y1) + "m " + d.at(x2, y2) + "l S Q")
}
