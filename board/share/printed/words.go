package printed

import (
	"fmt"
	"strings"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/sheet"
)

// field is a part of a panel's words.
type field struct {
	label string // before them, in grey
	text  string
	prior int // of those without room enough, lower ones get it first
}

// fields returns the words of panel i in the order they are printed in.
func (p *printer) fields(i int) []field {
	panel := p.b.Panels[i]
	place := joined(" · ", p.b.Rate.Timecode(p.starts[i]), beatWords(p.b, panel.Start, p.starts[i]), beatsHeld(p.b, p.starts, i))
	move := ""
	if d := panel.Drawing(); !d.Travel.Holds() {
		move = spacingWords(d.Travel.Spacing)
	}
	into := ""
	if panel.Into.Kind != board.Cut {
		into = fmt.Sprintf("%s in, %s", panel.Into.Kind, counted(int64(panel.Into.Frames), "frame"))
	}
	technical := joined(" · ", oneLine(panel.Size), joined(", ", oneLine(panel.Camera), move), into,
		strings.ReplaceAll(sheet.MarkWords(panel), " ", " · "))
	notes := []string{tidy(panel.Note)}
	for _, n := range panel.Notes() {
		notes = append(notes, fmt.Sprintf("frame %d: %s", p.b.NoteFrame(i, n, p.starts), oneLine(n.Text)))
	}
	all := []field{
		{"", place, 2}, {"", technical, 3},
		{"", joined(": ", oneLine(panel.Title), tidy(panel.Action)), 0},
		{"Sound", tidy(panel.Sound), 1}, {"Note", joined("\n", notes...), 4},
	}
	out := all[:0]
	for _, f := range all {
		if f.text != "" {
			out = append(out, f)
		}
	}
	return out
}

// placed is a line of words and where it is printed.
type placed struct {
	x, y  float64
	text  string
	style paper.Style
}

// words prints the words of panel i.
func (p *printer) words(i int, at grid) {
	for _, l := range p.lines(i, at) {
		p.Text(l.x, l.y, l.text, l.style)
	}
}

// lines lays out the words of panel i. Each field begins a line; where there
// are more lines than room, every field keeps its first ones and the last of
// them ends in an ellipsis.
func (p *printer) lines(i int, at grid) (out []placed) {
	s := paper.Style{Points: at.points}
	fields := p.fields(i)
	lines := make([][]string, len(fields))
	wants := make([]int, len(fields))
	for k, f := range fields {
		lines[k] = p.Wrap(f.text, at.words.Wide-p.labelRoom(f.label, s), s)
		wants[k] = len(lines[k])
	}
	room := int(at.words.High/s.Leading() + 1e-9)
	y := at.words.Y + 0.78*s.Leading()
	for k, n := range shares(fields, wants, room) {
		shown := lines[k][:n]
		if n > 0 && n < wants[k] {
			shown[n-1] = p.ended(shown[n-1], at.words.Wide-p.labelRoom(fields[k].label, s), s)
		}
		for j, l := range shown {
			out = append(out, p.line(fields[k], j, l, at.words, y, s)...)
			y += s.Leading()
		}
	}
	return out
}

// shares deals lines out among fields that want so many: each gets its first,
// in the order of their priority, then each its next.
func shares(fields []field, wants []int, room int) []int {
	out := make([]int, len(fields))
	for dealt := true; dealt && room > 0; {
		dealt = false
		for prior := range 5 {
			for k, f := range fields {
				if f.prior == prior && out[k] < wants[k] && room > 0 {
					out[k]++
					room--
					dealt = true
				}
			}
		}
	}
	return out
}

// labelRoom is what a label takes of the width of its field.
func (p *printer) labelRoom(label string, s paper.Style) float64 {
	if label == "" {
		return 0
	}
	return p.Width(label, s) + 0.4*s.Leading()
}

// ended returns a line that says that more would follow.
func (p *printer) ended(line string, wide float64, s paper.Style) string {
	if marked := strings.TrimRight(line, " ") + "…"; p.Width(marked, s) <= wide {
		return marked
	}
	return p.Cut(line+"………", wide, s)
}

// line lays out line j of a field from the side it is read from.
func (p *printer) line(f field, j int, text string, at paper.Box, y float64, s paper.Style) (out []placed) {
	left := at.X + p.labelRoom(f.label, s)
	if j == 0 && f.label != "" {
		out = append(out, placed{at.X, y, f.label, paper.Style{Points: s.Points, Ink: paper.Grey(110)}})
	}
	if paper.RightToLeft(text) {
		s.Align, left = paper.Right, at.X+at.Wide
	}
	return append(out, placed{left, y, text, s})
}

func spacingWords(s board.Spacing) string {
	return map[board.Spacing]string{board.SlowIn: "slow in", board.SlowOut: "slow out", board.SlowInOut: "slow out and in"}[s]
}

// openings returns for each panel what begins there, in words: "" where the
// shot goes on.
func openings(b board.Board) []string {
	all, scenes := b.AllNumbers(), len(b.Scenes())-1
	out := make([]string, len(b.Panels))
	for i := range out {
		heading := oneLine(b.Panels[i].Heading)
		switch b.Opening(i) {
		case board.OpensScene:
			out[i] = heading
			if scenes > 1 {
				out[i] = joined(" ", "Scene", all[i].Scene, heading)
			}
		case board.OpensShot:
			out[i] = heading
		}
	}
	return out
}

func title(b board.Board) string {
	if t := oneLine(b.Title); t != "" {
		return t
	}
	return "Untitled film"
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// tidy takes away empty lines.
func tidy(text string) string {
	var out []string
	for _, l := range strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if l = oneLine(l); l != "" {
			out = append(out, l)
		}
	}
	return strings.Join(out, "\n")
}

// joined joins the words that are not empty.
func joined(by string, words ...string) string {
	var out []string
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return strings.Join(out, by)
}

func counted(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
