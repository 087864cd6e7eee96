package ui

import (
	"fmt"
	"image"

	"stillbeat/board"
)

const captionH = 19.0 // the row below a panel's picture

// paintPanels draws the panels in sight, hanging from the line.
func (v *timelineView) paintPanels(p pen) {
	if len(v.board.Panels) == 0 {
		p.text(max(12, v.frameX(0)+6), min(v.panelTop()+30, (v.panelTop()+v.panelBottom())/2+4), 12, false, inkSoft, "Panels hang here, as wide as they hold.")
		return
	}
	first := max(0, firstInSight(v))
	for i := first; i < len(v.board.Panels); i++ {
		x0, x1 := v.frameX(v.starts[i]), v.frameX(v.starts[i+1])
		if x0 > v.width {
			break
		}
		if x1 < 0 {
			continue
		}
		v.paintPanel(p, i, x0, x1)
	}
}

func (v *timelineView) paintPanel(p pen, i int, x0, x1 float64) {
	top, bottom := v.panelTop(), v.panelBottom()
	if x1-x0 < 4 {
		p.fill(x0, top, x1, bottom, paperDark)
		p.fill(x0, top, x0+0.5, bottom, paperEdge)
		return
	}
	l, r := x0+1, x1-1
	body, caption := paperLight, paperDark
	if v.isSelected(i) {
		body, caption = straw, straw
	}
	p.fill(l, top, r, bottom, body)
	picH := bottom - captionH - top
	picW := picH * v.board.Aspect.Ratio()
	if shot := v.film.PanelShot(i, 0); !shot.Blank() {
		w, h := p.px(picW), p.px(picH)
		if img := v.thumbs.of(v.board.Panels[i].ID, shot, w, h); img != nil && img.Rect.Size() == image.Pt(w, h) {
			p.picture(img, l, top, min(r, l+picW), picW)
		} else {
			p.fill(l, top, min(r, l+picW), top+picH, paperEdge)
		}
	} else {
		p.shape(paperDark, l+6, top+6, min(r-6, l+picW-6), top+6, min(r-6, l+picW-6), top+picH-6, l+6, top+picH-6)
	}
	p.fill(l, bottom-captionH, r, bottom, caption)
	border, w := paperEdge, 1.0
	switch {
	case i == v.chosen:
		border, w = ink, 1.8
	case v.isSelected(i):
		border, w = inkSoft, 1.6
	}
	p.frame(l, top, r, bottom, stroke(w), border)
	v.paintCaption(p, i, l, r, bottom-5.5)
}

// paintCaption writes number and hold where there is room; the title between
// them is a text object of its own, for scripts the figures' font lacks.
func (v *timelineView) paintCaption(p pen, i int, l, r, y float64) {
	number := v.numbers[i]
	nw := p.width(11.5, true, number)
	if r-l < nw+8 {
		return
	}
	p.text(l+5, y, 11.5, true, ink, number)
	hold := v.holdLabel(i)
	if hw := p.width(10.5, false, hold); r-l > nw+hw+18 {
		p.text(r-5-hw, y, 10.5, false, inkSoft, hold)
	}
}

func (v *timelineView) holdLabel(i int) string {
	return fmt.Sprintf("%d f", v.starts[i+1]-v.starts[i])
}

// titleSlot returns where the title of panel i goes: left and right edge of
// the room between number and hold.
func (v *timelineView) titleSlot(p pen, i int) (l, r float64) {
	l = max(2, v.frameX(v.starts[i])) + 1 + 5 + p.width(11.5, true, v.numbers[i]) + 7
	r = v.frameX(v.starts[i+1]) - 1 - 5 - p.width(10.5, false, v.holdLabel(i)) - 7
	return l, min(r, v.width-2)
}

// paintLine draws the line with the clips the panels hang by.
func (v *timelineView) paintLine(p pen) {
	y := v.lineY()
	p.fill(0, y-0.5, v.width, y+0.7, inkFaint)
	if len(v.board.Panels) == 0 {
		return
	}
	last := -100.0
	for i, f := range v.starts {
		x := v.frameX(f)
		if x < -10 || x > v.width+10 {
			continue
		}
		switch {
		case x-last < 2 && i != v.hover:
			continue
		case x-last < 11 && i != v.hover:
			v.paintTick(p, i, x, y)
		default:
			v.paintClip(p, i, x, y)
		}
		last = x
	}
}

// clipKind tells how a start is held.
type clipKind int

const (
	clipFixed clipKind = iota // the first panel, at frame 0
	clipBeat                  // closed, on a beat
	clipPart                  // closed, on a part of a beat
	clipFree                  // open
)

func (v *timelineView) clip(i int) clipKind { return kindOf(v.board, i) }

// kindOf tells how start i is held: of a panel, or of the end of the film.
func kindOf(b board.Board, i int) clipKind {
	if i == 0 {
		return clipFixed
	}
	s := b.End
	if i < len(b.Panels) {
		s = b.Panels[i].Start
	}
	switch {
	case !s.Anchored() || !b.OnGrid():
		return clipFree
	case s.Anchor.Part != 0:
		return clipPart
	}
	return clipBeat
}

// paintTick stands for a clip where starts are crowded: whole when closed,
// with a gap when open.
func (v *timelineView) paintTick(p pen, i int, x, y float64) {
	c := green
	if v.clip(i) == clipFree {
		c = ink
		p.fill(x, y-6, x+1.4, y-2, c)
		p.fill(x, y+2, x+1.4, y+6, c)
		return
	}
	p.fill(x, y-6, x+1.4, y+6, c)
}

// paintClip draws the clip of start i.
func (v *timelineView) paintClip(p pen, i int, x, y float64) {
	grow := 0.0
	if i == v.hover || v.drag != nil && v.drag.index == i {
		grow = 1.5
		p.fill(x-0.8, v.waveTop(), x+0.8, v.panelBottom(), dragLine)
	}
	paintSign(p, v.clip(i), x, y, grow)
	if i == len(v.board.Panels) {
		p.fill(x-0.8, y, x+0.8, v.panelBottom(), ink)
	}
}

// paintSign draws how a start is held: a closed peg in green on a beat, a
// smaller closed diamond on part of a beat, an open ring when free, a pin for
// the start of the film. It is grow units larger than usual.
func paintSign(p pen, kind clipKind, x, y, grow float64) {
	switch kind {
	case clipFixed:
		p.shape(ink, x-0.5, y-6, x+6, y, x-0.5, y+6)
	case clipBeat:
		w, h := 3.6+grow, 8.0+grow
		p.shape(green, x-w, y-h+2, x-w+1.5, y-h, x+w-1.5, y-h, x+w, y-h+2, x+w, y+h-3, x, y+h+1, x-w, y+h-3)
		p.fill(x-0.5, y-h+3, x+0.5, y+2, paperLight)
	case clipPart:
		r := 6.0 + grow
		p.shape(green, x, y-r, x+r, y, x, y+r, x-r, y)
		p.fill(x-1.2, y-1.2, x+1.2, y+1.2, paperLight)
	case clipFree:
		p.disc(x, y, 6+grow, ink)
		p.disc(x, y, 3.8+grow, paper)
	}
}

// paintDrag writes where a start being dragged would land.
func (v *timelineView) paintDrag(p pen) {
	if v.drag == nil {
		return
	}
	x, y := v.frameX(v.starts[v.drag.index]), v.waveTop()+8
	w := p.width(11.5, true, v.drag.words) + 14
	x = max(4, min(x+8, v.width-w-4))
	c := ink
	if v.drag.landing {
		c = green
	}
	p.fill(x, y, x+w, y+19, c)
	p.text(x+7, y+13.5, 11.5, true, paperLight, v.drag.words)
}

// paintCaret shows where a dragged panel would land.
func (v *timelineView) paintCaret(p pen) {
	if v.caret < 0 {
		return
	}
	x := v.frameX(v.starts[v.caret])
	p.fill(x-2, v.panelTop()-4, x+2, v.panelBottom()+2, ink)
	p.shape(ink, x-7, v.panelTop()-9, x+7, v.panelTop()-9, x, v.panelTop()-1)
}
