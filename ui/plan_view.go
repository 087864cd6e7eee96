package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/plan"
)

// planView is the plan of the shoot below one another: what is to be seen to,
// sessions as bars, shots, what all of it takes, cautions. It is plain data,
// painted without a window and tested so. Places are in units of text.
type planView struct {
	OnShot func(panel int, open bool) // a shot was clicked, or clicked twice

	width, height float64
	board         board.Board
	numbers       []string
	plan          plan.Plan
	trouble       string // why there is no plan
	in            map[int]int
	found         []plan.Finding
	chosen        int // shot, -1 none
	lines         []planLine
	end           float64
}

// planLine is a line of the plan.
type planLine struct {
	kind planKind
	y    float64
	i    int    // session, or shot
	a, b string // words
}

type planKind int

const (
	planTitle planKind = iota
	planWords          // a in full
	planPair           // a and what it is
	planSession
	planHead // titles of the columns of the shots
	planShot
)

// Heights of lines.
const (
	planTitleH, planWordsH, planSessionH, planShotH = 36.0, 19.0, 30.0, 21.0
	planMargin                                      = 14.0
)

// setBoard plans a film.
func (v *planView) setBoard(b board.Board) {
	v.board, v.numbers, v.trouble, v.found, v.plan, v.in = b, b.Numbers(), "", nil, plan.Plan{}, nil
	if len(b.Panels) > 0 {
		var err error
		if v.plan, err = plan.Make(b); err != nil {
			v.trouble = sentence(err.Error())
		} else {
			v.found, v.in = v.plan.Findings(b), v.plan.Begins()
		}
	}
	v.lay()
}

// lay puts the lines one below the other.
func (v *planView) lay() {
	v.lines, v.end = v.lines[:0], 4
	add := func(kind planKind, high float64, i int, a, b string) {
		v.lines = append(v.lines, planLine{kind, v.end, i, a, b})
		v.end += high
	}
	words := func(s string) {
		for _, l := range v.broken(s) {
			add(planWords, planWordsH, 0, l, "")
		}
	}
	if v.trouble != "" {
		add(planTitle, planTitleH, 0, "To be seen to", "")
		words(v.trouble)
	}
	if v.trouble != "" || len(v.board.Panels) == 0 {
		return
	}
	if len(v.found) > 0 {
		add(planTitle, planTitleH, 0, "To be seen to", "")
		for _, f := range v.found {
			words("Panel " + v.numbers[f.Panel] + ": " + f.Reason + ".")
		}
	}
	add(planTitle, planTitleH, 0, "Sessions", "risky shots first; the dark part of each is its set-up")
	for i := range v.plan.Sessions {
		add(planSession, planSessionH, i, "", "")
	}
	add(planTitle, planTitleH, 0, "Shots", "")
	add(planHead, planShotH, 0, "", "")
	for i := range v.plan.Shots {
		add(planShot, planShotH, i, "", "")
	}
	add(planTitle, planTitleH, 0, "All of it", "")
	for _, l := range v.plan.Summary() {
		add(planPair, planWordsH, 0, l[0], l[1])
	}
	add(planTitle, planTitleH, 0, "Take care", "local rules apply")
	for _, l := range plan.Cautions() {
		words(l)
	}
	v.end += 12
}

// broken breaks words into lines of the width there is.
func (v *planView) broken(s string) []string {
	p, room := pen{scale: 1}, v.width-2*planMargin
	var out []string
	at := ""
	for _, word := range strings.Fields(s) {
		if next := strings.TrimSpace(at + " " + word); at == "" || p.width(planText, false, next) <= room {
			at = next
			continue
		}
		out, at = append(out, at), word
	}
	return append(out, at)
}

func (v *planView) resize(w, h float64) {
	was := v.width
	v.width, v.height = w, h
	if w != was {
		v.lay()
	}
}

func (v *planView) long() float64 { return v.end }
func (v *planView) head() float64 { return 0 }

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

const planHint = "A click on a shot goes to it; a double click shows it on the timeline."

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
