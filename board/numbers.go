package board

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Numbers are those a panel, and what it opens, is called by. An empty one is
// counted, a written one stays.
type Numbers struct {
	Scene string `json:"scene,omitempty"` // of the scene that begins here
	Shot  string `json:"shot,omitempty"`  // of the shot that begins here
	Panel string `json:"panel,omitempty"` // of the panel within its shot
}

// maxNumber is the longest number, in bytes.
const maxNumber = 12

func (n Numbers) check() error {
	for _, s := range []string{n.Scene, n.Shot, n.Panel} {
		if len(s) > maxNumber || strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			return fmt.Errorf("the number %.40q: one is made of up to %d letters and digits", s, maxNumber)
		}
	}
	return nil
}

// Numbers returns the number of each panel in full: scene, shot and panel, as
// in "2-12B". The scene is left out in a film of one, the panel in a shot of
// one. Before the first shot is marked, panels are counted plainly.
//
// Scenes, and shots through all of them, are counted from 1, panels in a shot
// by letters: A to Z, then AA. Written numbers stay; what is counted between
// two of them that leave no room takes the one before with a letter, as in
// 12A (panels: a figure, as in A1). Common practice.
func (b Board) Numbers() []string {
	all := b.AllNumbers()
	scenes, shots := b.Scenes(), b.Shots()
	out := make([]string, len(all))
	plain := len(shots) == 2 && all[0].Shot == "1" && !slices.ContainsFunc(b.Panels, func(p Panel) bool { return p.Fixed.Panel != "" })
	for i := range all {
		if plain {
			out[i] = strconv.Itoa(i + 1)
			continue
		}
		if len(scenes) > 2 {
			out[i] = all[i].Scene + "-"
		}
		out[i] += all[i].Shot
		if k, _ := slices.BinarySearch(shots, i+1); shots[k]-shots[max(0, k-1)] > 1 || b.Panels[i].Fixed.Panel != "" {
			out[i] += all[i].Panel
		}
	}
	return out
}

// Number returns the number panel i is called by. Callers that want many use
// Numbers.
func (b Board) Number(i int) string { return b.Numbers()[i] }

// AllNumbers returns the numbers of every panel, with those of its scene and
// shot.
func (b Board) AllNumbers() []Numbers {
	out := make([]Numbers, len(b.Panels))
	fill := func(from []int, fixed func(Numbers) string, set func(*Numbers, string), by counting) {
		written := make([]string, len(from)-1)
		for k := range written {
			written[k] = fixed(b.Panels[from[k]].Fixed)
		}
		for k, n := range by.all(written) {
			for i := from[k]; i < from[k+1]; i++ {
				set(&out[i], n)
			}
		}
	}
	if len(b.Panels) == 0 {
		return out
	}
	fill(b.Scenes(), func(n Numbers) string { return n.Scene }, func(n *Numbers, s string) { n.Scene = s }, byFigures)
	shots := b.Shots()
	fill(shots, func(n Numbers) string { return n.Shot }, func(n *Numbers, s string) { n.Shot = s }, byFigures)
	for k := 0; k+1 < len(shots); k++ {
		panels := make([]int, 0, shots[k+1]-shots[k]+1)
		for i := shots[k]; i <= shots[k+1]; i++ {
			panels = append(panels, i)
		}
		fill(panels, func(n Numbers) string { return n.Panel }, func(n *Numbers, s string) { n.Panel = s }, byLetters)
	}
	return out
}

// A counting turns numbers into words and back.
type counting struct {
	main  func(n int) string // the nth, from 1
	parse func(s string) int // the number a word begins with, 0 for none
	sub   func(n int) string // what is put behind one for the nth between
}

var (
	byFigures = counting{strconv.Itoa, leadingFigures, letters}
	byLetters = counting{letters, leadingLetters, strconv.Itoa}
)

// all returns the numbers in full where some are written.
func (c counting) all(written []string) []string {
	used := make(map[string]bool, len(written))
	ahead := make([]int, len(written)) // main number of the next written one, 0: none
	next := 0
	for k := len(written) - 1; k >= 0; k-- {
		ahead[k] = next
		if w := written[k]; w != "" {
			used[w] = true
			next = c.parse(w)
		}
	}
	out := make([]string, len(written))
	last := 0 // main number before
	for k, w := range written {
		if w == "" {
			w = c.main(last + 1)
			if used[w] || ahead[k] > 0 && last+1 >= ahead[k] {
				base := c.main(max(1, last))
				if last == 0 {
					base = "0"
				}
				for n := 1; used[w] || n == 1; n++ {
					w = base + c.sub(n)
				}
			}
			used[w] = true
		}
		last = max(last, c.parse(w))
		out[k] = w
	}
	return out
}

// letters returns A to Z, then AA, AB and so on.
func letters(n int) string {
	var out []byte
	for ; n > 0; n = (n - 1) / 26 {
		out = append(out, byte('A'+(n-1)%26))
	}
	slices.Reverse(out)
	return string(out)
}

func leadingFigures(s string) int {
	end := strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' })
	if end < 0 {
		end = len(s)
	}
	n, _ := strconv.Atoi(s[:end])
	return n
}

func leadingLetters(s string) int {
	n := 0
	for i := 0; i < len(s) && i < 4 && s[i] >= 'A' && s[i] <= 'Z'; i++ {
		n = 26*n + int(s[i]-'A') + 1
	}
	return n
}

// FixNumbers writes the numbers of the chosen panels, and of what they open,
// as they are now: they stay when others come between.
func FixNumbers(set []int) Edit {
	return onSeveral(named("fix the number of", set), set, func(b Board, chosen []int) (Board, error) {
		all, out := b.AllNumbers(), b
		out.Panels = slices.Clone(b.Panels)
		for _, i := range chosen {
			n := all[i]
			if o := b.Opening(i); o == GoesOn {
				n.Scene, n.Shot = "", ""
			} else if o == OpensShot {
				n.Scene = ""
			}
			out.Panels[i].Fixed = n
		}
		return out.checked(b)
	})
}

// CountNumbers lets the numbers of the chosen panels be counted again.
func CountNumbers(set []int) Edit {
	return onPanels("count the number", set, func(p *Panel) { p.Fixed = Numbers{} })
}

// SetNumbers writes the numbers of panel i. One that another panel, shot or
// scene has in writing is refused.
func SetNumbers(i int, n Numbers) Edit {
	return onSeveral(named("number of", []int{i}), []int{i}, func(b Board, _ []int) (Board, error) {
		o := b.Opening(i)
		if o == GoesOn && (n.Shot != "" || n.Scene != "") || o == OpensShot && n.Scene != "" {
			return b, errors.New("no shot or scene begins at this panel")
		}
		out := b
		out.Panels = slices.Clone(b.Panels)
		out.Panels[i].Fixed = n
		if twice := out.TwiceNumbered(); slices.Contains(twice, i) {
			return b, fmt.Errorf("there is a %s already", out.Number(i))
		}
		return out.checked(b)
	})
}

// TwiceNumbered returns the panels whose full number another one has as well.
func (b Board) TwiceNumbered() []int {
	first := map[Numbers]int{}
	var out []int
	seen := map[int]bool{}
	for i, n := range b.AllNumbers() {
		if k, found := first[n]; found {
			for _, j := range []int{k, i} {
				if !seen[j] {
					seen[j], out = true, append(out, j)
				}
			}
			continue
		}
		first[n] = i
	}
	slices.Sort(out)
	return out
}
