package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// tint is a place in the palette. It is a colour whose value is asked of the
// look that is worn, so that what is painted or filled with it follows a
// change of look by itself. A canvas.Text keeps its picture by colour and
// does not: it is made by written.
type tint uint8

// The palette: paper, ink, one red for the playhead, one green for "on the
// beat". Everything else is a tint of paper or ink.
const (
	paper      tint = iota // the desk
	paperLight             // cards, fields
	paperDark              // bands
	paperTab               // buttons
	paperEdge              // rules and borders
	ink
	inkSoft    // words of less weight
	inkPale    // words of what cannot be done now, or is yet to be written
	inkFaint   // ticks
	straw      // what is chosen
	red        // the playhead
	green      // on the beat
	onBlank    // words on a panel without a picture, which is light in every look
	wavePeak   // the waveform's loudest moments
	waveBody   // its loudness
	barLine    // through the waveform, where a bar starts
	beatLine   // and on the other beats
	beyondVeil // over the music before and after the film
	filmStrip  // the film on the overview
	dragLine   // through the bands, under the start that is held
	hoverVeil  // over a button under the pointer
	pressedVeil
	focusVeil // over a button that has the keys
	shadowVeil
	plateVeil   // under words on a picture
	onPlate     // those words, and the dot on the beats
	maskVeil    // over what a mask leaves out
	guideLine   // safe areas and thirds
	guideEdge   // around these lines
	flashEdge   // the picture's border on a beat
	onionBefore // the panel before, in the onion
	onionAfter  // the one after
	tints       // how many there are
)

// RGBA makes a tint a color.Color.
func (t tint) RGBA() (r, g, b, a uint32) { return t.rgba().RGBA() }

// rgba is the tint in the look that is worn.
func (t tint) rgba() color.RGBA { return worn.palette[t] }

// paperTheme dresses the toolkit's widgets in the look that is worn and in the
// size of text that is set.
type paperTheme struct{ fyne.Theme }

func newPaperTheme() fyne.Theme { return paperTheme{theme.DefaultTheme()} }

// themeTints says which tint the toolkit's colours are.
var themeTints = map[fyne.ThemeColorName]tint{
	theme.ColorNameBackground:          paper,
	theme.ColorNameForeground:          ink,
	theme.ColorNamePrimary:             ink,
	theme.ColorNameHyperlink:           ink,
	theme.ColorNameForegroundOnPrimary: paperLight,
	theme.ColorNameForegroundOnError:   paperLight,
	theme.ColorNameForegroundOnSuccess: paperLight,
	theme.ColorNameForegroundOnWarning: paperLight,
	theme.ColorNameButton:              paperTab,
	theme.ColorNameDisabledButton:      paperDark,
	theme.ColorNameHeaderBackground:    paperDark,
	theme.ColorNameInputBackground:     paperLight,
	theme.ColorNameMenuBackground:      paperLight,
	theme.ColorNameOverlayBackground:   paperLight,
	theme.ColorNameInputBorder:         paperEdge,
	theme.ColorNameSeparator:           paperEdge,
	theme.ColorNameScrollBar:           paperEdge,
	theme.ColorNamePlaceHolder:         inkPale,
	theme.ColorNameDisabled:            inkPale,
	theme.ColorNameHover:               hoverVeil,
	theme.ColorNamePressed:             pressedVeil,
	theme.ColorNameFocus:               focusVeil,
	theme.ColorNameSelection:           straw,
	theme.ColorNameError:               red,
	theme.ColorNameWarning:             red,
	theme.ColorNameSuccess:             green,
	theme.ColorNameShadow:              shadowVeil,
}

// Color returns the value of now, not the tint: the toolkit keeps pictures of
// texts by it.
func (t paperTheme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if n == theme.ColorNameForeground {
		return menuInk{ink.rgba()}
	}
	if c, ok := themeTints[n]; ok {
		return c.rgba()
	}
	if n == theme.ColorNameScrollBarBackground {
		return color.Transparent
	}
	return t.Theme.Color(n, worn.variant)
}

// menuInk is ink that the toolkit's menus write keys in. They take 95 hundredths
// of its 16 bits of opacity and keep the lower 8: from a little less than all of
// it nearly all is left, from all of it a fifth.
type menuInk struct{ c color.RGBA }

// RGBA is opaque in 8 bits.
func (m menuInk) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = m.c.RGBA()
	return r, g, b, 0xffc9
}

// Size returns the toolkit's measures; those of text grow with it.
func (t paperTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return textUnits(13)
	case theme.SizeNameCaptionText:
		return textUnits(11)
	case theme.SizeNameSubHeadingText:
		return textUnits(16)
	case theme.SizeNameHeadingText:
		return textUnits(21)
	case theme.SizeNameInlineIcon:
		return textUnits(18)
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameInputBorder, theme.SizeNameSeparatorThickness:
		return t.Theme.Size(n) * float32(worn.weight)
	}
	return t.Theme.Size(n)
}
