package demo

import (
	"image/color"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// The colours of the film: few, muted, the same in every picture.
var (
	inkBrown   = ink.RGB(0x2f2723)
	wallUpper  = ink.RGB(0xe4d4af)
	wallLower  = ink.RGB(0xcdb88d)
	tableWood  = ink.RGB(0xc99660)
	tableGrain = ink.RGB(0xa9743f)
	frameWhite = ink.RGB(0xf3e8d0)
	teal       = ink.RGB(0x5b8a8c)
	tealPale   = ink.RGB(0xa9c4b8)
	cream      = ink.RGB(0xf6ecd6)
	creamDeep  = ink.RGB(0xdccdb0)
	terracotta = ink.RGB(0xc6704f)
	rose       = ink.RGB(0xd08c78)
	mustard    = ink.RGB(0xdcaa4b)
	steel      = ink.RGB(0xb9bdb8)
	steelDark  = ink.RGB(0x868c8b)
	olive      = ink.RGB(0x7d8559)
	tea        = ink.RGB(0xb0652f)
	teaLight   = ink.RGB(0xcf8a47)
	sugarWhite = ink.RGB(0xfdf8ec)
	bulbWarm   = ink.RGB(0xffe9a8)
	pencilBlue = ink.RGB(0x31688f)
)

// afternoon is the light of the whole film but its last picture.
var afternoon = stage.Light{
	Ray:    stage.Vec{X: 1, Y: -0.95, Z: 0.32},
	Shadow: ink.RGB(0xa98a78),
	Shade:  ink.RGB(0xbfa99d),
	Ink:    inkBrown,
}

// lamplight falls from the lamp in the last picture.
var lamplight = stage.Light{
	Ray:    stage.Vec{X: -0.35, Y: -1, Z: -0.2},
	Shadow: ink.RGB(0x8d7468),
	Shade:  ink.RGB(0xb09a94),
	Ink:    inkBrown,
}

// darker and lighter are shades of one pigment.
func darker(c color.RGBA, t float64) color.RGBA  { return ink.Mix(c, inkBrown, t) }
func lighter(c color.RGBA, t float64) color.RGBA { return ink.Mix(c, frameWhite, t) }
