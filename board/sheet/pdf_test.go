package sheet

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"stillbeat/board"
)

func rate(num, den int64) board.FrameRate { return board.FrameRate{Num: num, Den: den} }

// A heavy line each 8 rows at 24 fps, 96 rows there and 100 at 25 a page (trade
// 5, F:xsheet, F:rmit and common practice); the others are our own.
func TestRulingOfRates(t *testing.T) {
	for _, c := range []struct {
		rate         board.FrameRate
		heavy, lines int
	}{
		{rate(24, 1), 8, 96}, {rate(24000, 1001), 8, 96}, {rate(25, 1), 5, 100}, {rate(30, 1), 10, 90}, {rate(30000, 1001), 10, 90},
		{rate(8, 1), 4, 96}, {rate(12, 1), 4, 96}, {rate(15, 1), 5, 90}, {rate(7, 1), 7, 98}, {rate(1, 1), 1, 100}, {rate(120, 1), 40, 100},
	} {
		if got := newRuling(c.rate).heavy; got != c.heavy {
			t.Errorf("%s fps: a heavy line each %d rows, want %d", c.rate, got, c.heavy)
		}
		if got := usualLines(c.rate); got != c.lines {
			t.Errorf("%s fps: %d rows a page, want %d", c.rate, got, c.lines)
		}
	}
}

// Row r of a film is on sheet r div 96 + 1 (trade 5): frame 96 begins sheet 2.
func TestPagesEndWithASecond(t *testing.T) {
	for _, c := range []struct {
		name      string
		rate      board.FrameRate
		exposures bool
		step      int
		lines     int
		frames    board.Frame
		want      []board.Frame // first frame of each page
	}{
		{"24 fps", rate(24, 1), false, 1, 96, 200, []board.Frame{0, 96, 192}},
		{"24 fps, 100 rows", rate(24, 1), false, 2, 100, 200, []board.Frame{0, 96, 192}},
		{"25 fps, 100 rows", rate(25, 1), false, 1, 100, 250, []board.Frame{0, 100, 200}},
		{"25 fps, 96 rows", rate(25, 1), false, 1, 96, 200, []board.Frame{0, 75, 150}},
		{"8 fps", rate(8, 1), false, 1, 96, 100, []board.Frame{0, 96}},
		{"exposures on twos", rate(24, 1), true, 2, 96, 400, []board.Frame{0, 192, 384}},
		{"exposures on fives", rate(24, 1), true, 5, 24, 400, []board.Frame{0, 120, 240, 360}},
		{"no second on a page", rate(120, 1), false, 1, 100, 250, []board.Frame{0, 100, 120, 220}},
		{"a page just full", rate(24, 1), false, 1, 96, 96, []board.Frame{0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := do(t, board.New(), board.SetRate(c.rate), board.SetStep(c.step), board.Paste(0, make([]board.Panel, 1), []board.Frame{c.frames}))
			var got []board.Frame
			for _, page := range newRuling(c.rate).pages(rowsOf(t, b, Options{Exposures: c.exposures}), c.lines) {
				got = append(got, page[0].Frame)
			}
			if fmt.Sprint(got) != fmt.Sprint(c.want) {
				t.Errorf("pages begin at %v, want %v", got, c.want)
			}
		})
	}
}

func TestSheetGolden(t *testing.T) {
	for name, c := range map[string]struct {
		o Options
		p Paper
	}{
		"a4.txt":     {Options{Columns: []Column{{"cup", func(f board.Frame) string { return fmt.Sprint(2*f, ", 3") }}}}, Paper{}},
		"letter.txt": {Options{Exposures: true}, Paper{Size: "letter", Lines: 48}},
	} {
		pages := pdfText(t, pdfOf(t, teaTable(t, rate(24, 1)), c.o, c.p))
		var out strings.Builder
		for _, p := range pages {
			for _, l := range strings.Split(p, "\n") {
				if l = strings.Join(strings.Fields(l), " "); l != "" {
					out.WriteString(l + "\n")
				}
			}
			out.WriteString("--\n")
		}
		golden(t, name, out.String())
	}
}

func TestEachPageSaysWhereItIs(t *testing.T) {
	b := do(t, teaTable(t, rate(24, 1)), board.SetHold([]int{2}, 200), board.SetTitle("茶壶 الكوب"))
	pages := pdfText(t, pdfOf(t, b, Options{}, Paper{}))
	if len(pages) != 5 {
		t.Fatalf("%d pages, want 5: 42, 54, 96, 50 and 25 rows", len(pages))
	}
	for i, p := range pages {
		for _, want := range []string{fmt.Sprintf("%d/5", i+1), "茶壶", "الكوب", "24 fps, on "} {
			if !strings.Contains(p, want) {
				t.Errorf("page %d has no %q:\n%s", i+1, want, p)
			}
		}
	}
	for page, want := range map[int]string{0: "on ones and twos", 1: "Shot 2 The sink", 2: "(2)", 4: "Shot 3"} {
		if !strings.Contains(pages[page], want) {
			t.Errorf("page %d has no %q:\n%s", page+1, want, pages[page])
		}
	}
}

func TestTheSameFilmMakesTheSameSheet(t *testing.T) {
	b := teaTable(t, rate(24, 1))
	if !bytes.Equal(pdfOf(t, b, Options{}, Paper{}), pdfOf(t, b, Options{}, Paper{})) {
		t.Error("two sheets of one film differ")
	}
}

func TestSheetOfNoFilm(t *testing.T) {
	pages := pdfText(t, pdfOf(t, board.New(), Options{}, Paper{}))
	if len(pages) != 1 || !strings.Contains(pages[0], "Untitled film") || !strings.Contains(pages[0], "1/1") {
		t.Errorf("the pages are %q", pages)
	}
}

func TestManyColumnsStayOnThePage(t *testing.T) {
	for n := range MaxColumns + 1 {
		needs := make([]float64, n)
		for k := range needs {
			needs[k] = 5 + 9*float64(k)
		}
		columns := layColumns(make([]Column, n), needs, 9, 201)
		last := columns[tickColumn].right
		for i, c := range columns {
			if c.right < c.x || c.right > 201.001 {
				t.Errorf("of %d more columns, column %d reaches from %.1f to %.1f", n, i, c.x, c.right)
			}
		}
		if last < 200.999 {
			t.Errorf("with %d more columns the last ends at %.1f, want 201", n, last)
		}
	}
}

func TestWrongPaper(t *testing.T) {
	for _, c := range []struct {
		p    Paper
		want string
	}{
		{Paper{Size: "a3"}, `"a3" is no paper: it is a4 or letter`},
		{Paper{Lines: 23}, "23 rows on a page: it takes 24 to 120"},
		{Paper{Lines: 121}, "121 rows on a page: it takes 24 to 120"},
	} {
		if err := PDF(io.Discard, board.New(), Options{}, c.p); err == nil || err.Error() != c.want {
			t.Errorf("%+v: %v, want %s", c.p, err, c.want)
		}
	}
}

// tenMinutes is a film of 14,400 frames at 24 fps in 400 panels, all with words.
func tenMinutes(t testing.TB) board.Board {
	panels, holds := make([]board.Panel, 400), make([]board.Frame, 400)
	for i := range panels {
		panels[i] = board.Panel{Picture: "aa", Words: board.Words{Title: fmt.Sprint("Cup ", i), Action: "The cup turns and looks at the spoon, which leans away",
			Sound: "clink, then a long hum", Camera: "push in", Note: "keep the lamp on", Marks: board.Marks{Rig: true}}}
		holds[i] = 36
	}
	return do(t, board.New(), board.Paste(0, panels, holds), board.Open([]int{40, 80, 160, 240}, board.OpensShot))
}

func BenchmarkPDF(b *testing.B) {
	film := tenMinutes(b)
	for b.Loop() {
		if err := PDF(io.Discard, film, Options{}, Paper{Made: made}); err != nil {
			b.Fatal(err)
		}
	}
}

func Example() {
	b, _ := board.Paste(0, []board.Panel{{Words: board.Words{Action: "The cup turns"}}}, []board.Frame{3}).Apply(board.New())
	var out bytes.Buffer
	err := CSV(&out, b, Options{Exposures: true})
	fmt.Println(strings.ReplaceAll(out.String(), "\r\n", "\n"), err)
	// Output:
	// shot,panel,frame,frames,exposure,time,bar,beat,accent,sound,action,pose,camera,marks,note
	// 1,1,0,1,1,00:00:00:00,,,,,The cup turns,1,,,
	// 1,1,1,1,2,00:00:00:01,,,,,,2,,,
	// 1,1,2,1,3,00:00:00:02,,,,,,3,,,
	//  <nil>
}
