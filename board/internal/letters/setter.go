package letters

import (
	"sync"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/language"
	"github.com/go-text/typesetting/shaping"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/bidi"
)

// emUnits is the size at which words are set. They are set once, whatever the
// size they are drawn at, so lines break at the same words everywhere.
const emUnits = 1000

// Setter sets words; it is for one goroutine at a time. Get one, and Put it
// back.
type Setter struct {
	faces   faces
	segment shaping.Segmenter
	shaper  shaping.HarfbuzzShaper
	wrap    shaping.LineWrapper
}

var setters = sync.Pool{New: func() any { return &Setter{faces: faces{byName: map[string]*font.Face{}}} }}

// Get returns a setter.
func Get() *Setter { return setters.Get().(*Setter) }

// Put gives a setter back. Lines it made are used no longer.
func (s *Setter) Put() { setters.Put(s) }

// Lines breaks a paragraph, text without line ends, into lines of at most wide
// ems; a word wider than that is broken. The fonts' features are on as usual but
// for those given. The lines are good until the next call.
func (s *Setter) Lines(text []rune, wide float64, features ...shaping.FontFeature) []shaping.Line {
	s.faces.last = nil
	direction := DirectionOf(text)
	in := shaping.Input{
		Text: text, RunEnd: len(text), Direction: direction,
		Size: fixed.I(emUnits), Language: language.NewLanguage("en"),
		FontFeatures: features,
	}
	var runs []shaping.Output
	for _, part := range s.segment.Split(in, &s.faces) {
		runs = append(runs, s.shaper.Shape(part))
	}
	config := shaping.WrapConfig{Direction: direction}
	lines, _ := s.wrap.WrapParagraph(config, int(min(wide, 1000)*emUnits), text, shaping.NewSliceIterator(runs))
	return lines
}

// LeftToRight returns the runs of a line as they stand.
func LeftToRight(line shaping.Line) []*shaping.Output {
	order := make([]*shaping.Output, len(line))
	for i := range line {
		if v := int(line[i].VisualIndex); v < len(order) {
			order[v] = &line[i]
		}
	}
	out := order[:0]
	for _, run := range order {
		if run != nil {
			out = append(out, run)
		}
	}
	return out
}

// Wide returns the width of a line in ems.
func Wide(line shaping.Line) float64 {
	var long fixed.Int26_6
	for i := range line {
		long += line[i].Advance
	}
	return Ems(long)
}

// Ems returns a length of a set line in ems.
func Ems(v fixed.Int26_6) float64 { return float64(v) / 64 / emUnits }

// DirectionOf returns the direction of a paragraph: that of its first letter
// that has one (Unicode Standard Annex 9, rules P2 and P3).
func DirectionOf(text []rune) di.Direction {
	for _, r := range text {
		p, _ := bidi.LookupRune(r)
		switch p.Class() {
		case bidi.L:
			return di.DirectionLTR
		case bidi.R, bidi.AL:
			return di.DirectionRTL
		}
	}
	return di.DirectionLTR
}
