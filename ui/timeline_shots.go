package ui

import "fmt"

const (
	bracketH    = 15.0 // the row of shots and scenes, where there are any
	bracketText = 10.0
)

// hasShots reports whether shots or scenes are marked.
func (v *timelineView) hasShots() bool { return len(v.shots) > 2 }

// bracketBand returns the height the row of brackets takes.
func (v *timelineView) bracketBand() float64 {
	if v.hasShots() {
		return bracketH
	}
	return 0
}

// bracket is the sign over a shot in sight.
type bracket struct {
	x0, x1        float64
	scene         bool // one begins
	name, heading string
	nameX, headX  float64 // where there is room for them, else negative
}

// brackets returns those in sight, from left to right.
func (v *timelineView) brackets(p pen) (out []bracket) {
	if !v.hasShots() {
		return nil
	}
	scene := map[int]bool{}
	for _, i := range v.scenes {
		scene[i] = len(v.scenes) > 2
	}
	last := -100.0
	for k := 0; k+1 < len(v.shots); k++ {
		x := bracket{x0: v.frameX(v.starts[v.shots[k]]) + 1, x1: v.frameX(v.starts[v.shots[k+1]]) - 1,
			scene: scene[v.shots[k]], heading: v.board.Panels[v.shots[k]].Heading, nameX: -1, headX: -1}
		if x.x1 < 0 || x.x1-last < 2 {
			continue
		}
		if x.x0 > v.width {
			break
		}
		last = x.x1
		x.name = v.bracketName(v.shots[k], x.scene)
		if w := p.width(bracketText, false, x.name); w+10 < x.x1-max(x.x0, 0) {
			x.nameX = max(x.x0, 0) + 5
			if at := x.nameX + p.width(bracketText, true, x.name) + 6; x.heading != "" && at+2+wordsWidth(p, bracketText, false, x.heading) < x.x1 {
				x.headX = at
			}
		}
		out = append(out, x)
	}
	return out
}

// paintBrackets draws a bracket over each shot in sight, with its number, and
// a heavier start where a scene begins.
func (v *timelineView) paintBrackets(p pen) {
	y := v.bracketTop()
	for _, x := range v.brackets(p) {
		w, c := 1.2, inkSoft
		if x.scene {
			w, c = 2.4, ink
		}
		p.fill(x.x0, y, x.x1, y+1, inkSoft)
		p.fill(x.x0, y, x.x0+w, y+bracketH-2, c)
		p.fill(x.x1-1.2, y, x.x1, y+5, inkSoft)
		if x.nameX >= 0 {
			p.text(x.nameX, y+11, bracketText, true, c, x.name)
		}
		if x.headX >= 0 && isLatin(x.heading) {
			p.text(x.headX, y+11, bracketText, false, inkSoft, x.heading)
		}
	}
}

func (v *timelineView) bracketTop() float64 { return v.lineY() + lineH/2 - 2 }

// bracketName names a shot: "Shot 3", or "Scene 2 · shot 3" where one begins.
func (v *timelineView) bracketName(first int, scene bool) string {
	n := v.named[first]
	if scene && len(v.scenes) > 2 {
		return fmt.Sprintf("Scene %s · shot %s", n.Scene, n.Shot)
	}
	return "Shot " + n.Shot
}

// words appends those that paint leaves out, as the font of the figures lacks
// their script: names of markers, headings of shots and scenes.
func (v *timelineView) words(p pen, out []wallText) []wallText {
	for _, x := range v.brackets(p) {
		if x.headX >= 0 && !isLatin(x.heading) {
			out = append(out, wallText{x.headX, v.bracketTop() + 11, x.x1 - x.headX, bracketText, false, inkSoft, x.heading})
		}
	}
	for _, m := range v.markerFlags(p) {
		if m.w > 0 && !isLatin(m.name) {
			out = append(out, wallText{m.x + 4, v.waveTop() + 10.5, m.w, markerText, true, paperLight, m.name})
		}
	}
	return out
}
