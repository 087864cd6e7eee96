package board

import (
	"encoding/binary"
	"errors"
	"fmt"
	"image/color"
)

// A sketch in bytes:
//
//	"StlbSk"               what it is
//	version                1 byte: 1, or 2 with figures
//	R G B A                the paper, straight alpha
//	count                  of strokes
//	strokes:
//	    flags              1 byte: bits 0-1 layer, 2 smooth, 3 closed, 4 filled, 5 erases
//	    R G B A            the ink, straight alpha
//	    width              in units
//	    count              of dots
//	    dots: dx dy wide   from the dot before (the first from the origin); wide is 1 byte
//
// and in version 2, which has at least one,
//
//	count                  of figures
//	figures:
//	    flags              1 byte: bits 0-1 layer, 2 looks to the left, 3 and 4 near and far foot pinned
//	    R G B A            the ink, straight alpha
//	    x y ground         of the hips, and the line it stands on
//	    size heads         in units, and in hundredths
//	    turns              13, in thousandths of a degree, in the order of package figure
//
// Counts, widths, sizes and heads are unsigned, all others signed integers in base 128, least
// significant group first and the signed ones zigzag, as in encoding/binary,
// each as short as it can be. A sketch has one form in bytes only, so that
// equal sketches are stored once.
const sketchMark = "StlbSk"

// ErrSketch is wrapped when bytes are not a sketch.
var ErrSketch = errors.New("not a sketch")

// The least that a stroke and a dot take in bytes: counts that ask for more
// than the file can hold are refused before anything is made of them.
const (
	leastStroke = 1 + 4 + 1 + 1 + leastDot
	leastDot    = 3
)

// EncodeSketch returns the sketch in bytes.
func EncodeSketch(s Sketch) ([]byte, error) {
	if err := s.check(); err != nil {
		return nil, fmt.Errorf("the sketch: %w", err)
	}
	version := byte(1)
	if len(s.Figures) > 0 {
		version = 2
	}
	out := append([]byte(sketchMark), version, s.Paper.R, s.Paper.G, s.Paper.B, s.Paper.A)
	out = binary.AppendUvarint(out, uint64(len(s.Strokes)))
	for _, k := range s.Strokes {
		out = append(out, k.flags(), k.Ink.R, k.Ink.G, k.Ink.B, k.Ink.A)
		out = binary.AppendUvarint(out, uint64(k.Width))
		out = binary.AppendUvarint(out, uint64(len(k.Dots)))
		var last Dot
		for _, d := range k.Dots {
			out = binary.AppendVarint(out, int64(d.X-last.X))
			out = binary.AppendVarint(out, int64(d.Y-last.Y))
			out, last = append(out, d.Wide), d
		}
	}
	if version == 2 {
		out = appendFigures(out, s.Figures)
	}
	return out, nil
}

// The flags of a stroke, above its layer.
const (
	layerBits = 1<<2 - 1
	smoothBit = 1 << 2
	closedBit = 1 << 3
	filledBit = 1 << 4
	erasesBit = 1 << 5
	allBits   = 1<<6 - 1
)

func (k Stroke) flags() byte {
	f := byte(k.Layer)
	for bit, set := range map[byte]bool{smoothBit: k.Smooth, closedBit: k.Closed, filledBit: k.Filled, erasesBit: k.Erases} {
		if set {
			f |= bit
		}
	}
	return f
}

// DecodeSketch reads a sketch. It takes memory for a small multiple of the
// bytes at most; ErrSketch is what other bytes give.
func DecodeSketch(data []byte) (Sketch, error) {
	r := sketchReader{rest: data}
	if string(r.take(len(sketchMark))) != sketchMark {
		return Sketch{}, ErrSketch
	}
	version := r.take(1)[0]
	s := Sketch{Paper: r.colour()}
	if n := r.count(leastStroke, MaxStrokes); n > 0 {
		s.Strokes = make([]Stroke, n)
	}
	dots := 0
	for i := range s.Strokes {
		r.stroke(&s.Strokes[i])
		if dots += len(s.Strokes[i].Dots); r.failed || dots > MaxDots {
			return Sketch{}, fmt.Errorf("%w: it is damaged", ErrSketch)
		}
	}
	if version == 2 {
		s.Figures = r.figures()
	}
	if r.failed || len(r.rest) > 0 || version != 1 && len(s.Figures) == 0 {
		return Sketch{}, fmt.Errorf("%w: it is damaged", ErrSketch)
	}
	if err := s.check(); err != nil {
		return Sketch{}, fmt.Errorf("%w: %w", ErrSketch, err)
	}
	return s, nil
}

// sketchReader takes a sketch apart. After the first thing that is wrong it
// has failed and gives zeros.
type sketchReader struct {
	rest   []byte
	failed bool
}

func (r *sketchReader) take(n int) []byte {
	if len(r.rest) < n {
		r.failed, r.rest = true, nil
		return make([]byte, n)
	}
	out := r.rest[:n]
	r.rest = r.rest[n:]
	return out
}

func (r *sketchReader) colour() color.NRGBA {
	b := r.take(4)
	return color.NRGBA{b[0], b[1], b[2], b[3]}
}

func (r *sketchReader) unsigned() uint64 {
	v, n := binary.Uvarint(r.rest)
	if n <= 0 || n > 1 && r.rest[n-1] == 0 { // a last group of 0 makes it longer for nothing
		r.failed, r.rest = true, nil
		return 0
	}
	r.rest = r.rest[n:]
	return v
}

// step reads a signed integer, small enough that adding it to a place in the
// sketch fits 32 bits.
func (r *sketchReader) step() int32 {
	u := r.unsigned()
	if u > 4*maxSketchFar+1 {
		r.failed = true
		return 0
	}
	return int32(u>>1) ^ -int32(u&1)
}

// count reads how many of something follow that takes least bytes each.
func (r *sketchReader) count(least, most int) int {
	n := r.unsigned()
	if n > uint64(most) || n > uint64(len(r.rest)/least) {
		r.failed = true
		return 0
	}
	return int(n)
}

func (r *sketchReader) stroke(k *Stroke) {
	f := r.take(1)[0]
	if f > allBits {
		r.failed = true
	}
	k.Layer, k.Smooth, k.Closed = Layer(f&layerBits), f&smoothBit != 0, f&closedBit != 0
	k.Filled, k.Erases = f&filledBit != 0, f&erasesBit != 0
	k.Ink = r.colour()
	if w := r.unsigned(); w <= maxSketchWide {
		k.Width = int32(w)
	} else {
		r.failed = true
	}
	n := r.count(leastDot, MaxDots)
	if r.failed {
		return
	}
	k.Dots = make([]Dot, n)
	var at Dot
	for i := range k.Dots {
		at.X += r.step()
		at.Y += r.step()
		at.Wide = r.take(1)[0]
		if r.failed || max(at.X, -at.X, at.Y, -at.Y) > maxSketchFar {
			r.failed = true
			return
		}
		k.Dots[i] = at
	}
}
