package sheet

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"stillbeat/board"
)

// CSV writes the sheet as a table (RFC 4180, UTF-8) with a head. Words that
// last stand on their first row, as on paper. A cell of words that a
// spreadsheet would take for a formula gets an apostrophe before it.
func CSV(w io.Writer, b board.Board, o Options) error {
	rows, err := Rows(b, o)
	if err != nil {
		return err
	}
	names := ShotNames(b)
	out := csv.NewWriter(w)
	out.UseCRLF = true
	head := []string{"shot", "panel", "frame", "frames", "exposure", "time", "bar", "beat", "accent", "sound", "action", "pose"}
	for _, c := range o.Columns {
		head = append(head, words(c.Title))
	}
	out.Write(append(head, "camera", "marks", "note")) // errors are kept until Error
	for _, r := range rows {
		exposure, pose := "", ""
		if r.Exposed {
			exposure, pose = strconv.FormatInt(r.Exposure, 10), strconv.FormatInt(r.Pose, 10)
			if r.Nothing {
				pose = "X"
			}
		}
		cells := []string{
			words(names[r.Shot]), words(r.Number), strconv.FormatInt(int64(r.Frame), 10), strconv.FormatInt(int64(r.Frames), 10),
			exposure, r.Time, counted(r.Bar), counted(r.Beat), r.Accent.String(), words(r.Sound), words(r.Action), pose,
		}
		for _, c := range r.Columns {
			cells = append(cells, words(c))
		}
		out.Write(append(cells, words(r.Camera), r.Marks, words(r.Note)))
	}
	out.Flush()
	return out.Error()
}

// String returns the accent's names, "" for none.
func (a Accent) String() string {
	var out []string
	if a&Downbeat != 0 {
		out = append(out, "downbeat")
	}
	if a&Onset != 0 {
		out = append(out, "onset")
	}
	return strings.Join(out, " ")
}

func counted(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// words makes a cell no spreadsheet takes for a formula, whatever space it
// overlooks before it.
func words(s string) string {
	start := strings.TrimLeft(s, " \t\r\n\u00a0")
	if start != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(start)[0]) || s != "" && strings.ContainsRune("\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
