package ui

import (
	"fmt"

	"stillbeat/board/plan"
)

const planText = 12.0

// paint draws the part of the plan in sight from top on.
func (v *planView) paint(p pen, top float64) {
	p.fill(0, 0, v.width+wallBarW, v.height, paper)
	if len(v.board.Panels) == 0 {
		words := "No panels yet. What it takes to shoot the film will stand here."
		w := p.width(14, false, words)
		p.text(max(8, (v.width-w)/2), v.height/2, 14, false, inkSoft, words)
		return
	}
	for _, l := range v.inSight(top) {
		y := l.y - top
		switch l.kind {
		case planTitle:
			p.fill(planMargin, y+planTitleH-6, v.width-planMargin, y+planTitleH-5, paperEdge)
		case planSession:
			v.paintSession(p, l.i, y)
		case planShot:
			if l.i == v.chosen {
				p.fill(planMargin-6, y, v.width-planMargin+6, y+planShotH-1, straw)
			}
			p.fill(planMargin, y+planShotH-1, v.width-planMargin, y+planShotH-1+stroke(0.5), paperEdge)
		}
	}
	for _, t := range v.allWords(p, top, nil) {
		if isLatin(t.s) {
			p.text(t.x, t.y, t.size, t.bold, t.c, p.shortened(t.s, t.size, t.bold, t.w))
		}
	}
}

// paintSession draws a session as a bar of its length: a piece for each shot,
// its set-up in another shade, and a line where the session should end.
func (v *planView) paintSession(p pen, session int, y float64) {
	v.piecesOf(session, func(piece plan.Piece, x0, x1 float64) {
		ground := paperTab
		if piece.Shot == v.chosen {
			ground = straw
		}
		p.fill(x0, y+3, x1, y+25, ground)
		if piece.Minutes > 0 {
			p.fill(x0, y+3, x0+(x1-x0)*min(1, piece.SetUp/piece.Minutes), y+25, paperEdge)
		}
		p.frame(x0, y+3, max(x1, x0+1), y+25, 1, inkFaint)
		if piece.Shot == v.chosen {
			p.frame(x0, y+3, max(x1, x0+1), y+25, 2, ink)
		}
	})
	x, minute := v.scale()
	x += v.plan.Figures.Session * minute
	p.fill(x, y, x+1.5, y+planSessionH-2, inkSoft)
}

// words are those in sight that are not painted.
func (v *planView) words(p pen, top float64, out []wallText) []wallText {
	for _, t := range v.allWords(p, top, nil) {
		if !isLatin(t.s) {
			out = append(out, t)
		}
	}
	return out
}

// allWords appends all words in sight.
func (v *planView) allWords(p pen, top float64, out []wallText) []wallText {
	if len(v.board.Panels) == 0 {
		return out
	}
	for _, l := range v.inSight(top) {
		y, room := l.y-top, v.width-2*planMargin
		switch l.kind {
		case planTitle:
			w := p.width(15, true, l.a)
			out = append(out, wallText{planMargin, y + 24, w + 1, 15, true, ink, l.a},
				wallText{planMargin + w + 10, y + 24, max(0, room-w-10), 11, false, inkSoft, l.b})
		case planWords:
			out = append(out, wallText{planMargin, y + 14, room, planText, false, ink, l.a})
		case planPair:
			out = append(out, wallText{planMargin, y + 14, 125, planText, false, inkSoft, l.a},
				wallText{planMargin + 130, y + 14, max(0, room-130), planText, false, ink, l.b})
		case planSession:
			out = v.sessionWords(p, l.i, y, out)
		case planHead:
			out = v.cellWords(p, y, 10.5, inkSoft, [7]string{"shot", "heading", "mind", "exposures", "on the sheet", "time", "session"}, out)
		case planShot:
			s, in := v.plan.Shots[l.i], "none"
			if n, ok := v.in[l.i]; ok {
				in = fmt.Sprint(n + 1)
			}
			out = v.cellWords(p, y, planText, ink, [7]string{s.Name, s.Heading, s.Mind(),
				fmt.Sprint(s.Take), fmt.Sprint(s.OnSheet), plan.Hours(s.Minutes), in}, out)
		}
	}
	return out
}

// sessionWords names a session, the shots on its bar that have room, and what
// it comes to.
func (v *planView) sessionWords(p pen, session int, y float64, out []wallText) []wallText {
	number := fmt.Sprint(session + 1)
	x, minute := v.scale()
	out = append(out, wallText{x - 8 - p.width(planText, true, number), y + 18, 60, planText, true, ink, number})
	v.piecesOf(session, func(piece plan.Piece, x0, x1 float64) {
		for _, name := range []string{"shot " + v.plan.PieceName(piece), v.plan.PieceName(piece), v.plan.Shots[piece.Shot].Name} {
			if w := p.width(11, false, name); w <= x1-x0-8 {
				out = append(out, wallText{x0 + 5, y + 18, w + 1, 11, false, ink, name})
				return
			}
		}
	})
	s := v.plan.Sessions[session]
	end := x + max(v.plan.Figures.Session, s.Minutes)*minute + 8
	words := fmt.Sprintf("%s · %d %s", plan.Hours(s.Minutes), s.Take, plural(s.Take, "exposure"))
	return append(out, wallText{end, y + 18, max(0, v.width-planMargin-end), 11, false, inkSoft, words})
}

// cellWords writes a row of the shots: words from the left, figures at the
// right edges of their columns.
func (v *planView) cellWords(p pen, y, size float64, c tint, cells [7]string, out []wallText) []wallText {
	right := v.width - planMargin
	edges := [7]float64{3: right - 220, 4: right - 140, 5: right - 55, 6: right}
	room := right - 220 - 70 - planMargin - 60
	at := [3]float64{planMargin, planMargin + 62, planMargin + 62 + room*0.55}
	wide := [3]float64{56, room*0.55 - 8, room * 0.45}
	for k, s := range cells {
		if s == "" {
			continue
		}
		if k < 3 {
			out = append(out, wallText{at[k], y + 14, max(0, wide[k]), size, k == 0, c, s})
			continue
		}
		w := p.width(size, false, s)
		out = append(out, wallText{edges[k] - w, y + 14, w + 1, size, false, c, s})
	}
	return out
}
