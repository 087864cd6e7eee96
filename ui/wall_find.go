package ui

import (
	"strings"

	"stillbeat/board"
)

// findPanels tells for each panel whether every word typed is found in what
// is written on it, in its number or in the heading over it; nil if nothing
// was typed.
func findPanels(b board.Board, numbers []string, typed string) []bool {
	words := strings.Fields(strings.ToLower(typed))
	if len(words) == 0 {
		return nil
	}
	shots, scenes := firstOf(b.Shots()), firstOf(b.Scenes())
	fits := make([]bool, len(b.Panels))
	for i, p := range b.Panels {
		parts := []string{numbers[i], p.Title, p.Action, p.Sound, p.Note, p.Size, p.Camera,
			string(p.Into.Kind), b.Panels[shots[i]].Heading, b.Panels[scenes[i]].Heading}
		for _, m := range markNames {
			if m.on(p.Marks) {
				parts = append(parts, m.long)
			}
		}
		fits[i] = holdsAll(strings.ToLower(strings.Join(parts, "\n")), words)
	}
	return fits
}

func holdsAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// nextFound returns the panel found next after panel i, or before it when by
// is negative, going round at the ends; -1 if none is.
func nextFound(fits []bool, i, by int) int {
	n := len(fits)
	for k := 1; k <= n; k++ {
		if j := ((i+k*by)%n + n) % n; fits[j] {
			return j
		}
	}
	return -1
}

// foundList returns the panels that fit.
func foundList(fits []bool) []int {
	var out []int
	for i, f := range fits {
		if f {
			out = append(out, i)
		}
	}
	return out
}
