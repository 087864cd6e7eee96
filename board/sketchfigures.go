package board

import "encoding/binary"

// The flags of a figure, above its layer.
const (
	leftBit     = 1 << 2
	nearPinBit  = 1 << 3
	farPinBit   = 1 << 4
	figureBits  = 1<<5 - 1
	leastFigure = 1 + 4 + 5 + 13 // bytes
)

// appendFigures writes the figures of a sketch.
func appendFigures(out []byte, figures []Figure) []byte {
	out = binary.AppendUvarint(out, uint64(len(figures)))
	for _, f := range figures {
		flags := byte(f.Layer)
		for bit, set := range map[byte]bool{leftBit: f.Left, nearPinBit: f.Pinned[0], farPinBit: f.Pinned[1]} {
			if set {
				flags |= bit
			}
		}
		out = append(out, flags, f.Ink.R, f.Ink.G, f.Ink.B, f.Ink.A)
		for _, v := range []int32{f.X, f.Y, f.Ground} {
			out = binary.AppendVarint(out, int64(v))
		}
		out = binary.AppendUvarint(out, uint64(f.Size))
		out = binary.AppendUvarint(out, uint64(f.Heads))
		for _, v := range f.Turns {
			out = binary.AppendVarint(out, int64(v))
		}
	}
	return out
}

// figures reads them. What they say is checked with the sketch.
func (r *sketchReader) figures() []Figure {
	n := r.count(leastFigure, MaxFigures)
	if n == 0 {
		return nil
	}
	out := make([]Figure, n)
	for i := range out {
		f, flags := &out[i], r.take(1)[0]
		if flags > figureBits {
			r.failed = true
		}
		f.Layer, f.Left = Layer(flags&layerBits), flags&leftBit != 0
		f.Pinned = [2]bool{flags&nearPinBit != 0, flags&farPinBit != 0}
		f.Ink = r.colour()
		f.X, f.Y, f.Ground = r.step(), r.step(), r.step()
		f.Size, f.Heads = int32(min(r.unsigned(), maxSketchFar)), int32(min(r.unsigned(), maxSketchFar))
		for t := range f.Turns {
			f.Turns[t] = r.step()
		}
	}
	return out
}
