package demo

import "stillbeat/assets/internal/stage"

// Way is the way of an object, thrown from one place on the set to another, as
// the camera sees it.
type Way struct {
	Object   string
	From, To Spot
	Rise     float64 // mm above the higher end
	Scale    float64 // the set is 1:Scale of what it should look like
}

// Spot is a place on the set, and where it is seen in the frame.
type Spot struct {
	X, Height    float64 // mm, to the right and above the table
	SeenX, SeenY float64 // heights of the frame from its middle, to the right and down
}

// The lump's flight.
var flightCam = stage.Camera{Eye: vec{X: 5, Y: 33, Z: 130}, Target: vec{X: 6, Y: 22, Z: 0}, Angle: 30}

const flightHigh = 21 // cm over the middle between its ends

func flightEnds(t table) (from, to vec) {
	return t.spoonA.bowl().Add(vec{Y: 3}), t.lamp.crown().O
}

// flightWay is the way of the lump over the table. At the scale it is given the
// throw lasts as long as the four beats it is drawn for.
func flightWay() *Way {
	from, to := flightEnds(fired())
	middle := vec{Y: lumpSize / 2} // of the lump
	from, to = from.Add(middle), to.Add(middle)
	top := to.Y
	for i := range 101 {
		top = max(top, arcAt(from, to, flightHigh, float64(i)/100).Y)
	}
	return &Way{Object: "lump", From: seen(flightCam, from), To: seen(flightCam, to), Rise: 10 * (top - to.Y), Scale: 26}
}

// seen returns a place of the set, which is in centimetres, with its place in
// the frame.
func seen(c stage.Camera, p vec) Spot {
	x, y := c.Sees(p)
	return Spot{10 * p.X, 10 * p.Y, x, y}
}
