package ink

import "image/color"

// RGB returns an opaque colour from 0xRRGGBB.
func RGB(hex uint32) color.RGBA {
	return color.RGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// Mix goes from a (t = 0) to b (t = 1).
func Mix(a, b color.RGBA, t float64) color.RGBA {
	m := func(p, q uint8) uint8 { return uint8(mixf(float64(p), float64(q), t) + 0.5) }
	return color.RGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}
