// Package lists writes a film as lists for editing programs, players and
// spreadsheets: a cut list (CMX 3600), subtitles (SubRip, WebVTT) and tables
// (CSV), and reads tables back. All are made in memory of a board alone.
package lists

import (
	"errors"
	"fmt"
	"net/url"
	"path"
	"strconv"
	"strings"
	"unicode"

	"stillbeat/board"
)

// ErrEmpty is returned for a film that has nothing to be listed.
var ErrEmpty = errors.New("the film has no panels to list")

// PictureNames returns for each panel the name of its picture where the
// pictures are shared one by one: its place in the film, so that names keep
// the order and differ, and its number where that is another.
func PictureNames(b board.Board) []string {
	out := b.Numbers()
	width := max(3, len(strconv.Itoa(len(out))))
	for i, number := range out {
		out[i] = fmt.Sprintf("%0*d", width, i+1)
		if number != strconv.Itoa(i+1) {
			out[i] += "_" + number
		}
		out[i] += ".png"
	}
	return out
}

// URL returns a path relative to a list as the reference of a file (RFC 3986).
func URL(folder, name string) string {
	ref := path.Join(folder, url.PathEscape(name))
	if first, _, _ := strings.Cut(ref, "/"); strings.Contains(first, ":") {
		return "./" + ref // else it would be taken for a scheme
	}
	return ref
}

// Blank reports whether there is nothing to be seen on a panel.
func Blank(p board.Panel) bool {
	d := p.Drawing()
	return p.Picture == "" && d.Sketch == "" && len(d.Lettering) == 0
}

// plain returns text without control characters and with single line feeds
// between its lines; lines without anything to read are left out.
func plain(text string) string {
	var lines []string
	for line := range strings.SplitSeq(strings.ReplaceAll(text, "\r", "\n"), "\n") {
		line = strings.TrimSpace(strings.Map(func(r rune) rune {
			if unicode.IsControl(r) {
				return ' '
			}
			return r
		}, line))
		if line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// oneLine returns text as one line.
func oneLine(text string) string { return strings.Join(strings.Fields(plain(text)), " ") }
