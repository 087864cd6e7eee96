package sheet

import (
	"fmt"
	"slices"
	"strings"

	"stillbeat/board"
)

// ShotNames returns what each shot is called: its number, with that of its
// scene where there are several.
func ShotNames(b board.Board) []string {
	shots, all, scenes := b.Shots(), b.AllNumbers(), len(b.Scenes())
	var out []string
	for s := range max(0, len(shots)-1) {
		n := all[shots[s]]
		if scenes > 2 {
			out = append(out, n.Scene+"-"+n.Shot)
		} else {
			out = append(out, n.Shot)
		}
	}
	return out
}

// ShotsNamed returns the places of the shots called by a list such as
// "1, 3-5": names and runs from one name to another. A name of scene and shot,
// "2-12A", comes before a run of the same letters.
func ShotsNamed(b board.Board, list string) ([]int, error) {
	names := ShotNames(b)
	find := func(name string) (int, error) {
		i := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, strings.TrimSpace(name)) })
		if i < 0 {
			return 0, fmt.Errorf("there is no shot %.40q", strings.TrimSpace(name))
		}
		return i, nil
	}
	var out []int
	for _, part := range strings.Split(list, ",") {
		if i, err := find(part); err == nil {
			out = append(out, i)
			continue
		}
		from, to, run := cutRun(part, find)
		if !run {
			_, err := find(part)
			return nil, err
		}
		if to < from {
			return nil, fmt.Errorf("the shots %.40q run backwards", strings.TrimSpace(part))
		}
		for i := from; i <= to; i++ {
			out = append(out, i)
		}
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

// cutRun cuts a run at the hyphen that has names on both sides.
func cutRun(part string, find func(string) (int, error)) (from, to int, ok bool) {
	for i := range part {
		if part[i] != '-' {
			continue
		}
		a, errA := find(part[:i])
		b, errB := find(part[i+1:])
		if errA == nil && errB == nil {
			return a, b, true
		}
	}
	return 0, 0, false
}
