package lists

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"stillbeat/board"
)

// nameReels gives each panel a reel: the letters A to Z and figures of its
// number, figures alone with three of them. Where two would be the same the
// later one gets a number at its end.
func (l *cutList) nameReels() {
	var changed []string
	last := map[string]int{} // number given last to names that begin the same
	for i, number := range l.b.Numbers() {
		reel := reelOf(number)
		if reel == "" {
			reel = fmt.Sprintf("P%03d", i+1)
		}
		if strings.Trim(reel, "0123456789") == "" {
			reel = strings.Repeat("0", max(0, 3-len(reel))) + reel
		}
		full := reel
		reel = reel[:min(len(reel), maxReel)]
		for base := reel; l.reels[reel]; {
			last[base]++
			n := fmt.Sprint(last[base])
			reel = base[:min(len(base), maxReel-len(n))] + n
		}
		if reel != full {
			changed = append(changed, fmt.Sprintf("panel %s is %s", number, reel))
		}
		l.reels[reel] = true
		l.reel = append(l.reel, reel)
	}
	if len(changed) > 0 {
		more := ""
		if len(changed) > 1 {
			more = fmt.Sprintf(", and %d more", len(changed)-1)
		}
		l.note("reels have %d signs and must differ: %s%s", maxReel, changed[0], more)
	}
}

// reelOf keeps what a reel's name is made of.
func reelOf(name string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, strings.ToUpper(name))
}

// pictures makes the events of the panels.
func (l *cutList) pictures() {
	cut := 0
	before := black // what is up before the panel, from its own frame on
	for i, p := range l.b.Panels {
		now := black
		if !Blank(p) {
			now = source{reel: l.reel[i], name: l.names[i], title: oneLine(p.Title)}
		}
		from, till := l.starts[i], l.starts[i+1]
		if i+1 < len(l.b.Panels) {
			till = l.span(i + 1).Start
		}
		pass := l.span(i)
		if pass.Len() < l.into[i].Len() {
			cut++
		}
		switch way := l.b.Panels[i].Into.Kind; {
		case way == board.Cut || pass.Len() == 0:
			l.add(event{to: now, at: from, till: till})
			before = after(now, till-from)
		case way == board.Fade:
			if pass.Start < from {
				l.add(event{to: black, from: &before, way: "D", length: from - pass.Start, at: pass.Start, till: from})
				before = black
			}
			if from < pass.End {
				l.add(event{to: now, from: &black, way: "D", length: pass.End - from, at: from, till: till})
			} else {
				l.add(event{to: now, at: from, till: till})
			}
			before = after(now, till-from)
		default:
			sign := map[board.Passage]string{board.Dissolve: "D", board.Wipe: "W001"}[way]
			l.add(event{to: now, from: &before, way: sign, length: pass.Len(), at: pass.Start, till: till})
			before = after(now, till-pass.Start)
		}
	}
	if cut > 0 {
		l.note("a transition has at most %d frames: %d of the film are longer and were cut to that", maxLength, cut)
	}
}

// add puts a picture's event at the end. What a passage leaves no frame of has none.
func (l *cutList) add(e event) {
	e.channel = "V"
	if e.from != nil {
		kept := *e.from
		e.from = &kept
	}
	if e.till > e.at {
		l.events = append(l.events, e)
	}
}

// after returns a source so many frames on; black has no place.
func after(s source, frames board.Frame) source {
	if s.reel != black.reel {
		s.in += frames
	}
	return s
}

// span returns the passage into panel i, as long as a list takes it: a fade is
// two transitions.
func (l *cutList) span(i int) board.Span {
	at, pass := l.starts[i], l.into[i]
	switch kind := l.b.Panels[i].Into.Kind; {
	case kind == board.Cut:
		return board.Span{Start: at, End: at}
	case kind == board.Fade:
		return board.Span{Start: max(pass.Start, at-maxLength), End: min(pass.End, at+maxLength)}
	case pass.Len() > maxLength:
		start := max(pass.Start, at-maxLength/2)
		return board.Span{Start: start, End: min(pass.End, start+maxLength)}
	default:
		return pass
	}
}

// song adds the sound as far as it lies under the film, in its place among the
// events.
func (l *cutList) song() {
	s := l.b.Song
	if s == nil {
		return
	}
	from, to := s.Sounding()
	end := l.starts[len(l.starts)-1]
	at, till := l.rate.Nearest(s.Offset+from), l.rate.Nearest(s.Offset+to)
	in := l.rate.Nearest(from)
	if at < 0 {
		in, at = in-at, 0
	}
	if till = min(till, end); till <= at {
		return
	}
	full := reelOf(strings.TrimSuffix(s.Name, path.Ext(s.Name)))
	reel := full[:min(len(full), maxReel)]
	for n := 1; reel == "" || l.reels[reel]; n++ {
		reel = fmt.Sprintf("SONG%d", n)
	}
	if reel != full {
		l.note("reels have %d signs and must differ: the song is %s", maxReel, reel)
	}
	e := event{to: source{reel: reel, name: oneLine(s.Name), in: in}, channel: "AA", at: at, till: till}
	k, _ := slices.BinarySearchFunc(l.events, e, func(a, b event) int {
		if a.at <= b.at {
			return -1
		}
		return 1
	})
	l.events = slices.Insert(l.events, k, e)
	if s.FadeIn+s.FadeOut > 0 || s.Gain != 0 {
		l.note("a cut list has no place for the fades and the gain of the song")
	}
}
