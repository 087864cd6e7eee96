package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stillbeat/board/plan"
)

// lineAt returns the line at y, nil for none.
func (v *planView) lineAt(y float64) *planLine {
	for k := range v.lines {
		if l := &v.lines[k]; y >= l.y && (k+1 == len(v.lines) || y < v.lines[k+1].y) {
			return l
		}
	}
	return nil
}

// scale returns how wide a minute is, and where the bars begin.
func (v *planView) scale() (x, minute float64) {
	longest := v.plan.Figures.Session
	for _, s := range v.plan.Sessions {
		longest = max(longest, s.Minutes)
	}
	x = planMargin + 30
	return x, max(40, v.width-x-planMargin-planBeside) / longest
}

// planBeside is the room for what is written beside a bar.
const planBeside = 170.0

// piecesOf calls do for each piece of a session with where it lies.
func (v *planView) piecesOf(session int, do func(piece plan.Piece, x0, x1 float64)) {
	x, minute := v.scale()
	for _, piece := range v.plan.Sessions[session].Pieces {
		w := piece.Minutes * minute
		do(piece, x, x+w)
		x += w
	}
}

// shotAt returns the shot under a place, -1 for none.
func (v *planView) shotAt(x, y float64) (shot int, piece *plan.Piece) {
	l := v.lineAt(y)
	switch {
	case l == nil:
	case l.kind == planShot:
		return l.i, nil
	case l.kind == planSession:
		shot = -1
		v.piecesOf(l.i, func(p plan.Piece, x0, x1 float64) {
			if x >= x0 && x < x1 {
				shot, piece = p.Shot, &p
			}
		})
		return shot, piece
	}
	return -1, nil
}

func (v *planView) press(x, y float64, twice bool, _ fyne.KeyModifier) bool {
	if shot, _ := v.shotAt(x, y); shot >= 0 && v.OnShot != nil {
		v.OnShot(v.plan.Shots[shot].Panels[0].Panel, twice)
	}
	return false
}

func (v *planView) drag(_, _ float64) {}

// choosePanel marks the shot of a panel and reports whether it was another.
func (v *planView) choosePanel(panel int) bool {
	was := v.chosen
	v.chosen = -1
	for i, s := range v.plan.Shots {
		if n := len(s.Panels); panel >= s.Panels[0].Panel && panel <= s.Panels[n-1].Panel {
			v.chosen = i
		}
	}
	return was != v.chosen
}

const planHint = "A click or Up and Down go to a shot; a double click or Return shows it on the timeline."

// hint says what is under the pointer.
func (v *planView) hint(x, y float64) string {
	shot, piece := v.shotAt(x, y)
	if shot < 0 {
		return planHint
	}
	s := v.plan.Shots[shot]
	name, take, minutes, setUp := s.Name, s.Take, s.Minutes, s.SetUp
	if piece != nil {
		name, take, minutes, setUp = v.plan.PieceName(*piece), piece.Take, piece.Minutes, piece.SetUp
	}
	words := fmt.Sprintf("Shot %s: %d %s, %s", name, take, plural(take, "exposure"), plan.Hours(minutes))
	if setUp > 0 {
		words += ", " + plan.Hours(setUp) + " of it set-up"
	}
	if mind := s.Mind(); mind != "" {
		words += "; " + mind
	}
	return words + "; " + v.panelWords(s) + "."
}

// panelWords says which of a shot's panels take fewer photographs than the
// sheet has.
func (v *planView) panelWords(s plan.Shot) string {
	still, again := 0, 0
	for _, p := range s.Panels {
		if p.Still {
			still++
		}
		if p.Repeats >= 0 {
			again++
		}
	}
	n := int64(len(s.Panels))
	words := fmt.Sprintf("%d %s", n, plural(n, "panel"))
	if still > 0 {
		words += fmt.Sprintf(", %d still", still)
	}
	if again > 0 {
		words += fmt.Sprintf(", %d seen before", again)
	}
	return words
}

// inSight returns the lines of which something is in sight.
func (v *planView) inSight(top float64) []planLine {
	var out []planLine
	for _, l := range v.lines {
		if l.y > top-planTitleH && l.y < top+v.height {
			out = append(out, l)
		}
	}
	return out
}
