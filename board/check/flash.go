package check

import (
	"fmt"
	"image"
	"math"

	"stillbeat/board"
)

// Rule is one that flashing is screened by.
type Rule int

// The rules. General and Red are those of WCAG 2.2, success criterion 2.3.1;
// Television and OldRed are a second opinion.
const (
	General    Rule = iota // a tenth of white's light, the darker below 0.80
	Red                    // to or from a saturated red, 0.2 in u'v'
	Television             // BT.1702: 20 cd/m² on a screen of 200
	OldRed                 // an older rule for red: max(0, R-G-B) x 320 by more than 20
	rules      = iota
)

// MostChanges is how many changes in a second still pass: three flashes, each
// there and back.
const MostChanges = 6

// Changes a second that are reported if they are kept up, and for how many of
// how many seconds (an analyser's usual setting; BT.1702 names 5 seconds).
const (
	keptUpChanges = 4
	keptUpFor     = 4.0
	keptUpOf      = 5.0
)

// LeastHold returns the fewest frames that full panels of black and white, one
// after the other, must each hold to pass: less makes more than three flashes
// in a second.
func LeastHold(r board.FrameRate) board.Frame {
	return board.Frame(math.Ceil(r.Float()/MostChanges - 1e-9))
}

// Flash is a run of frames that does not pass a rule.
type Flash struct {
	Rule    Rule
	Span    board.Span
	Changes int     // in its worst second
	Share   float64 // of a 10-degree field, in that second
	KeptUp  bool    // it passes, but goes on for longer than is safe
}

// Flashing is what Flashes found.
type Flashing struct {
	Flashes []Flash    // by rule, then by frame
	Most    [rules]int // changes in the worst second over more than a quarter of a field
}

// Passes reports whether all of the film passes a rule.
func (f Flashing) Passes(r Rule) bool { return f.Most[r] <= MostChanges }

// Size of the screen that the rules are applied on, and of a 10-degree field on
// it, in pixels (WCAG 2.2, understanding 2.3.1).
const (
	screenWidth, screenHeight = 1024, 768
	fieldWidth, fieldHeight   = 341, 256
)

// fieldOf returns how many pixels of a picture of the given size, shown as large
// as the screen allows, a 10-degree field takes.
func fieldOf(size image.Point) image.Point {
	scale := math.Min(screenWidth/float64(size.X), screenHeight/float64(size.Y))
	return image.Pt(max(1, int(math.Round(fieldWidth/scale))), max(1, int(math.Round(fieldHeight/scale))))
}

// SizeFor returns how large the frames of a film are best drawn for Flashes: a
// 10-degree field is 64 x 48 pixels, a pixel 0.16 degrees.
func SizeFor(a board.Aspect) (w, h int) {
	const places = 192.0 / screenWidth
	width := math.Min(screenWidth, screenHeight*a.Ratio()) * places
	return max(1, int(math.Round(width))), max(1, int(math.Round(width/a.Ratio())))
}

func sizeError(n board.Frame, got, want image.Point) error {
	return fmt.Errorf("frame %d has %v pixels, those before had %v", n, got, want)
}
