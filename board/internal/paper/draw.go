package paper

import (
	"image/color"
	"strconv"
)

// Box is a place on a page, in millimetres from its upper left corner.
type Box struct{ X, Y, Wide, High float64 }

// Fit returns the largest place in the middle of the box for a picture of the
// given width and height, in any unit.
func (b Box) Fit(wide, high float64) Box {
	if wide <= 0 || high <= 0 {
		return b
	}
	k := min(b.Wide/wide, b.High/high)
	return Box{b.X + (b.Wide-wide*k)/2, b.Y + (b.High-high*k)/2, wide * k, high * k}
}

// Black is the ink of most things.
var Black = color.RGBA{0, 0, 0, 255}

// Grey returns an ink of the given lightness, 0 black to 255 white.
func Grey(v uint8) color.RGBA { return color.RGBA{v, v, v, 255} }

// Rule draws a straight line, thick millimetres wide. There is no alpha.
func (d *Doc) Rule(x1, y1, x2, y2, thick float64, ink color.RGBA) {
	d.raw(d.thick(thick) + stroke(ink) + d.at(x1, y1) + "m " + d.at(x2, y2) + "l S")
}

// Fill lays a tint over a box.
func (d *Doc) Fill(b Box, ink color.RGBA) { d.raw(fill(ink) + d.rect(b) + "f") }

// Frame draws the edges of a box, the middle of its line on them.
func (d *Doc) Frame(b Box, thick float64, ink color.RGBA) {
	d.raw(d.thick(thick) + stroke(ink) + d.rect(b) + "S")
}

// Tick draws a box to be ticked by hand, or one that is ticked.
func (d *Doc) Tick(b Box, ticked bool) {
	d.Frame(b, 0.2, Black)
	if ticked {
		d.raw(d.thick(0.4) + stroke(Black) + d.at(b.X+b.Wide*0.18, b.Y+b.High*0.55) + "m " +
			d.at(b.X+b.Wide*0.42, b.Y+b.High*0.8) + "l " + d.at(b.X+b.Wide*0.84, b.Y+b.High*0.2) + "l S")
	}
}

// Polygon fills a shape of straight edges between points x, y.
func (d *Doc) Polygon(points [][2]float64, ink color.RGBA) {
	if len(points) < 3 {
		return
	}
	out, then := fill(ink), "m "
	for _, p := range points {
		out += d.at(p[0], p[1]) + then
		then = "l "
	}
	d.raw(out + "f")
}

// raw adds operators to the page. Every one that draws sets what it draws with.
func (d *Doc) raw(operators string) { d.pdf.RawWriteStr(operators) }

func (d *Doc) at(x, y float64) string { return num(x*mm) + num((d.Size.High-y)*mm) }

func (d *Doc) rect(b Box) string {
	return d.at(b.X, b.Y+b.High) + num(b.Wide*mm) + num(b.High*mm) + "re "
}

func (d *Doc) thick(v float64) string { return num(v*mm) + "w " }

func stroke(c color.RGBA) string { return rgb(c) + "RG " }

func fill(c color.RGBA) string { return rgb(c) + "rg " }

func rgb(c color.RGBA) string {
	return num(float64(c.R)/255) + num(float64(c.G)/255) + num(float64(c.B)/255)
}

// num writes a number with a space after it.
func num(v float64) string {
	b := strconv.AppendFloat(make([]byte, 0, 12), v, 'f', 3, 64)
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	if string(b) == "-0" {
		b = b[1:]
	}
	return string(append(b, ' '))
}
