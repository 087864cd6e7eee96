package plan

import (
	"fmt"
	"strings"

	"stillbeat/board/internal/paper"
)

// entry is a piece as it is printed: a line that names it and lines below, or
// words beside the name.
type entry struct {
	piece  Piece
	lines  []string
	beside string
}

// Heights of what stands below the shots of a session: with room for notes, and
// without where there are many shots.
const footHigh, leastFoot = 104.0, 79.0

// session prints the call sheet of session n.
func (d *printer) session(n int) {
	s := d.p.Sessions[n]
	head := fmt.Sprintf("Call sheet, session %d of %d", n+1, len(d.p.Sessions))
	d.page(head)
	d.Bookmark(0, fmt.Sprintf("Session %d", n+1), 0)
	dated := bold
	dated.Align = paper.Right
	d.Text(d.right-45, margin+10, "Date", dated)
	d.Rule(d.right-43, margin+10.5, d.right, margin+10.5, 0.2, paper.Black)
	d.line(0, d.sums(s), plain)
	d.y++
	entries := make([]entry, len(s.Pieces))
	for i, piece := range s.Pieces {
		entries[i] = entry{piece: piece, lines: d.lines(piece)}
	}
	foot := d.bottom - footHigh
	if !fit(entries, foot-d.y, 2) {
		foot = d.bottom - leastFoot
		if !fit(entries, foot-d.y, 1) {
			for i, e := range entries {
				entries[i] = entry{piece: e.piece, beside: strings.Join(e.lines, " ")}
			}
		}
	}
	limit := foot
	for _, e := range entries {
		if d.y+high(e, len(e.lines)) > limit {
			if limit == foot {
				d.foot(foot)
			}
			d.page(head + ", continued")
			limit = d.bottom
		}
		d.entry(e)
	}
	if limit == foot {
		d.foot(d.y)
	}
}

// sums says what a session holds and what it uses up.
func (d *printer) sums(s Session) string {
	out := fmt.Sprintf("%s of %s. %s; with retakes and plates %d photographs, %s, %s in %s",
		Hours(s.Minutes), Hours(d.p.Figures.Session), count(s.Take, "exposure"), s.Storage.Photographs, Gigabytes(s.Storage.Megabytes), Gigabytes(s.Storage.Copies), copies(d.p.Figures.Copies))
	switch n := s.Storage.Changes(); {
	case s.Storage.Charges == 0:
		return out + "; camera on the mains."
	case n == 0:
		return out + "; one full battery."
	default:
		return out + fmt.Sprintf("; %d full batteries, %d changes.", s.Storage.Charges, n)
	}
}

// high returns the height of an entry of which so many lines are shown.
func high(e entry, lines int) float64 {
	return 2.2 + bold.Leading() + float64(lines)*plain.Leading()
}

// fit takes lines away from the longest entries until all have room, and
// reports whether they have; each keeps so many at least.
func fit(entries []entry, room float64, least int) bool {
	total := 0.0
	for _, e := range entries {
		total += high(e, len(e.lines))
	}
	for total > room {
		longest := 0
		for i := range entries {
			if len(entries[i].lines) > len(entries[longest].lines) {
				longest = i
			}
		}
		e := &entries[longest]
		n := len(e.lines)
		switch {
		case n <= least:
			return false
		case n == 2:
			e.lines = e.lines[:1]
		default:
			e.lines = append(e.lines[:n-2:n-2], "… the other panels are on the exposure sheet")
		}
		total -= plain.Leading()
	}
	return true
}

// entry prints a piece.
func (d *printer) entry(e entry) {
	s := d.p.Shots[e.piece.Shot]
	d.y += 1.2
	d.Rule(d.left, d.y, d.right, d.y, 0.1, paper.Grey(150))
	d.y++
	name := strings.TrimSpace("Shot " + s.Name + " " + s.Heading)
	if e.piece.Parts > 1 {
		name += fmt.Sprintf(", part %d of %d", e.piece.Part, e.piece.Parts)
	}
	sums := Hours(e.piece.Minutes) + ": "
	if e.piece.SetUp > 0 {
		sums += "set-up " + Hours(e.piece.SetUp) + ", "
	}
	if e.piece.Take > 0 {
		sums += count(e.piece.Take, "exposure")
	} else {
		sums += "exposures in the next session"
	}
	d.y += bold.Leading()
	d.Tick(paper.Box{X: d.left, Y: d.y - 2.8, Wide: 3, High: 3}, false)
	room := d.right - d.left - 10 - d.Width(sums, plain)
	name = d.Cut(name, room, bold)
	d.Text(d.left+5, d.y, name, bold)
	if wide := d.Width(name, bold) + 3; wide+15 < room {
		d.Text(d.left+5+wide, d.y, d.Cut(e.beside, room-wide, plain), plain)
	}
	d.beside(sums, plain)
	for _, l := range e.lines {
		d.line(5, l, plain)
	}
}

// lines says what a piece needs and what happens in its panels.
func (d *printer) lines(piece Piece) (out []string) {
	s := d.p.Shots[piece.Shot]
	needs := s.Mind()
	if piece.Part < piece.Parts && piece.Take > 0 {
		needs = strings.TrimPrefix(needs+"; it goes on in the next session: end on a hold or under a cut", "; ")
	}
	if needs != "" {
		out = append(out, "Mind: "+needs)
	}
	if len(s.Objects) > 0 {
		var names []string
		for _, o := range s.Objects {
			if o == "" {
				o = "an object without a name"
			}
			names = append(names, o)
		}
		out = append(out, "On the set, moving: "+strings.Join(names, ", "))
	}
	at := int64(1)
	for _, p := range s.Panels {
		first, last := at, at+p.Take-1
		at += p.Take
		if p.Take > 0 && (last < piece.First || first >= piece.First+piece.Take) || p.Take == 0 && piece.Part > 1 {
			continue
		}
		taken := min(last, piece.First+piece.Take-1) - max(first, piece.First) + 1
		out = append(out, d.panelLine(p, max(0, taken)))
	}
	return out
}

// panelLine says what a panel takes in a piece and what happens in it.
func (d *printer) panelLine(p Panel, taken int64) string {
	panel := d.b.Panels[p.Panel]
	what := count(taken, "exposure")
	if p.Still {
		what += ", still"
	}
	if p.Repeats >= 0 {
		what += ", again as in " + d.numbers[p.Repeats]
	}
	var marks []string
	if panel.Rig {
		marks = append(marks, "rig")
	}
	if panel.Effect {
		marks = append(marks, "effect")
	}
	if panel.Plate {
		marks = append(marks, "plate")
	}
	if len(marks) > 0 {
		what += " [" + strings.Join(marks, ", ") + "]"
	}
	words := strings.Join(strings.Fields(strings.TrimSpace(panel.Title+". "+panel.Action)), " ")
	words = strings.Trim(words, ". ")
	return strings.TrimSuffix(d.numbers[p.Panel]+": "+what+". "+words, ". ")
}
