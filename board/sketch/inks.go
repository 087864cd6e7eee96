package sketch

import (
	"image/color"

	"stillbeat/board"
)

// Named is a colour to draw with or on.
type Named struct {
	Name   string
	Colour color.NRGBA
}

// Inks are those a pen can have, from dark to light; the last one lets through
// what is under it, to shade with.
var Inks = []Named{
	{"soot", color.NRGBA{0x2b, 0x26, 0x22, 0xff}},
	{"umber", color.NRGBA{0x6b, 0x4a, 0x32, 0xff}},
	{"brick", color.NRGBA{0xb0, 0x43, 0x2f, 0xff}},
	{"ochre", color.NRGBA{0xc9, 0x8a, 0x2b, 0xff}},
	{"moss", color.NRGBA{0x5f, 0x73, 0x44, 0xff}},
	{"slate", color.NRGBA{0x47, 0x61, 0x6f, 0xff}},
	{"chalk", color.NRGBA{0xfb, 0xf7, 0xec, 0xff}},
	{"shade", color.NRGBA{0x2b, 0x26, 0x22, 0x50}},
}

// Papers are what a panel without a photograph is drawn on. The first is the
// blank card.
var Papers = []Named{
	{"blank card", color.NRGBA{}},
	{"cream", color.NRGBA{0xf4, 0xea, 0xd2, 0xff}},
	{"wrapping paper", color.NRGBA{0xcb, 0xae, 0x84, 0xff}},
	{"dusk", color.NRGBA{0x8d, 0x97, 0xa0, 0xff}},
	{"night", color.NRGBA{0x2c, 0x2f, 0x38, 0xff}},
}

// Widths of a pen, in units: from the finest line to a broad one.
var Widths = []int32{board.SketchUnit / 360, board.SketchUnit / 180, board.SketchUnit / 80, board.SketchUnit / 36, board.SketchUnit / 16}
