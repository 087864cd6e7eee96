package stage

import (
	"image"
	"math"

	"stillbeat/assets/internal/ink"
)

// near is the distance, in centimetres, before which nothing is drawn.
const near = 2

// Camera is a pinhole camera.
type Camera struct {
	Eye, Target Vec
	Angle       float64 // vertical angle of view, degrees
	Roll        float64 // degrees, clockwise
}

// view is a camera made ready for one picture.
type view struct {
	eye, right, up, ahead Vec
	focal, cx, cy         float64
}

func newView(c Camera, frame image.Rectangle) view {
	ahead := c.Target.Sub(c.Eye).Unit()
	upright := Vec{0, 1, 0}
	if math.Abs(ahead.Y) > 0.99 {
		upright = Vec{0, 0, -1}
	}
	right := ahead.Cross(upright).Unit()
	up := right.Cross(ahead)
	s, k := math.Sincos(c.Roll * math.Pi / 180)
	right, up = right.Scale(k).Add(up.Scale(s)), up.Scale(k).Sub(right.Scale(s))
	return view{
		eye: c.Eye, right: right, up: up, ahead: ahead,
		focal: float64(frame.Dy()) / 2 / math.Tan(c.Angle*math.Pi/360),
		cx:    float64(frame.Min.X+frame.Max.X) / 2,
		cy:    float64(frame.Min.Y+frame.Max.Y) / 2,
	}
}

// Sees returns where a place ahead of the camera is in its picture, in heights
// of the frame: to the right of the middle and down from it.
func (c Camera) Sees(p Vec) (x, y float64) {
	const high = 1000
	at := newView(c, image.Rect(0, 0, high, high)).project(p)
	return at.X/high - 0.5, at.Y/high - 0.5
}

// depth is how far ahead of the camera p lies.
func (v view) depth(p Vec) float64 { return p.Sub(v.eye).Dot(v.ahead) }

// project returns where p, which lies ahead of the camera, is seen.
func (v view) project(p Vec) ink.Pt {
	d := p.Sub(v.eye)
	k := v.focal / max(d.Dot(v.ahead), near)
	return ink.Pt{X: v.cx + d.Dot(v.right)*k, Y: v.cy - d.Dot(v.up)*k}
}

func (v view) projectAll(p []Vec) []ink.Pt {
	out := make([]ink.Pt, len(p))
	for i, q := range p {
		out[i] = v.project(q)
	}
	return out
}

// polygon projects a flat polygon, cut off where it comes too near the camera.
func (v view) polygon(p []Vec) []ink.Pt {
	var kept []Vec
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := v.depth(a)-near, v.depth(b)-near
		if da >= 0 {
			kept = append(kept, a)
		}
		if da*db < 0 {
			kept = append(kept, a.To(b, da/(da-db)))
		}
	}
	return v.projectAll(kept)
}

// line projects a line; the parts too near the camera are left out.
func (v view) line(p []Vec) [][]ink.Pt {
	var out [][]ink.Pt
	var part []ink.Pt
	for _, q := range p {
		if v.depth(q) < near {
			if len(part) > 1 {
				out = append(out, part)
			}
			part = nil
			continue
		}
		part = append(part, v.project(q))
	}
	if len(part) > 1 {
		out = append(out, part)
	}
	return out
}
