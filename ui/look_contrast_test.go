package ui

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"stillbeat/board/picture"
)

// luminance is the relative luminance of WCAG 2.2.
func luminance(c color.RGBA) float64 {
	part := func(v uint8) float64 {
		if s := float64(v) / 255; s > 0.03928 {
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return float64(v) / 255 / 12.92
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

// contrast is the contrast ratio of WCAG 2.2, from 1 to 21.
func contrast(a, b color.RGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// over lays a veil over a colour.
func over(veil, under color.RGBA) color.RGBA {
	part := func(v, u uint8) uint8 { return v + uint8(uint32(u)*uint32(255-veil.A)/255) }
	return color.RGBA{part(veil.R, under.R), part(veil.G, under.G), part(veil.B, under.B), 255}
}

func TestContrastFormula(t *testing.T) {
	white := opaque(0xffffff)
	// Black on white is 21 by the definition; that 0x767676 is the lightest grey
	// of 4.5 on white follows from the formula.
	for grey, want := range map[uint32]float64{0x000000: 21, 0xffffff: 1, 0x767676: 4.54} {
		if got := contrast(opaque(grey), white); math.Abs(got-want) > 0.005 {
			t.Errorf("contrast of %06x and white = %.3f, want %.2f", grey, got, want)
		}
	}
}

func TestLooksCanBeRead(t *testing.T) {
	type pair struct {
		words tint
		under []tint
	}
	texts := []pair{
		{ink, []tint{paper, paperLight, paperDark, paperTab, straw}},
		{inkSoft, []tint{paper, paperLight, paperDark, straw}},
		{inkPale, []tint{paper, paperLight, paperDark, straw}},
		{paperLight, []tint{ink, green, red}},
		{red, []tint{paperLight}},
		{green, []tint{paperLight}},
	}
	signs := []pair{
		{red, []tint{paper, paperLight, paperDark}},
		{green, []tint{paper, paperLight, paperDark}},
		{ink, []tint{paper, paperLight, paperDark, straw}},
	}
	for _, l := range looks {
		t.Run(l.name, func(t *testing.T) {
			least, signs := 4.5, signs // success criterion 1.4.3
			if l.name == "high contrast" {
				least = 7 // 1.4.6
				signs = append(signs[:len(signs):len(signs)], pair{paperEdge, []tint{paper, paperLight, paperDark}})
			}
			check := func(what string, words, under color.RGBA, least float64) {
				if got := contrast(words, under); got < least {
					t.Errorf("%s: %v on %v is %.2f to 1, want %.1f", what, words, under, got, least)
				}
			}
			c := func(n tint) color.RGBA { return l.palette[n] }
			for _, p := range texts {
				for _, u := range p.under {
					check("text", c(p.words), c(u), least)
				}
			}
			for _, p := range signs {
				for _, u := range p.under {
					check("sign", c(p.words), c(u), 3) // 1.4.11
				}
			}
			check("on a blank panel", c(onBlank), picture.Blank, least)
			for _, grey := range []uint32{0x000000, 0x808080, 0xffffff} {
				check("on a plate", c(onPlate), over(c(plateVeil), opaque(grey)), least)
			}
			check("a guide within its edge", c(guideLine), over(c(guideEdge), opaque(0xffffff)), 3)
			for _, v := range []tint{hoverVeil, pressedVeil, focusVeil} {
				check("on a button", c(ink), over(c(v), c(paperTab)), least)
				check("on a strong button", c(paperLight), over(c(v), c(ink)), least)
			}
		})
	}
}

func TestEveryTintIsInEveryLook(t *testing.T) {
	for _, l := range looks {
		for n, c := range l.palette {
			if c == (color.RGBA{}) {
				t.Errorf("tint %d has no colour in %s", n, l.name)
			}
		}
	}
}

func TestKeysInMenusCanBeRead(t *testing.T) {
	w := openWindow(t)
	for _, l := range looks {
		w.wear(l, 100)
		menu := widget.NewMenu(fyne.NewMenu("", w.keys.named["Open film…"].item()))
		var keys []color.RGBA
		for _, o := range test.LaidOutObjects(menu) {
			if text, ok := o.(*canvas.Text); ok && text.Text != "Open film…" {
				keys = append(keys, color.RGBAModel.Convert(text.Color).(color.RGBA))
			}
		}
		if len(keys) < 2 {
			t.Fatalf("%s: the menu shows %d texts beside the name", l.name, len(keys))
		}
		for _, c := range keys {
			under := l.palette[paperLight]
			part := func(c, under uint8, a uint8) uint8 { return uint8(int(c) + int(under)*(255-int(a))/255) }
			shown := color.RGBA{part(c.R, under.R, c.A), part(c.G, under.G, c.A), part(c.B, under.B, c.A), 255}
			if got := contrast(shown, under); got < 4.5 {
				t.Errorf("%s: a key is %.2f to 1 against the menu, want 4.5", l.name, got)
			}
		}
	}
}
