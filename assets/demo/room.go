package demo

import (
	"image"
	"image/color"
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

type (
	vec  = stage.Vec
	pose = stage.Pose
)

// Where the room's parts are, in centimetres.
const (
	wallZ     = -36.0
	tableBack = -32.0
	tableEnd  = 130.0
	tableWide = 150.0
	railY     = 10.0
)

// window is the opening in the wall.
var window = struct{ x0, x1, y0, y1 float64 }{-47, -5, 14, 56}

// set is one picture of the room: the scene and the time of day.
type set struct {
	*stage.Scene
	evening bool
}

// newSet draws the empty room as seen by cam.
func newSet(dst *image.RGBA, cam stage.Camera, evening bool) *set {
	light := afternoon
	if evening {
		light = lamplight
	}
	s := &set{stage.NewScene(dst, cam, light), evening}
	s.drawWall()
	s.drawWindow()
	s.drawTable()
	if !evening {
		s.drawSunPatch()
	}
	return s
}

// rect is an upright rectangle parallel to the wall.
func rect(x0, y0, x1, y1, z float64) []vec {
	return []vec{{X: x0, Y: y0, Z: z}, {X: x1, Y: y0, Z: z}, {X: x1, Y: y1, Z: z}, {X: x0, Y: y1, Z: z}}
}

// slab is a rectangle lying on the table.
func slab(x0, z0, x1, z1 float64) []vec {
	return []vec{{X: x0, Z: z0}, {X: x1, Z: z0}, {X: x1, Z: z1}, {X: x0, Z: z1}}
}

func (s *set) drawWall() {
	s.Canvas.Fill(wallUpper)
	s.Canvas.Paint(s.Mask(rect(-tableWide, -80, tableWide, railY, wallZ)), wallLower, 1)
	for i, y := range []float64{railY, railY + 1.6} {
		s.Line(span(vec{X: -tableWide, Y: y, Z: wallZ}, vec{X: tableWide, Y: y, Z: wallZ}),
			ink.Pen{Width: 1.8 - 0.5*float64(i), Colour: darker(wallLower, 0.55), Seed: 40 + i})
	}
	for x := -144.0; x < tableWide; x += 12 {
		s.Line(span(vec{X: x, Y: railY, Z: wallZ}, vec{X: x, Y: -20, Z: wallZ}),
			ink.Pen{Width: 1.1, Colour: darker(wallLower, 0.3), Seed: int(x)})
	}
}

// span is a straight line with points to bend.
func span(a, b vec) []vec {
	out := make([]vec, 33)
	for i := range out {
		out[i] = a.To(b, float64(i)/32)
	}
	return out
}

func (s *set) drawTable() {
	top := s.Mask(slab(-tableWide, tableBack, tableWide, tableEnd))
	s.Canvas.Paint(top, tableWood, 1)
	for i, z := range []float64{-20, -5, 11, 29, 50, 75} {
		s.Canvas.Paint(s.Mask(slab(-tableWide, z, tableWide, z+16)), ink.Mix(tableWood, tableGrain, 0.16*float64(i%2)), 1)
	}
	s.Line(span(vec{X: -tableWide, Z: tableBack}, vec{X: tableWide, Z: tableBack}), ink.Pen{Width: 2.8})
	for i, z := range []float64{-20, -5, 11, 29, 50, 75} {
		s.Line(span(vec{X: -tableWide, Z: z}, vec{X: tableWide, Z: z}), ink.Pen{Width: 1.5, Colour: darker(tableGrain, 0.35), Seed: i})
	}
	for i := range 60 {
		s.drawGrain(i)
	}
}

// drawGrain draws one short line of the table's wood.
func (s *set) drawGrain(i int) {
	f := float64(i)
	x := 120 * ink.Noise(f*3.7, 71)
	z := 30 + 62*ink.Noise(f*5.3, 72)
	length := 10 + 7*ink.Noise(f*2.9, 73)
	line := make([]vec, 17)
	for k := range line {
		t := float64(k) / 16
		line[k] = vec{X: x + length*(t-0.5), Z: z + 0.5*math.Sin(t*5+f)}
	}
	s.Line(line, ink.Pen{Width: 1.4, Colour: tableGrain, Taper: 30, Alpha: 0.75, Seed: i})
}

func (s *set) drawWindow() {
	w := window
	s.Canvas.Paint(s.Mask(rect(w.x0-2.6, w.y0-2, w.x1+2.6, w.y1+3, wallZ)), frameWhite, 1)
	opening := s.Mask(rect(w.x0, w.y0, w.x1, w.y1, wallZ-1))
	s.drawSky(opening)
	s.drawHills(opening)
	mid := (w.x0 + w.x1) / 2
	for _, bar := range [][]vec{
		rect(mid-0.9, w.y0, mid+0.9, w.y1, wallZ), rect(w.x0, 33.6, w.x1, 35.2, wallZ),
	} {
		s.edged(bar, frameWhite, 1.8)
	}
	s.outlinePath(rect(w.x0, w.y0, w.x1, w.y1, wallZ), 2.2)
	s.outlinePath(rect(w.x0-2.6, w.y0-2, w.x1+2.6, w.y1+3, wallZ), 2.4)
	sill := []vec{{X: w.x0 - 4, Y: w.y0 - 1, Z: wallZ}, {X: w.x1 + 4, Y: w.y0 - 1, Z: wallZ}, {X: w.x1 + 4.6, Y: w.y0 - 1, Z: wallZ + 4}, {X: w.x0 - 4.6, Y: w.y0 - 1, Z: wallZ + 4}}
	s.edged(rect(w.x0-4.6, w.y0-2.8, w.x1+4.6, w.y0-1, wallZ+4), darker(frameWhite, 0.14), 2.2)
	if s.Facing(sill[0], vec{Y: 1}) > 0.03 {
		s.edged(sill, frameWhite, 2.2)
	}
}

// edged paints a flat shape with an outline.
func (s *set) edged(shape []vec, col color.RGBA, line float64) {
	mask := s.Mask(shape)
	s.Canvas.Paint(mask, col, 1)
	s.Outline(mask, line)
}

// outlinePath draws the closed outline of a flat shape.
func (s *set) outlinePath(shape []vec, line float64) {
	for i := range shape {
		s.Line(span(shape[i], shape[(i+1)%len(shape)]), ink.Pen{Width: line})
	}
}

// drawSunPatch lays the window's light on the table.
func (s *set) drawSunPatch() {
	w := window
	mid := (w.x0 + w.x1) / 2
	ray := vec{X: 1.05, Y: -1, Z: 0.82}
	for _, pane := range [][]vec{
		rect(w.x0, w.y0, mid-0.9, 33.6, wallZ), rect(mid+0.9, w.y0, w.x1, 33.6, wallZ),
		rect(w.x0, 35.2, mid-0.9, w.y1, wallZ), rect(mid+0.9, 35.2, w.x1, w.y1, wallZ),
	} {
		for i, p := range pane {
			pane[i] = vec{X: p.X + ray.X*p.Y, Z: p.Z + ray.Z*p.Y}
		}
		onTable := s.Mask(slab(-tableWide, tableBack+0.4, tableWide, tableEnd))
		s.Canvas.Paint(ink.Within(ink.Blur(s.Mask(pane), int(3*s.Canvas.Unit+0.5)), onTable), ink.RGB(0xf0cf94), 0.55)
	}
}
