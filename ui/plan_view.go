package ui

import (
	"strings"

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
	add(planTitle, planTitleH, 0, "Sessions", "risky shots first; each begins with its set-up, in another shade")
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
