package picture

import (
	"image"
	"image/color"
	"math"

	"stillbeat/board"
)

// inkDark is the ink of letters where none is chosen, Blank their ground.
var inkDark = color.RGBA{0x20, 0x1c, 0x18, 0xff}

// Sizes of what belongs to letters, in ems.
const (
	padding   = 0.35 // between words and the edge of their plate
	corner    = 0.3  // radius of a plate's corners
	bubble    = 0.7  // and of a bubble's, which has more room too
	ring      = 0.09 // line around letters
	boldNib   = 0.022
	rim       = 0.06 // line around a bubble
	tail      = 0.45 // half the width of a tail where it leaves its bubble
	leaderNib = 0.04
	headLong  = 3.2 // of an arrow, in widths of its shaft
	headHalf  = 1.7
	noteEm    = 0.045 // letters of the words beside an arrow, heights of the frame
)

// Misfit is lettering that cannot be shown as it is.
type Misfit struct {
	Letter  int  // which of the panel's
	Outside bool // it reaches out of the frame; titles and captions out of the safe area for titles
	Missing bool // it has a character that no font has
}

// safeTitle is the part of the frame's width and height within which titles are
// safe (SMPTE ST 2046-1).
const safeTitle = 0.9

// Misfits tells which of a panel's lettering does not fit or cannot be written.
// It does not depend on the size that the panel is drawn at.
func Misfits(p board.Panel, a board.Aspect) []Misfit {
	var out []Misfit
	for i, l := range p.Drawing().Lettering {
		b := set(l.Text, wideEms(l, a))
		m := Misfit{Letter: i, Missing: b.missing}
		if b.lines > 0 && l.Kind != board.Arrow {
			part := 1.0
			if l.Kind.OnScreen() {
				part = safeTitle
			}
			w, h := halfOf(l, b)
			m.Outside = math.Abs(l.At.X)+w > part*a.Ratio()/2 || math.Abs(l.At.Y)+h > part/2
		}
		if m.Outside || m.Missing {
			out = append(out, m)
		}
	}
	return out
}

// wideEms returns the width of lettering's lines in ems.
func wideEms(l board.Letter, a board.Aspect) float64 { return l.Wide(a) / l.Em() }

// paintLetter draws one piece of lettering.
func paintLetter(dst *image.RGBA, l board.Letter, a board.Aspect, eye lens) {
	if l.Kind == board.Arrow {
		paintArrow(dst, l, a, eye)
		return
	}
	words := set(l.Text, wideEms(l, a))
	if words.lines == 0 {
		return
	}
	em, at := l.Em()*eye.scale, eye.at(l.At)
	ink := l.Ink.RGBA(inkDark)
	if l.Kind == board.CaptionCard {
		ink = l.Ink.RGBA(Blank)
	}
	ground := groundOf(ink)
	half := pt{float32(words.wide * em / 2), float32(words.high() * em / 2)}
	to := eye.at(board.Point{X: l.At.X + l.To.X, Y: l.At.Y + l.To.Y})
	points := l.To != board.Point{}
	switch back := backOf(l); {
	case l.Kind == board.Speech && back == board.Plate:
		paintBubble(dst, at, half, to, points, em, ink, ground)
	case back == board.Plate:
		if points {
			paintLeader(dst, at, to, em, ink, ground)
		}
		o := &outline{}
		o.plate(at, half, em*padding, em*corner)
		if l.Kind == board.CaptionCard {
			ground.A = 0xd8
		}
		o.paint(dst, color.NRGBA(ground))
	default:
		if points {
			paintLeader(dst, at, to, em, ink, ground)
		}
	}
	nib := 0.0
	if l.Bold {
		nib = boldNib * em
	}
	paintWords(dst, words, at, em, nib, ink, ground, backOf(l) == board.Outline)
}

func paintWords(dst *image.RGBA, words block, at pt, em, nib float64, ink, ground color.RGBA, ringed bool) {
	if ringed {
		around := &outline{}
		words.outline(around, at, em, nib+ring*em)
		around.paint(dst, ground)
	}
	o := &outline{}
	words.outline(o, at, em, nib)
	o.paint(dst, ink)
}

// backOf returns what lettering stands on, its kind's own where none is chosen.
func backOf(l board.Letter) board.Back {
	if l.Back != board.OwnBack {
		return l.Back
	}
	if l.Kind == board.TitleCard || l.Kind == board.Arrow {
		return board.Outline
	}
	return board.Plate
}

// groundOf returns what letters of an ink are read on: light under dark ink,
// dark under light ink.
func groundOf(ink color.RGBA) color.RGBA {
	light := 0.2126*toLight[ink.R] + 0.7152*toLight[ink.G] + 0.0722*toLight[ink.B] // IEC 61966-2-1
	if light > 0.35 {
		return inkDark
	}
	return Blank
}

// plate adds a rectangle about the middle at with room around half its size,
// and round corners.
func (o *outline) plate(at, half pt, room, radius float64) {
	r := float32(radius)
	w, h := half.x+float32(room)-r, half.y+float32(room)-r
	w, h = max(w, 0), max(h, 0)
	corners := []pt{{at.x - w, at.y - h}, {at.x + w, at.y - h}, {at.x + w, at.y + h}, {at.x - w, at.y + h}}
	o.shape(corners...)
	line := make([]dot, len(corners))
	for i, c := range corners {
		line[i] = dot{c, r}
	}
	o.pen(line, true)
}

// paintBubble draws a bubble with its tail: its rim, then its ground.
func paintBubble(dst *image.RGBA, at, half, to pt, points bool, em float64, ink, ground color.RGBA) {
	for _, grown := range []float64{rim * em, 0} {
		o := &outline{}
		o.plate(at, half, em*bubble+grown, em*bubble+grown)
		if points {
			o.pen([]dot{{at, float32(tail*em + grown)}, {to, float32(grown)}}, false)
		}
		if grown > 0 {
			o.paint(dst, ink)
		} else {
			o.paint(dst, ground)
		}
	}
}

// paintLeader draws the line from a label to what it names, with a dot there.
func paintLeader(dst *image.RGBA, at, to pt, em float64, ink, ground color.RGBA) {
	for _, grown := range []float64{leaderNib * em, 0} {
		nib := float32(leaderNib*em + grown)
		o := &outline{}
		o.pen([]dot{{at, nib}, {to, nib}}, false)
		o.disc(dot{to, 2.5*float32(leaderNib*em) + float32(grown)})
		if grown > 0 {
			o.paint(dst, ground)
		} else {
			o.paint(dst, ink)
		}
	}
}

// paintArrow draws an arrow of movement, and words beside its middle.
func paintArrow(dst *image.RGBA, l board.Letter, a board.Aspect, eye lens) {
	long := math.Hypot(l.To.X, l.To.Y)
	if long == 0 {
		return
	}
	ink := l.Ink.RGBA(inkDark)
	ground := groundOf(ink)
	wide := l.Em() * eye.scale
	left := board.Point{X: l.To.Y / long, Y: -l.To.X / long}
	// The middle of a quadratic curve lies half way to its control point.
	from, tip := eye.at(l.At), eye.at(board.Point{X: l.At.X + l.To.X, Y: l.At.Y + l.To.Y})
	turn := eye.at(board.Point{X: l.At.X + l.To.X/2 + 2*l.Bend*left.X, Y: l.At.Y + l.To.Y/2 + 2*l.Bend*left.Y})
	if backOf(l) != board.Bare {
		around := &outline{}
		around.arrow(from, turn, tip, wide, 0.22*wide)
		around.paint(dst, ground)
	}
	o := &outline{}
	o.arrow(from, turn, tip, wide, 0)
	o.paint(dst, ink)
	if words := set(l.Text, l.Wide(a)/noteEm); words.lines > 0 {
		em := noteEm * eye.scale
		middle := pt{(from.x + 2*turn.x + tip.x) / 4, (from.y + 2*turn.y + tip.y) / 4}
		away := wide*1.2 + words.high()*em/2
		side := pt{float32(left.X), float32(left.Y)}
		if side.y > 0 || l.Bend < 0 { // above the arrow, but outside its bend
			side = pt{-side.x, -side.y}
		}
		paintWords(dst, words, pt{middle.x + side.x*float32(away), middle.y + side.y*float32(away)}, em, boldNib*em, ink, ground, true)
	}
}

// arrow adds an arrow along a quadratic curve, all its edges moved out by grown.
func (o *outline) arrow(from, turn, tip pt, wide, grown float64) {
	at := func(t float32) pt {
		u := 1 - t
		return pt{u*u*from.x + 2*u*t*turn.x + t*t*tip.x, u*u*from.y + 2*u*t*turn.y + t*t*tip.y}
	}
	const steps = 48
	long := float32(0)
	for i := 1; i <= steps; i++ {
		a, b := at(float32(i-1)/steps), at(float32(i)/steps)
		long += hypot(b.x-a.x, b.y-a.y)
	}
	// The head takes at most half of the way, and its base is where the shaft
	// is that far from the tip.
	head := min(float32(headLong*wide), long/2)
	var shaft []dot
	base := from
	for i := 0; i <= steps; i++ {
		p := at(float32(i) / steps)
		if i > 0 && hypot(tip.x-p.x, tip.y-p.y) < head {
			break
		}
		base = p
		shaft = append(shaft, dot{p, float32(wide/2 + grown)})
	}
	o.pen(shaft, false)
	dx, dy := tip.x-base.x, tip.y-base.y
	if n := hypot(dx, dy); n > 0 {
		dx, dy = dx/n, dy/n
	}
	side := head / headLong * headHalf
	corners := []pt{tip, {base.x - dy*side, base.y + dx*side}, {base.x + dy*side, base.y - dx*side}}
	o.shape(corners...)
	if grown > 0 {
		line := make([]dot, len(corners))
		for i, c := range corners {
			line[i] = dot{c, float32(grown)}
		}
		o.pen(line, true)
	}
}
