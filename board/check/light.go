package check

import "math"

// Light that a pixel's channel gives, 0 to 1, by its 8-bit value.
var (
	linear [256]float32 // sRGB as WCAG 2.2 defines relative luminance: c/12.92 up to 0.03928, else ((c+0.055)/1.055)^2.4
	screen [256]float32 // a television screen: V^2.4, as BT.1702 is applied to standard range
)

// screenPeak is the white of that screen, in candelas per square metre
// (BT.1702 as quoted: L = 200 V^2.4).
const screenPeak = 200

func init() {
	for i := range linear {
		c := float64(i) / 255
		screen[i] = float32(math.Pow(c, 2.4))
		if c <= 0.03928 {
			linear[i] = float32(c / 12.92)
		} else {
			linear[i] = float32(math.Pow((c+0.055)/1.055, 2.4))
		}
	}
}

// luminance returns the share of white's light that three channels of light
// give together (WCAG 2.2, relative luminance).
func luminance(r, g, b float32) float32 { return 0.2126*r + 0.7152*g + 0.0722*b }

// darkest is the light below which a pixel counts as black: colours there
// differ without anyone seeing it. 10 of 255 in one channel; our own choice.
const darkest = 0.0031

// saturated reports whether linear light is a saturated red: R/(R+G+B) of 0.8
// or more (WCAG 2.2, red flash).
func saturated(r, g, b float32) bool { return max(r, g, b) >= darkest && r >= 0.8*(r+g+b) }

// chroma is a colour without its lightness: u', v' of CIE 1976 UCS.
type chroma struct{ u, v float32 }

// Chromaticities of sRGB (IEC 61966-2-1) in u', v': of its white, which black
// counts as, and of its red.
var (
	white   = chroma{0.19784, 0.46834}
	redmost = chroma{0.45070, 0.52289}
)

// chromaOf returns the chromaticity of linear light: u' = 4X/(X+15Y+3Z), v' =
// 9Y/(X+15Y+3Z), with the matrix of IEC 61966-2-1.
func chromaOf(r, g, b float32) chroma {
	if max(r, g, b) < darkest {
		return white
	}
	x := 0.4124*r + 0.3576*g + 0.1805*b
	y := luminance(r, g, b)
	z := 0.0193*r + 0.1192*g + 0.9505*b
	sum := x + 15*y + 3*z
	return chroma{4 * x / sum, 9 * y / sum}
}

// squared returns the square of the distance between two chromaticities.
func (c chroma) squared(d chroma) float32 {
	return (c.u-d.u)*(c.u-d.u) + (c.v-d.v)*(c.v-d.v)
}

// redness is what an older rule for red flashes goes by: max(0, R-G-B) x 320
// (WCAG 2.2 working notes; a change of more than 20 counts).
func redness(r, g, b float32) float32 { return 320 * max(0, r-g-b) }
