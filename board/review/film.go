package review

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"stillbeat/board"
)

// maxPrinted is the most panels that a film is known by.
const maxPrinted = 400

// maxPrints is the most prints a file has: of the picture, the sketch and the
// words of each panel.
const maxPrints = 3 * maxPrinted

// printBytes is the length of a print: two films that share nothing have one
// in common less often than once in a million.
const printBytes = 6

// FilmOf tells of a board what goes with notes on it.
func FilmOf(b board.Board) Film {
	return Film{Title: plain(b.Title, true), Rate: rateText(b.Rate), Frames: b.Frames(), Prints: PrintsOf(b)}
}

// PrintsOf returns the prints of a film: a hash for the picture, the sketch and
// the words of each panel with its id, of a large film of some of them, evenly
// spread. A film stays known as long as one of them stays.
func PrintsOf(b board.Board) []string {
	var out []string
	n := len(b.Panels)
	for k := range min(n, maxPrinted) {
		out = append(out, printsOf(b.Panels[k*n/min(n, maxPrinted)])...)
	}
	return out
}

func printsOf(p board.Panel) (out []string) {
	add := func(kind, of string) {
		sum := sha256.Sum256(fmt.Appendf(nil, "%d %s %s", p.ID, kind, of))
		out = append(out, hex.EncodeToString(sum[:printBytes]))
	}
	if p.Picture != "" {
		add("picture", string(p.Picture))
	}
	if s := p.Drawing().Sketch; s != "" {
		add("sketch", string(s))
	}
	if p.Words != (board.Words{}) {
		words, err := json.Marshal(p.Words)
		if err != nil {
			panic(err) // it has texts and marks alone
		}
		add("words", string(words))
	}
	return out
}

// Is reports whether notes on f are notes on b: a panel still has what it had,
// or the title is the same. Of a film of blank panels the title alone tells.
func (f Film) Is(b board.Board) bool {
	if f.Title != "" && f.Title == plain(b.Title, true) {
		return true
	}
	was := make(map[string]bool, len(f.Prints))
	for _, p := range f.Prints {
		was[p] = true
	}
	some := false
	for _, p := range b.Panels {
		for _, print := range printsOf(p) {
			if some = true; was[print] {
				return true
			}
		}
	}
	return !some && len(was) == 0 && f.Title == b.Title
}

// rateText writes a rate exactly: "24" or "24000/1001".
func rateText(r board.FrameRate) string {
	if r.Den == 1 {
		return strconv.FormatInt(r.Num, 10)
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

func parseRate(s string) (board.FrameRate, error) {
	num, den, divided := strings.Cut(s, "/")
	if !divided {
		den = "1"
	}
	n, errN := strconv.ParseInt(num, 10, 64)
	d, errD := strconv.ParseInt(den, 10, 64)
	r := board.FrameRate{Num: n, Den: d}
	if errN != nil || errD != nil || r.Check() != nil {
		return r, errors.New("the film they are on has no frame rate")
	}
	return r, nil
}
