package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// look is a dress of the whole window.
type look struct {
	name    string
	weight  float64           // of borders, 1 is thin
	variant fyne.ThemeVariant // of the toolkit's few colours that are not ours
	palette [tints]color.RGBA
}

// The looks. Each keeps text at least at 4.5 to 1 against what is under it,
// high contrast at 7 to 1: the two levels of WCAG 2.2, success criteria 1.4.3
// and 1.4.6.
var looks = []*look{{
	name: "paper", weight: 1, variant: theme.VariantLight,
	palette: [tints]color.RGBA{
		paper: opaque(0xf3ecdd), paperLight: opaque(0xfbf7ec), paperDark: opaque(0xe6dcc6), paperTab: opaque(0xd9cbac), paperEdge: opaque(0xcdc0a6),
		ink: opaque(0x2b2622), inkSoft: opaque(0x5f564b), inkPale: opaque(0x675c4e), inkFaint: opaque(0x9a8e7c),
		straw: opaque(0xf0da9c), red: opaque(0xc23b2e), green: opaque(0x2f7a4d), onBlank: opaque(0x5f564b),
		wavePeak: opaque(0xd8ccb4), waveBody: opaque(0xb1a38a), filmStrip: opaque(0xd3c6aa),
		barLine: veil(0x2b2622, 0x48), beatLine: veil(0x2b2622, 0x1c), beyondVeil: veil(0xe9dfcd, 0x99), dragLine: veil(0x2b2622, 0x60),
		hoverVeil: veil(0x2b2622, 0x12), pressedVeil: veil(0x2b2622, 0x28), focusVeil: veil(0xd9a028, 0x78), shadowVeil: veil(0x2b2622, 0x44),
		plateVeil: veil(0x14110e, 0xcc), onPlate: opaque(0xfffaf0), maskVeil: veil(0x0c0a08, 0xd0), guideLine: opaque(0xfffaf0), guideEdge: veil(0x14110e, 0xa0),
		flashEdge: veil(0xe88a00, 0xf0), onionBefore: opaque(0xc23b2e), onionAfter: opaque(0x1f5f8f),
	},
}, {
	name: "dark", weight: 1, variant: theme.VariantDark,
	palette: [tints]color.RGBA{
		paper: opaque(0x26231f), paperLight: opaque(0x2f2b26), paperDark: opaque(0x1d1a17), paperTab: opaque(0x48413a), paperEdge: opaque(0x544c43),
		ink: opaque(0xefe7d8), inkSoft: opaque(0xc6bcab), inkPale: opaque(0xada290), inkFaint: opaque(0x8b8072),
		straw: opaque(0x453711), red: opaque(0xff8170), green: opaque(0x6cc58f), onBlank: opaque(0x5f564b),
		wavePeak: opaque(0x4d463d), waveBody: opaque(0x7a6f61), filmStrip: opaque(0x4a433a),
		barLine: veil(0xefe7d8, 0x48), beatLine: veil(0xefe7d8, 0x1c), beyondVeil: veil(0x12100e, 0x99), dragLine: veil(0xefe7d8, 0x60),
		hoverVeil: veil(0xefe7d8, 0x14), pressedVeil: veil(0xefe7d8, 0x28), focusVeil: veil(0xd9a028, 0x50), shadowVeil: veil(0x000000, 0x88),
		plateVeil: veil(0x14110e, 0xcc), onPlate: opaque(0xfffaf0), maskVeil: veil(0x0c0a08, 0xd0), guideLine: opaque(0xfffaf0), guideEdge: veil(0x14110e, 0xa0),
		flashEdge: veil(0xe88a00, 0xf0), onionBefore: opaque(0xc23b2e), onionAfter: opaque(0x1f5f8f),
	},
}, {
	name: "high contrast", weight: 2, variant: theme.VariantLight,
	palette: [tints]color.RGBA{
		paper: opaque(0xffffff), paperLight: opaque(0xffffff), paperDark: opaque(0xececec), paperTab: opaque(0xd4d4d4), paperEdge: opaque(0x000000),
		ink: opaque(0x000000), inkSoft: opaque(0x1c1c1c), inkPale: opaque(0x333333), inkFaint: opaque(0x404040),
		straw: opaque(0xffe36b), red: opaque(0x930c00), green: opaque(0x004d1c), onBlank: opaque(0x000000),
		wavePeak: opaque(0x9a9a9a), waveBody: opaque(0x4a4a4a), filmStrip: opaque(0xbdbdbd),
		barLine: veil(0x000000, 0x90), beatLine: veil(0x000000, 0x50), beyondVeil: veil(0xb0b0b0, 0xb0), dragLine: veil(0x000000, 0x90),
		hoverVeil: veil(0x000000, 0x18), pressedVeil: veil(0x000000, 0x2e), focusVeil: veil(0xe08700, 0x8c), shadowVeil: veil(0x000000, 0x88),
		plateVeil: veil(0x14110e, 0xff), onPlate: opaque(0xfffaf0), maskVeil: veil(0x0c0a08, 0xff), guideLine: opaque(0xfffaf0), guideEdge: veil(0x14110e, 0xff),
		flashEdge: veil(0xe88a00, 0xf0), onionBefore: opaque(0xc23b2e), onionAfter: opaque(0x1f5f8f),
	},
}}

// worn is the look that is worn. It belongs to the window's goroutine.
var worn = looks[0]

// lookNamed returns the look of a name, paper for one that is not known.
func lookNamed(name string) *look {
	for _, l := range looks {
		if l.name == name {
			return l
		}
	}
	return looks[0]
}

// stroke is the width of a line that is w wide where borders are thin.
func stroke(w float64) float64 { return w * worn.weight }

// opaque is a colour from 0xRRGGBB.
func opaque(rgb uint32) color.RGBA { return veil(rgb, 0xff) }

// veil is a colour from 0xRRGGBB that lets through what is under it.
func veil(rgb uint32, alpha uint8) color.RGBA {
	part := func(shift uint) uint8 { return uint8((rgb >> shift & 0xff) * uint32(alpha) / 0xff) }
	return color.RGBA{part(16), part(8), part(0), alpha}
}
