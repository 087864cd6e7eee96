package picture

import "math"

// toLight gives the light of each level of sRGB, 0 to 1, and fromLight the
// level of light in steps of lightSteps (IEC 61966-2-1).
const lightSteps = 1 << 14

var toLight = func() (out [256]float32) {
	for i := range out {
		v := float64(i) / 255
		if v <= 0.04045 {
			out[i] = float32(v / 12.92)
		} else {
			out[i] = float32(math.Pow((v+0.055)/1.055, 2.4))
		}
	}
	return out
}()

var fromLight = func() (out [lightSteps + 1]uint8) {
	for i := range out {
		v := float64(i) / lightSteps
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		out[i] = uint8(math.Round(255 * v))
	}
	return out
}()

// plain is toLight where levels are mixed as they are.
var plain = func() (out [256]float32) {
	for i := range out {
		out[i] = float32(i) / 255
	}
	return out
}()

// level returns the level of sRGB that has so much light.
func level(light float32) uint8 {
	return fromLight[int(min(max(light, 0), 1)*lightSteps+0.5)]
}

// plainLevel undoes plain.
func plainLevel(v float32) uint8 { return uint8(min(max(v, 0), 1)*255 + 0.5) }
