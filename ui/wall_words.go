package ui

import (
	"fmt"
	"strings"

	"stillbeat/board"
)

// wallText is a line of words on the wall, w wide at most.
type wallText struct {
	x, y, w float64 // baseline
	size    float64
	bold    bool
	c       tint
	s       string
}

// markNames are the marks of a panel as its card shows them.
var markNames = []struct {
	short, name, long string
	on                func(board.Marks) bool
}{
	{"R", "rig", "rig in frame", func(m board.Marks) bool { return m.Rig }},
	{"E", "effect", "effect in the camera", func(m board.Marks) bool { return m.Effect }},
	{"P", "plate", "clean plate needed", func(m board.Marks) bool { return m.Plate }},
}

// words appends the words in sight to out: headings, shots, and what is
// written on the cards.
func (v *wallView) words(p pen, out []wallText) []wallText {
	if len(v.board.Panels) == 0 {
		const words = "No panels yet. Ctrl+P adds pictures, or drop them here."
		w := p.width(14, false, words)
		return append(out, wallText{(v.width - w) / 2, v.height / 2, w + 1, 14, false, inkSoft, words})
	}
	s := v.size()
	for _, r := range v.inSight() {
		switch {
		case r.heading:
			out = v.sceneWords(p, out, r, s)
			continue
		case s.strip > 0:
			out = v.shotWords(p, out, r, s)
		}
		if s.lines < 2 {
			continue
		}
		top := r.top - v.scroll + s.above + s.pic
		for pos := r.from; pos < r.to; pos++ {
			x, panel := s.left+float64(pos-r.from)*s.pitch()+6, v.board.Panels[v.order[pos]]
			c, soft := v.inks(v.order[pos])
			if panel.Title != "" {
				out = append(out, wallText{x, top + 28, s.w - 12, 11, false, c, beginning(panel.Title)})
			}
			if more := takeWords(panel.Words); s.lines > 2 && more != "" {
				out = append(out, wallText{x, top + 43, s.w - 12, 10.5, false, soft, more})
			}
		}
	}
	return out
}

// takeWords says in one line what is seen: "CU, push in: she turns".
func takeWords(w board.Words) string {
	var how []string
	for _, s := range []string{w.Size, w.Camera} {
		if s != "" {
			how = append(how, s)
		}
	}
	words, action := strings.Join(how, ", "), strings.Join(strings.Fields(beginning(w.Action)), " ")
	if words != "" && action != "" {
		words += ": "
	}
	return words + action
}

// beginning returns as much of a text as any card has room for.
func beginning(s string) string {
	const most = 600 // bytes
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "")
}

func (v *wallView) sceneWords(p pen, out []wallText, r wallRow, s wallSize) []wallText {
	i := v.sceneOf[v.order[r.from]]
	y, x, right := r.top-v.scroll+wallSceneH-13, s.left, v.width-wallMargin-wallBarW
	count := v.runWords(v.order[r.from:r.to])
	w := p.width(11, false, count)
	out = append(out, wallText{right - w, y, w + 1, 11, false, inkSoft, count})
	if n := len(v.sceneOf); v.sceneOf[n-1] > 0 {
		name := "Scene " + v.named[i].Scene
		nw := p.width(14, true, name)
		out = append(out, wallText{x, y, nw + 1, 14, true, ink, name})
		x += nw + 10
	}
	if h := v.board.Panels[i].Heading; h != "" {
		out = append(out, wallText{x, y, max(0, right-w-16-x), 13, false, ink, h})
	}
	return out
}

// runWords counts panels: "6 panels · 96 f · 4.00 s".
func (v *wallView) runWords(panels []int) string {
	var frames board.Frame
	for _, i := range panels {
		frames += v.starts[i+1] - v.starts[i]
	}
	n := int64(len(panels))
	return fmt.Sprintf("%d %s · %d f · %.2f s", n, plural(n, "panel"), frames, v.board.Rate.Seconds(frames))
}

// wallBracket spans the cards of one shot in one row.
type wallBracket struct {
	x0, x1       float64
	shot         int // its first panel
	begins, ends bool
}

// brackets returns those of a row of cards.
func (v *wallView) brackets(r wallRow, s wallSize) []wallBracket {
	var out []wallBracket
	shot := func(pos int) int { return v.shotOf[v.order[pos]] }
	for from := r.from; from < r.to; {
		to := from + 1
		for to < r.to && shot(to) == shot(from) {
			to++
		}
		out = append(out, wallBracket{
			x0: s.left + float64(from-r.from)*s.pitch(), x1: s.left + float64(to-r.from)*s.pitch() - s.gap,
			shot:   shot(from),
			begins: from == 0 || shot(from-1) != shot(from), ends: to == len(v.order) || shot(to) != shot(from)})
		from = to
	}
	return out
}

// shotWords names the shots over a row, as fully as there is room for.
func (v *wallView) shotWords(p pen, out []wallText, r wallRow, s wallSize) []wallText {
	size, air := 10.5, 4.0
	if s.lines < 2 {
		size, air = 9, 2
	}
	for _, b := range v.brackets(r, s) {
		room, x, y := b.x1-b.x0-10, b.x0+5, r.top-v.scroll+s.strip-air
		number := v.named[b.shot].Shot
		c, names := ink, []string{"Shot " + number, number}
		if !b.begins {
			c, names = inkSoft, []string{"Shot " + number + " goes on", number}
		}
		for _, name := range names {
			w := p.width(size, b.begins, name)
			if w > room {
				continue
			}
			out = append(out, wallText{x, y, w + 1, size, b.begins, c, name})
			h := v.board.Panels[b.shot].Heading
			if b.begins && h != "" && v.sceneOf[b.shot] != b.shot && room-w > 30 {
				out = append(out, wallText{x + w + 7, y, room - w - 7, size, false, inkSoft, h})
			}
			break
		}
	}
	return out
}

// holdLabels says how long panel i holds, the fullest way first.
func (v *wallView) holdLabels(i int) [2]string {
	hold := v.starts[i+1] - v.starts[i]
	frames := fmt.Sprintf("%d f", hold)
	return [2]string{fmt.Sprintf("%s · %.2f s", frames, v.board.Rate.Seconds(hold)), frames}
}

func (v *wallView) carriedWords() string {
	if n := len(v.carried.panels); n > 1 {
		return fmt.Sprintf("%d panels", n)
	}
	return "Panel " + v.numbers[v.carried.panels[0]]
}

// hint describes panel i: "Panel 3, Steam: 36 f · 1.50 s, bar 2, beat 1, frame 48."
func (v *wallView) hint(i int) string {
	p := v.board.Panels[i]
	name := "Panel " + v.numbers[i]
	if p.Title != "" {
		name += ", " + p.Title
	}
	words := fmt.Sprintf("%s: %s, %s", name, v.holdLabels(i)[0], startWords(v.board, v.starts, []int{i}))
	for _, m := range markNames {
		if m.on(p.Marks) {
			words += ", " + m.long
		}
	}
	if v.remarked != nil && v.remarked[i].all > 0 {
		words += ", " + v.remarked[i].words()
	}
	return words + "."
}
