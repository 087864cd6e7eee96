package sheet

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

func rowsOf(t testing.TB, b board.Board, o Options) []Row {
	t.Helper()
	rows, err := Rows(b, o)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func TestRowsGolden(t *testing.T) {
	b := teaTable(t, board.FrameRate{Num: 24, Den: 1})
	place := Column{"cup", func(f board.Frame) string { return fmt.Sprintf("%d mm", f) }}
	golden(t, "frames.txt", drawn(rowsOf(t, b, Options{Columns: []Column{place}})))
	golden(t, "exposures.txt", drawn(rowsOf(t, b, Options{Exposures: true, Columns: []Column{place}})))
	golden(t, "second-shot.txt", drawn(rowsOf(t, b, Options{Shots: []int{1}})))
}

// There is a row for each frame or for each exposure, no frame is left out, and
// exposures are counted as the board counts them (trade 4.1: a span of 25
// frames on twos takes 13 poses, the last held 1 frame).
func TestRowsCoverTheFilm(t *testing.T) {
	for _, r := range append(slices.Clone(board.Rates), board.FrameRate{Num: 25, Den: 2}, board.FrameRate{Num: 120, Den: 1}) {
		for step := 1; step <= 5; step++ {
			for _, exposures := range []bool{false, true} {
				b := do(t, teaTable(t, r), board.SetStep(step))
				rows := rowsOf(t, b, Options{Exposures: exposures})
				var at board.Frame
				var taken int64
				for _, row := range rows {
					if row.Frame != at || row.Frames < 1 || !exposures && row.Frames != 1 {
						t.Fatalf("%s fps on %ds: a row of frame %d for %d frames comes at frame %d", r, step, row.Frame, row.Frames, at)
					}
					if row.Exposed {
						taken++
					}
					if row.Exposure != taken {
						t.Fatalf("%s fps on %ds: frame %d is exposure %d, want %d", r, step, at, row.Exposure, taken)
					}
					at += row.Frames
				}
				if at != b.Frames() || taken != b.Exposures() {
					t.Errorf("%s fps on %ds: %d frames and %d exposures, the film has %d and %d", r, step, at, taken, b.Frames(), b.Exposures())
				}
				if exposures && int64(len(rows)) != taken {
					t.Errorf("%s fps on %ds: %d rows for %d exposures", r, step, len(rows), taken)
				}
			}
		}
	}
	rows := rowsOf(t, teaTable(t, board.FrameRate{Num: 24, Den: 1}), Options{Exposures: true, Shots: []int{2}})
	if n := len(rows); n != 13 || rows[12].Frames != 1 || rows[11].Frames != 2 {
		t.Errorf("25 frames on twos are %d rows, the last of %d frames; want 13, the last of 1", n, rows[n-1].Frames)
	}
}

func TestRowsOfNoFilm(t *testing.T) {
	if rows := rowsOf(t, board.New(), Options{}); len(rows) != 0 {
		t.Errorf("a film without panels has %d rows", len(rows))
	}
	if _, err := Rows(board.New(), Options{Shots: []int{0}}); err == nil || err.Error() != "there is no shot 1: the film has 0" {
		t.Errorf("%v", err)
	}
	if _, err := Rows(teaTable(t, board.FrameRate{Num: 24, Den: 1}), Options{Shots: []int{3}}); err == nil || err.Error() != "there is no shot 4: the film has 3" {
		t.Errorf("%v", err)
	}
}

func TestTooManyColumns(t *testing.T) {
	_, err := Rows(board.New(), Options{Columns: make([]Column, MaxColumns+1)})
	if err == nil || err.Error() != "9 columns more: a sheet takes 8" {
		t.Errorf("%v", err)
	}
}

func TestShotsNamed(t *testing.T) {
	b := do(t, board.New(), board.Paste(0, make([]board.Panel, 5), []board.Frame{9, 9, 9, 9, 9}), board.Open([]int{1, 2, 4}, board.OpensShot),
		board.SetNumbers(1, board.Numbers{Shot: "2"}), board.SetNumbers(2, board.Numbers{Shot: "2A"}))
	scenes := do(t, b, board.Open([]int{2}, board.OpensScene))
	if got := ShotNames(b); !slices.Equal(got, []string{"1", "2", "2A", "3"}) {
		t.Fatalf("the shots are %q", got)
	}
	if got := ShotNames(scenes); !slices.Equal(got, []string{"1-1", "1-2", "2-2A", "2-3"}) {
		t.Fatalf("the shots are %q", got)
	}
	for _, c := range []struct {
		name, list string
		b          board.Board
		want       []int
		err        string
	}{
		{"one", "2", b, []int{1}, ""},
		{"in any order, once", "3, 1,3", b, []int{0, 3}, ""},
		{"a run", "2-3", b, []int{1, 2, 3}, ""},
		{"letters of either case", "2a", b, []int{2}, ""},
		{"with scenes", "1-2,2-3", scenes, []int{1, 3}, ""},
		{"a run with scenes", "1-2-2-3", scenes, []int{1, 2, 3}, ""},
		{"none", "", b, nil, `there is no shot ""`},
		{"unknown", "1,7", b, nil, `there is no shot "7"`},
		{"an unknown run", "1-7", b, nil, `there is no shot "1-7"`},
		{"backwards", "3-1", b, nil, `the shots "3-1" run backwards`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ShotsNamed(c.b, c.list)
			if !slices.Equal(got, c.want) || c.err == "" != (err == nil) || err != nil && err.Error() != c.err {
				t.Errorf("%v, %v; want %v, %s", got, err, c.want, c.err)
			}
		})
	}
}

func TestCSVGolden(t *testing.T) {
	var out bytes.Buffer
	if err := CSV(&out, teaTable(t, board.FrameRate{Num: 24, Den: 1}), Options{Exposures: true}); err != nil {
		t.Fatal(err)
	}
	if strings.Count(out.String(), "\r\n") != strings.Count(out.String(), "\n") {
		t.Error("lines do not end in CRLF (RFC 4180)")
	}
	golden(t, "sheet.csv", strings.ReplaceAll(out.String(), "\r\n", "\n"))
}

func TestCellsAreNoFormulas(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "cup": "cup", "a=b": "a=b", "1-2A": "1-2A", "=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@SUM(1)": "'@SUM(1)",
		" =1": "' =1", "\t=1": "'\t=1", "\tcup": "'\tcup", "\rcup": "'\rcup", "\n=1": "'\n=1", "＝1": "'＝1",
	} {
		if got := words(text); got != want {
			t.Errorf("%q is written %q, want %q", text, got, want)
		}
	}
}

func FuzzCSV(f *testing.F) {
	for _, s := range []string{"", "=1", "a,\"b\"\n", "茶壶\r\n", "\x00"} {
		f.Add(s)
	}
	b := teaTable(f, board.FrameRate{Num: 24, Den: 1})
	f.Fuzz(func(t *testing.T, text string) {
		e := board.Write([]int{0}, "action", func(w *board.Words) { w.Title, w.Action = "", text })
		b, err := e.Apply(b)
		if err != nil {
			return
		}
		var out bytes.Buffer
		if err := CSV(&out, b, Options{}); err != nil {
			t.Fatal(err)
		}
		got, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != int(b.Frames())+1 {
			t.Errorf("%d lines for %d frames", len(got), b.Frames())
		}
		for _, line := range got[1:] {
			for _, i := range []int{0, 1, 9, 10, 14} {
				if cell := line[i]; cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
					t.Errorf("a cell is %q", cell)
				}
			}
		}
	})
}

func TestMarksOfPanels(t *testing.T) {
	p := board.Panel{Still: true, Words: board.Words{Marks: board.Marks{Rig: true, Effect: true, Plate: true}}}
	if got := MarkWords(p); got != "rig effect plate still" {
		t.Errorf("the marks are %q", got)
	}
}
