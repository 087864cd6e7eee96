package ui

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// foot is the row at the bottom: hints and messages, or the job under way, at
// the left; what the film counts at the right.
type foot struct {
	words  *widget.Label
	counts *canvas.Text
	root   fyne.CanvasObject
	said   time.Time
	also   func(string) // is told what is said
}

func newFoot(j *jobs) *foot {
	f := &foot{words: widget.NewLabel(""), counts: small(""), also: func(string) {}}
	f.words.Truncation = fyne.TextTruncateEllipsis
	f.root = band(paperDark, padded(8, 0, container.NewBorder(nil, nil, nil, centred(f.counts),
		container.NewStack(f.words, j.row))))
	return f
}

// Say shows a message that stays for a while.
func (f *foot) Say(s string) {
	f.said = time.Now()
	f.words.SetText(s)
	f.also(s)
}

// Hint shows what can be done here, unless a message is still to be read.
func (f *foot) Hint(s string) {
	if time.Since(f.said) > 6*time.Second {
		f.words.SetText(s)
	}
}

// Present counts the film.
func (f *foot) Present(b board.Board, starts []board.Frame, sound string) {
	n := starts[len(starts)-1]
	var parts []string
	if sound != "" {
		parts = append(parts, sound)
	}
	if g := b.Grid; b.Song != nil {
		if b.OnGrid() {
			parts = append(parts, fmt.Sprintf("%.1f BPM", g.Tempo))
		} else {
			parts = append(parts, "no steady beat found")
		}
	}
	exposures := b.Exposures()
	parts = append(parts, fmt.Sprintf("%d %s", len(b.Panels), plural(int64(len(b.Panels)), "panel")),
		fmt.Sprintf("%.1f s", b.Rate.Seconds(n)), fmt.Sprintf("%d %s", n, plural(int64(n), "frame")),
		fmt.Sprintf("%d %s", exposures, plural(exposures, "exposure")))
	setText(f.counts, strings.Join(parts, "  ·  "))
}

// sentence starts an error with a capital and ends it with a full stop.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
