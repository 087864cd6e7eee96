package stage

import (
	"image"
	"image/color"
	"math"
	"sort"

	"stillbeat/assets/internal/ink"
)

// Light is a distant light and the colours it leaves.
type Light struct {
	Ray    Vec        // the way the light travels
	Shadow color.RGBA // glaze of a cast shadow
	Shade  color.RGBA // glaze of the side turned away
	Ink    color.RGBA // outlines
}

// Scene is one picture being drawn.
type Scene struct {
	Canvas *ink.Canvas
	Light  Light

	view  view
	items []item
	seed  int
}

// item is one object on the table, drawn far to near.
type item struct {
	depth  float64
	shadow []Loft
	draw   func()
}

// NewScene returns a scene seen by cam, to be drawn on dst.
func NewScene(dst *image.RGBA, cam Camera, light Light) *Scene {
	return &Scene{Canvas: ink.NewCanvas(dst), Light: light, view: newView(cam, dst.Bounds())}
}

// Add puts an object into the scene: where it stands, the solids that cast its
// shadow, and how it is drawn once everything behind it is there.
func (s *Scene) Add(at Vec, shadow []Loft, draw func()) {
	s.items = append(s.items, item{s.view.depth(at), shadow, draw})
}

// Finish draws the shadows and then the objects, far to near.
func (s *Scene) Finish() {
	s.castShadows()
	sort.SliceStable(s.items, func(i, j int) bool { return s.items[i].depth > s.items[j].depth })
	for _, it := range s.items {
		it.draw()
	}
}

func (s *Scene) castShadows() {
	var polys [][]ink.Pt
	for _, it := range s.items {
		for _, l := range it.shadow {
			for _, p := range s.view.outline(l.shadow(s.Light.Ray)) {
				polys = append(polys, p)
			}
		}
	}
	mask := s.Canvas.Mask(polys...)
	s.Canvas.Glaze(ink.Blur(mask, int(math.Round(4*s.Canvas.Unit))), s.Light.Shadow, 1)
}

// Project returns where a point of the room is seen, in pixels.
func (s *Scene) Project(p Vec) ink.Pt { return s.view.project(p) }

// PixelsPerCM is the scale of the picture at p.
func (s *Scene) PixelsPerCM(p Vec) float64 { return s.view.focal / max(s.view.depth(p), near) }

// Nearer reports whether a is nearer to the camera than b by at least gap cm.
func (s *Scene) Nearer(a, b Vec, gap float64) bool { return s.view.depth(a)+gap < s.view.depth(b) }

// Facing is the cosine between a normal at p and the direction to the camera.
func (s *Scene) Facing(p, normal Vec) float64 { return normal.Unit().Dot(s.view.eye.Sub(p).Unit()) }

// Away is the level direction from the camera to p, of length 1.
func (s *Scene) Away(p Vec) Vec {
	d := p.Sub(s.view.eye)
	return Vec{d.X, 0, d.Z}.Unit()
}

// Mask returns the mask of flat polygons of the room.
func (s *Scene) Mask(polys ...[]Vec) *image.Alpha {
	flat := make([][]ink.Pt, len(polys))
	for i, p := range polys {
		flat[i] = s.view.polygon(p)
	}
	return s.Canvas.Mask(flat...)
}

// Solid paints lofts that are one thing of one colour, with shade on the side
// away from the light and an outline round the whole. It returns their mask.
func (s *Scene) Solid(col color.RGBA, line float64, lofts ...Loft) *image.Alpha {
	return s.Painted(col, line, nil, lofts...)
}

// Painted is Solid with something painted on: decorate draws under the shade.
func (s *Scene) Painted(col color.RGBA, line float64, decorate func(), lofts ...Loft) *image.Alpha {
	var shade [][]ink.Pt
	for _, l := range lofts {
		shade = append(shade, s.view.zone(l, s.Light.Ray.Unit().Scale(-1), -0.12)...)
	}
	mask := s.Silhouette(lofts...)
	s.Canvas.Paint(mask, col, 1)
	if decorate != nil {
		decorate()
	}
	soft := ink.Blur(s.Canvas.Mask(shade...), int(math.Round(2*s.Canvas.Unit)))
	s.Canvas.Glaze(ink.Within(soft, mask), s.Light.Shade, 1)
	s.Outline(mask, line)
	return mask
}

// Outline draws the ink line round mask. A width of 0 draws none.
func (s *Scene) Outline(mask *image.Alpha, width float64) {
	if width > 0 {
		s.seed += 101
		s.Canvas.Strokes(ink.Contours(mask), ink.Pen{Width: width, Colour: s.Light.Ink, Weight: 0.35, Seed: s.seed})
	}
}

// Line draws a line of the room in ink.
func (s *Scene) Line(path []Vec, pen ink.Pen) {
	s.seed += 7
	pen.Seed += s.seed
	if pen.Colour == (color.RGBA{}) {
		pen.Colour = s.Light.Ink
	}
	s.Canvas.Strokes(s.view.line(path), pen)
}
