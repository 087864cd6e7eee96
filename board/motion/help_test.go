package motion

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

var film24 = board.FrameRate{Num: 24, Den: 1}

// on returns the exposures of frames 0 to n, step frames each.
func on(n board.Frame, step int) Exposures { return Every(film24, board.Span{End: n}, step) }

// written writes a table for people to look through, what holds on one line.
func written(t Table) string {
	var out strings.Builder
	for i := 0; i < len(t.Rows); i++ {
		r := t.Rows[i]
		holds := func(i int) bool { return t.Rows[i].Step < none && t.Rows[i].Moment == "" }
		if i > 0 && holds(i) {
			for i+1 < len(t.Rows) && holds(i+1) {
				i++
			}
			fmt.Fprintf(&out, "%4d  holds from %d\n", t.Rows[i].Frame, r.Frame)
			continue
		}
		line := fmt.Sprintf("%4d  x %7.2f  y %7.2f  h %7.2f  along %7.2f  step %6.2f  %s  %s",
			r.Frame, r.At.X, r.At.Y, r.At.Height, r.Along, r.Step, r.Moment, r.Beat)
		out.WriteString(strings.ReplaceAll(strings.TrimRight(line, " "), "-0.00", " 0.00") + "\n")
	}
	for _, f := range t.Findings {
		fmt.Fprintf(&out, "      %s, frame %d: %s\n", f.Kind, f.Frame, f.Reason)
	}
	return out.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs (go test -update rewrites it)\ngot:\n%s\nwant:\n%s", name, got, want)
	}
}

// kinds lists the kinds of a table's findings.
func kinds(t Table) string {
	var out []string
	for _, f := range t.Findings {
		out = append(out, string(f.Kind))
	}
	return strings.Join(out, ", ")
}
