// Package icon draws the program's icon: a cup standing still on a beat, and
// the playhead going straight up from it where its steam would be.
package icon

import (
	"image"

	"stillbeat/assets/internal/ink"
)

// size is the design size; all lengths below are pixels at this size.
const size = 512

var (
	paper = ink.RGB(0xf5e9cf)
	line  = ink.RGB(0x2f2723)
	china = ink.RGB(0x5b8a8c)
	shade = ink.RGB(0x47706f)
	glaze = ink.RGB(0xf3e8d0)
	red   = ink.RGB(0xc9382c)
	green = ink.RGB(0x3f9158)
)

// Draw returns the icon, 512 by 512 pixels, with transparent corners.
func Draw() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, size, size))
	c := ink.NewCanvas(img)
	c.Unit = 1
	c.Fill(line)
	c.Paint(c.Mask(rounded(32, 32, 480, 480, 86)), paper, 1)
	drawPlayhead(c)
	drawCup(c)
	drawLine(c)
	cutOut(img, c.Mask(rounded(16, 16, 496, 496, 100)))
	return img
}

// drawLine draws the line of time, a beat passed and a beat to come, and the
// beat under the cup. Edges lie on multiples of 16 so that they stay sharp in
// the small sizes.
func drawLine(c *ink.Canvas) {
	c.Paint(c.Mask(rounded(80, 400, 432, 424, 8), rounded(96, 360, 120, 424, 8), rounded(392, 360, 416, 424, 8)), line, 1)
	c.Paint(c.Mask(diamond(256, 384, 76)), line, 1)
	c.Paint(c.Mask(diamond(256, 384, 54)), green, 1)
}

func drawPlayhead(c *ink.Canvas) {
	c.Paint(c.Mask(rounded(240, 32, 272, 200, 0)), red, 1)
}

func drawCup(c *ink.Canvas) {
	eye := ink.Pt{X: 366, Y: 232}
	hole := c.Mask(ink.Disc(eye, 22, 16))
	c.Paint(ink.Without(c.Mask(ink.Disc(eye, 72, 58)), hole), line, 1)
	c.Paint(ink.Without(c.Mask(ink.Disc(eye, 56, 43)), c.Mask(ink.Disc(eye, 36, 29))), china, 1)
	c.Paint(c.Mask(bowl(0)), line, 1)
	inner := c.Mask(bowl(16))
	c.Paint(inner, china, 1)
	side := []ink.Pt{{X: 290, Y: 170}, {X: 420, Y: 170}, {X: 420, Y: 340}, {X: 232, Y: 340}}
	c.Paint(ink.Within(c.Mask(side), inner), shade, 1)
	c.Paint(ink.Within(c.Mask(rounded(100, 216, 420, 244, 0)), inner), glaze, 1)
}

// bowl is the outline of the cup, drawn in by the given width.
func bowl(in float64) []ink.Pt {
	right := ink.Smooth([]ink.Pt{{X: 376 - in, Y: 176 + in}, {X: 368 - in, Y: 232}, {X: 334 - in*0.9, Y: 286 - in*0.5}, {X: 304 - in*0.6, Y: 316 - in}}, 12)
	out := append([]ink.Pt{}, right...)
	for i := len(right) - 1; i >= 0; i-- {
		out = append(out, ink.Pt{X: size - right[i].X, Y: right[i].Y})
	}
	return out
}

func diamond(x, y, r float64) []ink.Pt {
	return []ink.Pt{{X: x, Y: y - r}, {X: x + r, Y: y}, {X: x, Y: y + r}, {X: x - r, Y: y}}
}

// rounded is a rectangle with corners of radius r.
func rounded(x0, y0, x1, y1, r float64) []ink.Pt {
	var out []ink.Pt
	for i, c := range [4]ink.Pt{{X: x1 - r, Y: y1 - r}, {X: x0 + r, Y: y1 - r}, {X: x0 + r, Y: y0 + r}, {X: x1 - r, Y: y0 + r}} {
		circle := ink.Arc(c, r, 90*float64(i), 90*float64(i+1))
		out = append(out, circle...)
	}
	return out
}

// cutOut makes everything outside mask transparent.
func cutOut(img *image.RGBA, mask *image.Alpha) {
	for y := range size {
		for x := range size {
			a := uint32(mask.AlphaAt(x, y).A)
			o := img.PixOffset(x, y)
			for ch := range 4 {
				img.Pix[o+ch] = uint8(uint32(img.Pix[o+ch]) * a / 255)
			}
		}
	}
}
