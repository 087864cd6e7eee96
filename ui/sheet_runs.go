package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"github.com/go-text/typesetting/segmenter"

	"stillbeat/board/sheet"
)

// wrapKey is what a text was broken into lines for.
type wrapKey struct {
	s     string
	width int // tenths of a unit
}

// runWords returns the words of a running column that begin on a row.
func runWords(run int, r sheet.Row) string {
	switch run {
	case soundRun:
		return r.Sound
	case panelRun:
		return r.Action
	case cameraRun:
		return r.Camera
	case marksRun:
		if r.Begins {
			return r.Marks
		}
	case noteRun:
		return r.Note
	}
	return ""
}

// lasts reports whether a line is drawn beside the words down to this row.
func lasts(run int, r sheet.Row) bool {
	switch run {
	case soundRun:
		return r.SoundLasts
	case cameraRun:
		return r.CameraLasts
	case marksRun:
		return r.Marks != ""
	}
	return false
}

// runs returns, for each row, the row on which the words began that run down to
// it in a column, and the row after their last. Nothing runs on into the next
// shot; what lasts for no more ends where it does.
func (v *sheetView) runs(run int) (begins, ends []int) {
	begins, ends = make([]int, len(v.rows)), make([]int, len(v.rows))
	from := 0
	for i, r := range v.rows {
		begin := i == 0 || r.Shot != v.rows[i-1].Shot || runWords(run, r) != "" || run == panelRun && r.Begins ||
			lasts(run, r) != lasts(run, v.rows[i-1])
		if begin {
			for k := from; k < i; k++ {
				ends[k] = i
			}
			from = i
		}
		begins[i] = from
	}
	for k := from; k < len(v.rows); k++ {
		ends[k] = len(v.rows)
	}
	return begins, ends
}

// wrap breaks words into lines of a width.
func (v *sheetView) wrap(p pen, s string, width float64) []string {
	key := wrapKey{s, int(width * 10)}
	if lines, known := v.wraps[key]; known {
		return lines
	}
	var out []string
	for _, line := range strings.Split(strings.TrimSpace(s), "\n") {
		out = append(out, foldedLine(p, strings.Join(strings.Fields(line), " "), width)...)
	}
	if v.wraps == nil || len(v.wraps) > 4000 {
		v.wraps = map[wrapKey][]string{}
	}
	v.wraps[key] = out
	return out
}

// foldedLine breaks a line where its script allows it (UAX 14), so that none is
// wider than that where it can be.
func foldedLine(p pen, line string, width float64) (out []string) {
	wide := func(s string) float64 { return p.width(sheetText, false, s) }
	if !isLatin(line) { // it is not painted
		wide = func(s string) float64 {
			return float64(fyne.MeasureText(s, sheetText, fyne.TextStyle{}).Width)
		}
	}
	var at strings.Builder
	var room float64
	var breaks segmenter.Segmenter
	breaks.Init([]rune(line))
	for parts := breaks.LineIterator(); parts.Next(); {
		part := string(parts.Line().Text)
		w := wide(strings.TrimRight(part, " "))
		if at.Len() > 0 && room+w > width {
			out = append(out, strings.TrimRight(at.String(), " "))
			at.Reset()
			room = 0
		}
		at.WriteString(part)
		room += wide(part)
	}
	return append(out, strings.TrimRight(at.String(), " "))
}

// oneLine joins the lines of a text, as long as a hint has room for.
func oneLine(s string) string { return strings.Join(strings.Fields(beginning(s)), " ") }
