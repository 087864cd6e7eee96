package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// The palette: warm paper, ink, one red for the playhead, one green for "on
// the beat". Everything else is a tint of paper or ink.
var (
	paper      = color.RGBA{0xf3, 0xec, 0xdd, 0xff} // the desk
	paperLight = color.RGBA{0xfb, 0xf7, 0xec, 0xff} // cards, fields
	paperDark  = color.RGBA{0xe6, 0xdc, 0xc6, 0xff} // bands
	paperTab   = color.RGBA{0xd9, 0xcb, 0xac, 0xff} // buttons
	paperEdge  = color.RGBA{0xcd, 0xc0, 0xa6, 0xff} // rules and borders
	ink        = color.RGBA{0x2b, 0x26, 0x22, 0xff}
	inkSoft    = color.RGBA{0x5f, 0x56, 0x4b, 0xff} // words of less weight
	inkFaint   = color.RGBA{0x9a, 0x8e, 0x7c, 0xff} // ticks, waveform
	straw      = color.RGBA{0xf0, 0xda, 0x9c, 0xff} // what is chosen
	red        = color.RGBA{0xc2, 0x3b, 0x2e, 0xff} // the playhead
	green      = color.RGBA{0x2f, 0x7a, 0x4d, 0xff} // on the beat
)

// paperTheme dresses the window in the palette.
type paperTheme struct{ fyne.Theme }

func newPaperTheme() fyne.Theme { return paperTheme{theme.DefaultTheme()} }

func (t paperTheme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	switch n {
	case theme.ColorNameBackground:
		return paper
	case theme.ColorNameForeground, theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return ink
	case theme.ColorNameForegroundOnPrimary, theme.ColorNameForegroundOnError,
		theme.ColorNameForegroundOnSuccess, theme.ColorNameForegroundOnWarning:
		return paperLight
	case theme.ColorNameButton:
		return paperTab
	case theme.ColorNameDisabledButton, theme.ColorNameHeaderBackground:
		return paperDark
	case theme.ColorNameInputBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground:
		return paperLight
	case theme.ColorNameInputBorder, theme.ColorNameSeparator, theme.ColorNameScrollBar:
		return paperEdge
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return inkFaint
	case theme.ColorNameHover:
		return color.NRGBA{0x2b, 0x26, 0x22, 0x12}
	case theme.ColorNamePressed:
		return color.NRGBA{0x2b, 0x26, 0x22, 0x28}
	case theme.ColorNameFocus:
		return color.NRGBA{0xd9, 0xa0, 0x28, 0x78}
	case theme.ColorNameSelection:
		return straw
	case theme.ColorNameError, theme.ColorNameWarning:
		return red
	case theme.ColorNameSuccess:
		return green
	case theme.ColorNameScrollBarBackground:
		return color.Transparent
	case theme.ColorNameShadow:
		return color.NRGBA{0x2b, 0x26, 0x22, 0x44}
	}
	return t.Theme.Color(n, theme.VariantLight)
}

func (t paperTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameSubHeadingText:
		return 16
	case theme.SizeNameHeadingText:
		return 21
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameInlineIcon:
		return 18
	}
	return t.Theme.Size(n)
}
