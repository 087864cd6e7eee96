package stage

import (
	"image"
	"math"

	"stillbeat/assets/internal/ink"
)

// Belt returns the mask of what the camera sees of the surface of body between
// two heights, and the two lines along its edges.
func (s *Scene) Belt(body Lathe, h0, h1 float64) (mask *image.Alpha, edges [][]Vec) {
	const all = 2 // above any cosine
	belt := body.Belt(h0, h1)
	mask = s.Canvas.Mask(s.view.zone(belt, Vec{Y: 1}, all)...)
	normals := belt.normals()
	for _, i := range [2]int{0, 2} {
		edges = append(edges, s.seen(belt[i], normals[i])...)
	}
	return mask, edges
}

// seen returns the parts of a ring whose normals face the camera.
func (s *Scene) seen(ring, normals []Vec) [][]Vec {
	n := len(ring)
	facing := func(i int) bool { return s.Facing(ring[i%n], normals[i%n]) > 0.04 }
	start := 0
	for start < n && facing(start) {
		start++
	}
	var out [][]Vec
	var part []Vec
	for i := start; i <= start+n; i++ {
		if facing(i) {
			part = append(part, ring[i%n])
			continue
		}
		if len(part) > 2 {
			out = append(out, part)
		}
		part = nil
	}
	if start == n {
		out = append(out, append(part, ring[0]))
	}
	return out
}

// FrontAngle is the angle, in degrees about the body's axis, of the side
// turned to the camera; greater angles lie further left in the picture.
func (s *Scene) FrontAngle(body Lathe) float64 {
	p := body.Pose()
	d := s.view.eye.Sub(p.O)
	return math.Atan2(d.Dot(p.Z), d.Dot(p.X)) * 180 / math.Pi
}

// Clipped draws with everything kept inside mask.
func (s *Scene) Clipped(mask *image.Alpha, draw func()) {
	before := s.Canvas.Clip
	s.Canvas.Clip = mask
	if before != nil {
		s.Canvas.Clip = ink.Within(mask, before)
	}
	draw()
	s.Canvas.Clip = before
}

// Silhouette returns the mask of what the camera sees of the lofts.
func (s *Scene) Silhouette(lofts ...Loft) *image.Alpha {
	var polys [][]ink.Pt
	for _, l := range lofts {
		polys = append(polys, s.view.outline(l)...)
	}
	return s.Canvas.Mask(polys...)
}
