package picture

// Shares of width and height that are safe (SMPTE ST 2046-1, as listed in the
// BKSTS Dictionary, appendix B; EBU R 95 gives the same boxes as insets of 3.5
// and 5 %).
const (
	SafeAction = 0.93
	SafeTitle  = 0.90
)

// Box is a rectangle within a picture, in pixels, which need not be whole.
type Box struct{ X, Y, W, H float64 }

// Share returns the box of a share of width and height, centred in b.
func (b Box) Share(share float64) Box {
	w, h := b.W*share, b.H*share
	return Box{b.X + (b.W-w)/2, b.Y + (b.H-h)/2, w, h}
}

// Aspect returns the largest box of a shape, its width by its height, centred
// in b.
func (b Box) Aspect(ratio float64) Box {
	w, h := b.W, b.W/ratio
	if h > b.H {
		w, h = b.H*ratio, b.H
	}
	return Box{b.X + (b.W-w)/2, b.Y + (b.H-h)/2, w, h}
}

// Shape is a shape of picture by its usual name.
type Shape struct {
	Name  string
	Ratio float64 // width by height
}

// Shapes are those films are shown in, the widest first.
var Shapes = []Shape{{"2.39", 2.39}, {"1.85", 1.85}, {"16:9", 16. / 9}, {"4:3", 4. / 3}, {"1:1", 1}, {"9:16", 9. / 16}}
