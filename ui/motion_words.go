package ui

import (
	"fmt"
	"strings"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// mostMoments is how many moments of what bounces or swings are offered.
const mostMoments = 9

// momentNames names the moments of a move that can be put on the music.
func momentNames(m board.ObjectMove) []string {
	var out []string
	count := func(first, each string) []string {
		out = []string{first}
		for k := 1; k < mostMoments; k++ {
			out = append(out, fmt.Sprintf("%s %d", each, k))
		}
		return out
	}
	switch m.Manner {
	case board.Falling, board.Toppling:
		return []string{"lets go", "lands"}
	case board.Jumping:
		return []string{"takes off", "lands"}
	case board.Bouncing:
		return count("lets go", "landing")
	case board.Swinging:
		return count("lets go", "turn")
	case board.Settling:
		out = []string{"sets off", "arrives"}
		for k := 2; k < mostMoments; k++ {
			out = append(out, fmt.Sprintf("turn %d", k-1))
		}
		return out
	}
	for k := range m.Keys {
		out = append(out, fmt.Sprintf("key %d", k+1))
	}
	out[0], out[len(out)-1] = "sets off", "arrives"
	return out
}

// hitsWords says which moments are on the music, and where that is.
func hitsWords(t motion.Table, names []string) string {
	var out []string
	for _, h := range t.Move.Hits {
		name := fmt.Sprintf("moment %d", h.Moment)
		if h.Moment < len(names) {
			name = names[h.Moment]
		}
		out = append(out, name+beatOf(t, h))
	}
	if len(out) == 0 {
		return ""
	}
	return "On the music: " + strings.Join(out, "; ") + "."
}

// beatOf says where a hit lies, from the exposure that shows it.
func beatOf(t motion.Table, h board.Hit) string {
	var beats []string
	for _, r := range t.Rows {
		if r.Beat != "" {
			beats = append(beats, r.Beat)
		}
	}
	earlier := 0
	for _, o := range t.Move.Hits {
		if o.Moment < h.Moment {
			earlier++
		}
	}
	if len(beats) != len(t.Move.Hits) { // one is off its panels
		return ""
	}
	return ", " + beats[earlier]
}

// warningsOf says in sentences what will not read.
func warningsOf(t motion.Table) string {
	var out []string
	for _, g := range t.Findings {
		out = append(out, sentence(g.Reason))
	}
	const most = 2
	if n := len(out); n > most {
		out = append(out[:most-1], fmt.Sprintf("And %d more: see the table.", n-most+1))
	}
	return strings.Join(out, "\n")
}

// setManner changes how an object moves; hits on moments that the new manner
// has not are left out.
func setManner(m *board.ObjectMove, to board.Manner) {
	m.Manner = to
	n := len(momentNames(*m))
	var kept []board.Hit
	for _, h := range m.Hits {
		if h.Moment < n {
			kept = append(kept, h)
		}
	}
	m.Hits = kept
}
