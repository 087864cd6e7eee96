package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"stillbeat/board"
)

// Burn is what stands over a frame that is handed on and is in no panel: words
// on dark plates, in any script, and lines. Equal ones look the same.
type Burn struct {
	Panel, Place string // at the foot, left and right, as Board.BurnIn tells them
	Note         string // above them
	Mark         string // at the top, half seen through
	Safe         bool   // the boxes that are safe for action and for titles
}

// Sizes of burnt-in words, in heights of the frame, or widths of half a 16:9
// frame where that is less.
const (
	burnEm = 0.034
	markEm = 0.06
)

// mostBurntLines is how many lines a plate has at most; the rest is left out.
const mostBurntLines = 4

var (
	burnPlate = color.NRGBA{0x14, 0x11, 0x0e, 0xcc}
	burnInk   = color.NRGBA{0xff, 0xfa, 0xf0, 0xff}
	markInk   = color.NRGBA{0xff, 0xfa, 0xf0, 0x8c}
	markEdge  = color.NRGBA{0x14, 0x11, 0x0e, 0x5a}
	safeLine  = color.NRGBA{0xff, 0xfa, 0xf0, 0xd0}
	safeEdge  = color.NRGBA{0x14, 0x11, 0x0e, 0x90}
)

// Paint draws b on dst, which holds a frame of a film of shape a, with bars
// beside it or without. Outside the part it returns dst is as it was.
func (b Burn) Paint(dst *image.RGBA, a board.Aspect) image.Rectangle {
	at := frameIn(a, dst.Rect.Dx(), dst.Rect.Dy()).Add(dst.Rect.Min)
	frame := Box{float64(at.Min.X), float64(at.Min.Y), float64(at.Dx()), float64(at.Dy())}
	unit := math.Min(frame.H, frame.W*9/8)
	room := frame.Share(SafeTitle)
	if b.Safe {
		paintBox(dst, frame.Share(SafeAction), frame.H)
		paintBox(dst, room, frame.H)
	}
	if b.Mark != "" {
		em := markEm * unit
		words := set(b.Mark, room.W/em).cut(mostBurntLines)
		middle := pt{float32(room.X + room.W/2), float32(room.Y + words.high()*em/2)}
		around := &outline{}
		words.outline(around, middle, em, ring*em)
		around.paint(dst, markEdge)
		o := &outline{}
		words.outline(o, middle, em, boldNib*em)
		o.paint(dst, markInk)
	}
	em := burnEm * unit
	foot := room.Y + room.H
	left, right := b.lines(room.W/em, em)
	paintPlate(dst, left, room.X, foot, em, false)
	paintPlate(dst, right, room.X+room.W, foot, em, true)
	if high := math.Max(plateHigh(left), plateHigh(right)); high > 0 {
		foot -= (high + padding) * em
	}
	note := set(b.Note, room.W/em-2*padding).cut(mostBurntLines)
	paintPlate(dst, note, room.X, foot, em, false)
	part := dst.Rect
	if b.Mark == "" && !b.Safe { // letters may reach a little over their plates
		top := math.Min(foot, room.Y+room.H-math.Max(plateHigh(left), plateHigh(right))*em) - plateHigh(note)*em - em
		part.Min.Y = max(part.Min.Y, int(math.Floor(top)))
	}
	return part
}

// lines sets the words at the foot: each as wide as it needs if there is room
// for both side by side, else half of it.
func (b Burn) lines(wide, em float64) (left, right block) {
	left, right = set(b.Panel, wide-2*padding), set(b.Place, wide-2*padding)
	if left.lines > 0 && right.lines > 0 && left.wide+right.wide+5*padding > wide {
		half := wide/2 - 2.5*padding
		left, right = set(b.Panel, half), set(b.Place, half)
	}
	return left.cut(mostBurntLines), right.cut(mostBurntLines)
}

func plateHigh(b block) float64 {
	if b.lines == 0 {
		return 0
	}
	return b.high() + 2*padding
}

// paintPlate draws words on a plate whose lower left corner, or right one, is
// at x, foot.
func paintPlate(dst *image.RGBA, words block, x, foot, em float64, fromRight bool) {
	if words.lines == 0 {
		return
	}
	half := pt{float32(words.wide * em / 2), float32(words.high() * em / 2)}
	over := half.x + float32(padding*em)
	if fromRight {
		over = -over
	}
	at := pt{float32(x) + over, float32(foot) - half.y - float32(padding*em)}
	back := &outline{}
	back.plate(at, half, em*padding, em*corner)
	back.paint(dst, burnPlate)
	o := &outline{}
	words.outline(o, at, em, 0)
	o.paint(dst, burnInk)
}

// cut leaves out all lines but the first n.
func (b block) cut(n int) block {
	if b.lines <= n {
		return b
	}
	kept := b.glyphs[:0]
	for _, g := range b.glyphs {
		if g.y < lineStep*(float64(n)-0.5) {
			kept = append(kept, g)
		}
	}
	b.glyphs, b.lines = kept, n
	return b
}

// paintBox draws the lines of a box, light with a dark edge outside, about a
// pixel wide in a small frame and more in a large one.
func paintBox(dst *image.RGBA, box Box, high float64) {
	t := max(1, int(math.Round(high/720)))
	r := image.Rect(int(math.Round(box.X)), int(math.Round(box.Y)), int(math.Round(box.X+box.W)), int(math.Round(box.Y+box.H)))
	for _, line := range []struct {
		r image.Rectangle
		c color.NRGBA
	}{{r.Inset(-t), safeEdge}, {r, safeLine}} {
		ink := image.NewUniform(line.c)
		q := line.r
		for _, side := range []image.Rectangle{
			{q.Min, image.Pt(q.Max.X, q.Min.Y+t)}, {image.Pt(q.Min.X, q.Max.Y-t), q.Max},
			{image.Pt(q.Min.X, q.Min.Y+t), image.Pt(q.Min.X+t, q.Max.Y-t)}, {image.Pt(q.Max.X-t, q.Min.Y+t), image.Pt(q.Max.X, q.Max.Y-t)},
		} {
			draw.Draw(dst, side, ink, image.Point{}, draw.Over)
		}
	}
}
