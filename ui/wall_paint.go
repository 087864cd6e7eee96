package ui

import "image"

// paint draws the part of the wall in sight at scale pixels a unit; what is
// written in scripts the figures' font lacks is not drawn: the renderer puts
// text objects there.
func (v *wallView) paint(img *image.RGBA, scale float64) {
	p := pen{img, scale}
	v.thumbs.begin()
	s, rows := v.size(), v.inSight()
	v.paintBare(p, rows, s)
	for k := len(rows) - 1; k >= 0; k-- {
		if r := rows[k]; !r.heading {
			v.paintCards(p, r, s)
		} else {
			y := r.top - v.scroll + wallSceneH - 5
			p.fill(s.left, y, v.width-wallMargin-wallBarW, y+1, paperEdge)
		}
	}
	v.texts = v.words(p, v.texts[:0])
	for _, t := range v.texts {
		if isLatin(t.s) {
			p.text(t.x, t.y, t.size, t.bold, t.c, p.shortened(t.s, t.size, t.bold, t.w))
		}
	}
	v.paintCaret(p, s)
	v.paintCarried(p)
	v.paintBar(p)
}

// paintBare paints the wall around the cards, not under them: they cover most
// of it.
func (v *wallView) paintBare(p pen, rows []wallRow, s wallSize) {
	y := 0.0
	for _, r := range rows {
		if r.heading {
			continue
		}
		top := r.top - v.scroll + s.above
		p.fill(0, y, v.width, top, paper)
		y = top + s.pic + s.caption
		p.fill(0, top, s.left, y, paper)
		for k := range r.to - r.from {
			x := s.left + float64(k)*s.pitch() + s.w
			if r.from+k+1 < r.to {
				p.fill(x, top, x+s.gap, y, paper)
			} else {
				p.fill(x, top, v.width, y, paper)
			}
		}
	}
	if y < v.height {
		p.fill(0, y, v.width, v.height, paper)
	}
}

// inSight returns the rows of which something is in sight.
func (v *wallView) inSight() []wallRow {
	a := v.firstRow(v.scroll)
	b := a
	for b < len(v.rows) && v.rows[b].top < v.scroll+v.height {
		b++
	}
	return v.rows[a:b]
}

// paintCards draws a row: cards, and over them the brackets of the shots. Of
// pictures that are not ready the one asked for last comes first: cards are
// drawn from the last to the first.
func (v *wallView) paintCards(p pen, r wallRow, s wallSize) {
	top := r.top - v.scroll + s.above
	if s.strip > 0 {
		for _, b := range v.brackets(r, s) {
			y := top - s.above + 1
			p.fill(b.x0, y, b.x1, y+1, inkSoft)
			if b.begins {
				p.fill(b.x0, y, b.x0+1.4, y+s.strip-2, inkSoft)
			}
			if b.ends {
				p.fill(b.x1-1.4, y, b.x1, y+5, inkSoft)
			}
		}
	}
	for pos := r.to - 1; pos >= r.from; pos-- {
		v.paintCard(p, v.order[pos], s.left+float64(pos-r.from)*s.pitch(), top, s)
	}
}

// paintCaret shows between which cards those carried would land.
func (v *wallView) paintCaret(p pen, s wallSize) {
	if v.caret.before < 0 {
		return
	}
	x, y := v.card(v.caret.pos)
	x, y = x-s.gap/2, y-v.scroll
	if v.caret.after {
		x += s.pitch()
	}
	w := min(2, s.gap/2)
	p.fill(x-w, y-4, x+w, y+s.pic+s.caption+2, ink)
	p.shape(ink, x-7, y-9, x+7, y-9, x, y)
}

// paintCarried says at the pointer what is being carried.
func (v *wallView) paintCarried(p pen) {
	if len(v.carried.panels) == 0 {
		return
	}
	words := v.carriedWords()
	w := p.width(11.5, true, words) + 16
	x := max(2, min(v.carried.x+12, v.width-w-2))
	y := max(2, min(v.carried.y+12, v.height-24))
	p.fill(x, y, x+w, y+21, ink)
	p.fill(x+1, y+1, x+w-1, y+20, straw)
	p.text(x+8, y+14.5, 11.5, true, ink, words)
}

// paintBar shows, at the right, which part of the wall is in sight.
func (v *wallView) paintBar(p pen) {
	if v.end <= v.height {
		return
	}
	x := v.width - wallBarW
	p.fill(x, 0, v.width, v.height, paperDark)
	top, h := v.bar()
	p.fill(x+3, top+2, v.width-3, top+h-2, inkFaint)
}

// bar returns top and height of the handle on the strip at the right.
func (v *wallView) bar() (top, h float64) {
	h = max(24, v.height*v.height/v.end)
	return v.scroll / (v.end - v.height) * (v.height - h), h
}

// barTo scrolls so that the handle's middle is at y.
func (v *wallView) barTo(y float64) {
	_, h := v.bar()
	v.scrollTo((y - h/2) / max(1, v.height-h) * (v.end - v.height))
}
