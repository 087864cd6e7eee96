package board

import (
	"errors"
	"fmt"
	"image/color"
	"slices"
	"strconv"
	"strings"
)

// LetterKind is a kind of lettering.
type LetterKind string

// The kinds. Titles and captions stay where they are on the screen while the
// camera moves; the others belong to the picture and move with it.
const (
	TitleCard   LetterKind = "title"
	CaptionCard LetterKind = "caption"
	Speech      LetterKind = "speech" // in a bubble, with a tail to who speaks
	Label       LetterKind = "label"  // with a line to what it names
	Arrow       LetterKind = "arrow"  // which way something moves
)

// LetterKinds lists all of them, for menus.
var LetterKinds = []LetterKind{TitleCard, CaptionCard, Speech, Label, Arrow}

// OnScreen reports whether lettering of this kind stays put while the camera
// moves.
func (k LetterKind) OnScreen() bool { return k == TitleCard || k == CaptionCard }

// Back is what lettering stands on.
type Back string

// The backs. Each kind has one of its own.
const (
	OwnBack Back = ""
	Bare    Back = "bare"
	Plate   Back = "plate"   // a plain ground behind the words
	Outline Back = "outline" // a line around each letter
)

// Backs lists all of them, for menus.
var Backs = []Back{OwnBack, Bare, Plate, Outline}

// Colour is a colour in sRGB as six hexadecimal digits, "c0392b"; the empty
// one stands for the usual colour of what has it.
type Colour string

// RGBA returns the colour, or the usual one given where there is none.
func (c Colour) RGBA(usual color.RGBA) color.RGBA {
	v, err := strconv.ParseUint(string(c), 16, 32)
	if err != nil || len(c) != 6 {
		return usual
	}
	return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
}

func (c Colour) check() error {
	if c != "" && (len(c) != 6 || strings.Trim(string(c), "0123456789abcdef") != "") {
		return fmt.Errorf("%.40q is no colour: it takes six hexadecimal digits", string(c))
	}
	return nil
}

// Letter is words on a panel's picture, or an arrow. Lengths are in heights of
// the frame.
type Letter struct {
	Kind  LetterKind `json:"kind"`
	Text  string     `json:"text,omitempty"`
	At    Point      `json:"at,omitzero"`    // the middle of the words, the start of an arrow
	To    Point      `json:"to,omitzero"`    // from At: the tip of an arrow or tail, what a label names; zero is none
	Bend  float64    `json:"bend,omitempty"` // of an arrow: how far its middle lies to the left of the straight way
	Width float64    `json:"width,omitempty"`
	Size  float64    `json:"size,omitempty"` // of the letters' em, of an arrow's shaft; 0 is the kind's own
	Bold  bool       `json:"bold,omitempty"`
	Ink   Colour     `json:"ink,omitempty"`
	Back  Back       `json:"back,omitempty"`
}

// Limits of lettering.
const (
	MaxLettering = 100  // on a panel
	MaxLetters   = 2000 // bytes in one text
	MinLetter    = 0.005
	MaxLetter    = 2
)

// NewLetter returns lettering of a kind where it usually stands in a film of
// that shape.
func NewLetter(k LetterKind, text string, a Aspect) Letter {
	l := Letter{Kind: k, Text: text}
	switch k {
	case CaptionCard:
		l.At.Y = 0.35 // room for two lines
	case Speech:
		l.At, l.To = Point{-0.2, -0.3}, Point{0.1, 0.22}
	case Label:
		l.At, l.To = Point{0.25 * a.Ratio(), -0.25}, Point{-0.15, 0.15}
	case Arrow:
		l.At, l.To = Point{-0.2, 0}, Point{0.4, 0}
	}
	return l
}

// Em returns the size of the letters or of the arrow's shaft: its own, or the
// usual one of its kind.
func (l Letter) Em() float64 {
	if l.Size > 0 {
		return l.Size
	}
	switch l.Kind {
	case TitleCard:
		return 0.11
	case Label:
		return 0.045
	case Arrow:
		return 0.035
	}
	return 0.055
}

// Wide returns the width within which lines are broken: its own, or the usual
// one of its kind in a film of that shape.
func (l Letter) Wide(a Aspect) float64 {
	switch {
	case l.Width > 0:
		return l.Width
	case l.Kind.OnScreen():
		return 0.8 * a.Ratio()
	}
	return 0.4 * a.Ratio()
}

func (l Letter) check() error {
	switch {
	case !slices.Contains(LetterKinds, l.Kind):
		return fmt.Errorf("%.40q is no kind of lettering", string(l.Kind))
	case len(l.Text) > MaxLetters || !readable(l.Text):
		return errors.New("the lettering is too long or not readable")
	case !slices.Contains(Backs, l.Back):
		return fmt.Errorf("%.40q is nothing lettering stands on", string(l.Back))
	case l.Size != 0 && !(l.Size >= MinLetter && l.Size <= MaxLetter):
		return fmt.Errorf("letters %g times as high as the frame: it takes %g to %d", l.Size, MinLetter, MaxLetter)
	case l.Width != 0 && !(l.Width >= MinLetter && l.Width <= maxFar):
		return fmt.Errorf("lettering %g times as wide as the frame is high: it takes %g to %d", l.Width, MinLetter, maxFar)
	case !finite(l.Bend, maxFar):
		return fmt.Errorf("a bend of %g is too far from the frame", l.Bend)
	}
	return errors.Join(l.At.check(), l.To.check(), l.Ink.check())
}

// AddLetter puts lettering on the chosen panels.
func AddLetter(set []int, l Letter) Edit {
	return onDrawings("lettering", set, func(d *Drawn) { d.Lettering = append(d.Lettering, l) })
}

// SetLetter changes lettering k of panel i.
func SetLetter(i, k int, l Letter) Edit {
	e := onLetter("lettering", i, k, func(d *Drawn) { d.Lettering[k] = l })
	e.Merge = fmt.Sprintf("%s, %d", e.Name, k)
	return e
}

// RemoveLetter takes lettering k off panel i.
func RemoveLetter(i, k int) Edit {
	return onLetter("remove lettering", i, k, func(d *Drawn) { d.Lettering = slices.Delete(d.Lettering, k, k+1) })
}

// RaiseLetter puts lettering k of panel i over the rest.
func RaiseLetter(i, k int) Edit {
	return onLetter("lettering on top", i, k, func(d *Drawn) {
		l := d.Lettering[k]
		d.Lettering = append(slices.Delete(d.Lettering, k, k+1), l)
	})
}

// onLetter is onDrawings for a panel that must have lettering k.
func onLetter(what string, i, k int, change func(*Drawn)) Edit {
	e := onDrawings(what, []int{i}, change)
	apply := e.Apply
	e.Apply = func(b Board) (Board, error) {
		if i >= 0 && i < len(b.Panels) && (k < 0 || k >= len(b.Panels[i].Drawing().Lettering)) {
			return b, errors.New("there is no such lettering")
		}
		return apply(b)
	}
	return e
}
