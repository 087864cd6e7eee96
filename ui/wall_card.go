package ui

import (
	"image"
	"image/draw"
	"math"

	"stillbeat/board"
)

func (v *wallView) paintCard(p pen, i int, x, y float64, s wallSize) {
	bottom, right := y+s.pic+s.caption, x+s.w
	body := paperLight
	faded := v.faded(i)
	if v.isSelected(i) {
		body = straw
	} else if faded {
		body = paper
	}
	p.fill(x, y+s.pic-3/p.scale, right, bottom, body)
	v.paintPicture(p, i, x, y, s, body)
	v.paintMarks(p, i, x, y, s)
	v.paintRemarked(p, i, x, y, s)
	if faded {
		p.fade(x, y, right, y+s.pic)
	}
	border, w := paperEdge, 1.0
	switch {
	case i == v.chosen:
		border, w = ink, 2
	case v.isSelected(i):
		border, w = inkSoft, 1.8
	}
	p.frame(x, y, right, bottom, w, border)
	v.paintFigures(p, i, x, y+s.pic, s)
	if !faded {
		v.paintSign(p, kindOf(v.board, i), x, y, s)
	}
}

// wallSign is a sign of a start as drawn already.
type wallSign struct {
	kind        clipKind
	grow, scale float64
}

// paintSign draws how a start is held, over the upper left corner of a card.
func (v *wallView) paintSign(p pen, kind clipKind, x, y float64, s wallSize) {
	grow, x := 0.0, x+11
	if s.lines < 2 {
		grow, x = -2, x-5
	}
	const r = 11 // room around its middle
	key := wallSign{kind, grow, p.scale}
	sign := v.signs[key]
	if sign == nil {
		side := p.px(2 * r)
		sign = image.NewRGBA(image.Rect(0, 0, side, side))
		paintSign(pen{sign, p.scale}, kind, r, r, grow)
		sign = sign.SubImage(drawn(sign)).(*image.RGBA)
		v.signs[key] = sign
	}
	draw.Draw(p.img, sign.Rect.Add(image.Pt(p.px(x-r), p.px(y-r))), sign, sign.Rect.Min, draw.Over)
}

// paintPicture draws the picture of panel i: while it is not ready, the one of
// another size that was there before.
func (v *wallView) paintPicture(p pen, i int, x, y float64, s wallSize, body tint) {
	shot := v.film.PanelShot(i, 0)
	if shot.Blank() {
		p.fill(x, y, x+s.w, y+s.pic, paperLight)
		in := min(6, s.w/10)
		p.fill(x+in, y+in, x+s.w-in, y+s.pic-in, paperDark)
		return
	}
	w := int(s.w*p.scale) &^ 3
	h := int(math.Round(float64(w) / v.board.Aspect.Ratio()))
	if over := float64(w) / p.scale; over < s.w {
		p.fill(x+over, y, x+s.w, y+s.pic, body)
	}
	at := image.Rect(0, 0, w, h).Add(image.Pt(p.px(x), p.px(y)))
	img := v.thumbs.of(v.board.Panels[i].ID, shot, w, h)
	if img == nil {
		p.fill(x, y, x+s.w, y+s.pic, paperEdge)
		return
	}
	stretch(p.img, at, img)
}

// paintFigures writes number and hold under the picture.
func (v *wallView) paintFigures(p pen, i int, x, y float64, s wallSize) {
	c, soft := v.inks(i)
	size, base, air := 11.5, 13.5, 6.0
	switch s.lines {
	case 0:
		size, base, air = 9, 9.5, 3
	case 1:
		size, base, air = 10.5, 12.5, 4
	}
	number := v.numbers[i]
	nw := p.width(size, true, number)
	if nw+2*air > s.w {
		return
	}
	p.text(x+air, y+base, size, true, c, number)
	for _, hold := range v.holdLabels(i) {
		if hw := p.width(size-1, false, hold); s.lines > 0 && nw+hw+3*air < s.w {
			p.text(x+s.w-air-hw, y+base, size-1, false, soft, hold)
			return
		}
	}
}

// inks returns the colours of what is written on the card of panel i.
func (v *wallView) inks(i int) (strong, soft tint) {
	if v.faded(i) && !v.isSelected(i) {
		return inkFaint, inkFaint
	}
	return ink, inkSoft
}

// paintMarks draws a tag for each mark of panel i on its picture, or a folded
// corner where there is no room for tags.
func (v *wallView) paintMarks(p pen, i int, x, y float64, s wallSize) {
	marks := v.board.Panels[i].Marks
	if marks == (board.Marks{}) {
		return
	}
	right := x + s.w
	if s.lines == 0 {
		p.shape(ink, right-9, y, right, y, right, y+9)
		return
	}
	right -= 4
	for k := len(markNames) - 1; k >= 0; k-- {
		m := markNames[k]
		if !m.on(marks) {
			continue
		}
		words := m.short
		if s.w >= 130 {
			words = m.name
		}
		left := right - p.width(9.5, true, words) - 7
		p.fill(left, y+4, right, y+17, ink)
		p.fill(left+1, y+5, right-1, y+16, paperLight)
		p.text(left+3.5, y+13.8, 9.5, true, ink, words)
		right = left - 3
	}
}
