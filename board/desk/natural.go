package desk

import (
	"path/filepath"
	"sort"
	"strings"
	"unicode"
)

// NaturalLess orders names as people do: numbers by their value, letters
// without regard to case, so that 2 comes before 10.
func NaturalLess(a, b string) bool {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	for len(x) > 0 && len(y) > 0 {
		if unicode.IsDigit(x[0]) && unicode.IsDigit(y[0]) {
			nx, ny := digits(x), digits(y)
			dx, dy := strings.TrimLeft(string(x[:nx]), "0"), strings.TrimLeft(string(y[:ny]), "0")
			if len(dx) != len(dy) {
				return len(dx) < len(dy)
			}
			if dx != dy {
				return dx < dy
			}
			x, y = x[nx:], y[ny:]
			continue
		}
		if x[0] != y[0] {
			return x[0] < y[0]
		}
		x, y = x[1:], y[1:]
	}
	if len(x) != len(y) {
		return len(x) < len(y)
	}
	return a < b
}

func digits(r []rune) int {
	n := 0
	for n < len(r) && unicode.IsDigit(r[n]) {
		n++
	}
	return n
}

// SortNaturally puts paths into the natural order of their file names.
func SortNaturally(paths []string) {
	sort.SliceStable(paths, func(i, j int) bool { return NaturalLess(filepath.Base(paths[i]), filepath.Base(paths[j])) })
}
