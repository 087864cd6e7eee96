package lists

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestTablesGolden(t *testing.T) {
	b := teaFilm(t)
	panels, err := PanelTable(b)
	must(t, err)
	golden(t, "tea.csv", panels)
	beats, err := BeatTable(b)
	must(t, err)
	golden(t, "tea.beats.csv", beats)
}

func TestTablesRefuse(t *testing.T) {
	if _, err := PanelTable(board.New()); err != ErrEmpty {
		t.Errorf("an empty film: %v", err)
	}
	if _, err := BeatTable(filmOf(fps(24), 0, 1)); err != ErrNoBeats {
		t.Errorf("a film without beats: %v", err)
	}
}

// No text is a formula in a spreadsheet, and each comes back.
func TestFormulas(t *testing.T) {
	for text, want := range map[string]string{
		"cup": "cup", "": "", "'tis tea": "'tis tea", "a=b": "a=b",
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@SUM(A1)": "'@SUM(A1)", "\tx": "'\tx", "\rx": "'\rx",
		"'=1": "''=1", "''-": "'''-", "'": "'", "- slowly": "'- slowly",
	} {
		got := guarded(text)
		if got != want || unguarded(got) != text {
			t.Errorf("%q is written as %q and read as %q, want %q", text, got, unguarded(got), want)
		}
	}
}

// What a film has in a table is laid on it without a change, and makes a new
// film with the same starts, holds, words, marks and passages.
func TestTableComesBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 8))
	rates := append([]board.FrameRate{{Num: 25, Den: 2}, {Num: 60000, Den: 1001}, fps(120), fps(1)}, board.Rates...)
	films := []board.Board{teaFilm(t)}
	for _, r := range rates {
		for range 20 {
			b := randomFilm(rnd, r)
			for i := range b.Panels {
				b.Panels[i].Words = randomWords(rnd)
			}
			films = append(films, b)
		}
	}
	for _, b := range films {
		text, err := PanelTable(b)
		must(t, err)
		timing, notes, err := ReadPanels(text, fps(7))
		must(t, err)
		if notes != nil {
			t.Fatalf("notes %q", notes)
		}
		same, notes, err := b.Take(timing)
		must(t, err)
		for i := range b.Panels { // a table has single line feeds
			b.Panels[i].Sound = strings.ReplaceAll(b.Panels[i].Sound, "\r", "")
		}
		if !reflect.DeepEqual(same, b) || notes != nil {
			t.Fatalf("the film changed, notes %q:\n%+v\n%+v", notes, same, b)
		}
		fresh, err := board.NewFromTiming(timing)
		must(t, err)
		if fresh.Rate != b.Rate || !reflect.DeepEqual(fresh.Starts(), b.Starts()) {
			t.Fatalf("at %s the starts %v came back at %s as %v", b.Rate, b.Starts(), fresh.Rate, fresh.Starts())
		}
		for i, p := range fresh.Panels {
			if p.Words != b.Panels[i].Words || p.Into != b.Panels[i].Into {
				t.Fatalf("panel %d came back as %+v, want %+v", i+1, p, b.Panels[i])
			}
		}
	}
}

func randomWords(rnd *rand.Rand) board.Words {
	some := []string{"", "cup", "=1", "'", "''=", "a,b", "\"q\"", "two\nlines", "\n", "茶碗", "-", " ", "'-1", "1e5", "0x1p-2", "#"}
	w := board.Words{Marks: board.Marks{Rig: rnd.IntN(2) == 0, Effect: rnd.IntN(2) == 0, Plate: rnd.IntN(2) == 0}}
	for _, name := range board.Texts {
		*w.Text(name) = some[rnd.IntN(len(some))]
	}
	return w
}

func TestReadPanels(t *testing.T) {
	tests := []struct {
		name, table string
		starts      string // of the new film at 24 frames a second, its end too
		note        string
	}{
		{"holds in frames", "hold_frames\n12\n24\n", "[0 12 36]", ""},
		{"of a spreadsheet with semicolons, comma as point", "title;hold_s\nCup;0,5\nSpoon;1,25\n", "[0 12 42]", ""},
		{"tabs and a byte order mark", "\ufefftitle\thold_s\r\nCup\t0.5\r\n", "[0 12]", ""},
		{"starts in seconds, the last holds like the one before", "start_s\n0\n0.5\n1.5\n", "[0 12 36 60]", "how long the last panel holds: it is given 1.000"},
		{"a single start", "start_frame\n0\n", "[0 24]", "it is given 1.000"},
		{"starts with holds beside them: frames go before seconds", "start_frame,hold_s\n0,9\n12,0.5\n", "[0 12 24]", ""},
		{"holds against starts", "start_frame,hold_frames\n0,12\n10,12\n20,12\n", "[0 12 24 36]", "row 3 starts on frame 10 in the table, but the holds before it make 12"},
		{"the first start is not 0", "start_frame,hold_s\n10,1\n20,1\n", "[0 20 44]", "does not start at 0"},
		{"a rate of its own", "hold_frames,fps\n12,12\n6,12.000\n", "[0 12 18]", ""},
		{"an unknown column and an empty row", "hold_frames,mood\n12,glad\n,\n6,\n", "[0 12 18]", `not known were left out: "mood"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			timing, notes, err := ReadPanels([]byte(tt.table), fps(24))
			must(t, err)
			b, err := board.NewFromTiming(timing)
			must(t, err)
			if got := fmt.Sprint(b.Starts()); got != tt.starts {
				t.Errorf("starts %s, want %s", got, tt.starts)
			}
			if all := strings.Join(notes, "\n"); !strings.Contains(all, tt.note) || (tt.note == "") != (all == "") {
				t.Errorf("notes %q, want %q", notes, tt.note)
			}
		})
	}
}

func TestReadPanelsRefuses(t *testing.T) {
	tests := []struct{ name, table, says string }{
		{"nothing", "", "its first row cannot be read: it is empty"},
		{"a head alone", "hold_frames\n", "the table has no rows"},
		{"no times", "title\nCup\n", "names no column hold_frames"},
		{"no text", "\xff\xfe", "not text in UTF-8"},
		{"a column twice", "title,hold_s,Title\n", `two columns "title"`},
		{"a short row", "title,hold_s\nCup\n", "row 2: it has more or fewer cells"},
		{"a stray quotation mark", "title,hold_s\na\"b,1\n", "row 2: a quotation mark"},
		{"a hold of nothing", "hold_frames\n0\n", "row 2: a hold is at least one frame"},
		{"a hold in words", "hold_frames\n12\nlong\n", `row 3: hold_frames: "long" is no number`},
		{"a negative hold", "hold_s\n-1\n", "row 2: hold_s"},
		{"part of a frame", "hold_frames\n1.5\n", "row 2: hold_frames: 1.5 frames are not a whole number"},
		{"starts that go back", "start_s\n0\n2\n1\n", "row 4: start_s: 1 does not come after 2"},
		{"two rates", "hold_frames,fps\n1,24\n1,25\n", "row 3: it has 25 frames a second, the rows before 24"},
		{"no rate", "hold_frames,fps\n1,quick\n", `row 2: "quick" is not a frame rate`},
		{"no id", "hold_frames,id\n1,cup\n", `row 2: "cup" is no id`},
		{"no anchor", "hold_frames,anchor\n1,soon\n", `row 2: "soon" is no anchor`},
		{"no mark", "hold_frames,rig\n1,maybe\n", `row 2: rig: "maybe" is neither yes nor no`},
		{"no passage", "hold_frames,transition\n1,jump\n", `row 2: "jump" is no transition`},
		{"no length of one", "hold_frames,transition,transition_frames\n1,fade,0\n", `row 2: "0" is no length`},
		{"too many columns", strings.Repeat("a,", 300) + "\n", "more than 200 columns"},
		{"too many rows", "hold_frames\n" + strings.Repeat("1\n", board.MaxPanels+1), "row 20002: there are more than 20000 panels"},
	}
	for _, tt := range tests {
		timing, notes, err := ReadPanels([]byte(tt.table), fps(24))
		if err == nil || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.says)
		}
		if notes != nil || timing.Cues != nil {
			t.Errorf("%s: refused, yet something came back", tt.name)
		}
	}
}

func TestAnchorWords(t *testing.T) {
	for want, a := range map[string]board.Anchor{
		"beat 5":                        {Beat: 4, Of: 1},
		"beat -2 + 1/3":                 {Beat: -3, Part: 1, Of: 3},
		"beat 1 + 2/3, 2 frames early":  {Beat: 0, Part: 2, Of: 3, Offset: -2},
		"beat 12, 1 frames late":        {Beat: 11, Of: 1, Offset: 1},
		"beat 7 + 1/48, 9 frames early": {Beat: 6, Part: 1, Of: 48, Offset: -9},
	} {
		s := board.Start{Time: 3, Anchor: a}
		if got := anchorWords(s); got != want {
			t.Errorf("%+v is written as %q, want %q", a, got, want)
		}
		if got, err := parseAnchor(want, 3); err != nil || *got != s {
			t.Errorf("%q is read as %+v, %v", want, got, err)
		}
	}
}

// Tables are what any reader of CSV takes, with lines that end as RFC 4180,
// section 2, has it.
func TestTableForm(t *testing.T) {
	text, err := PanelTable(teaFilm(t))
	must(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	must(t, err)
	if len(rows) != 6 || len(rows[0]) != len(columns) {
		t.Errorf("%d rows of %d cells", len(rows), len(rows[0]))
	}
	if n := bytes.Count(text, []byte("\n")); n != bytes.Count(text, []byte("\r\n")) {
		t.Error("a line does not end in a carriage return and a line feed")
	}
}

func FuzzReadPanels(f *testing.F) {
	text, err := PanelTable(teaFilm(f))
	must(f, err)
	f.Add(text)
	f.Add([]byte("title;hold_s\nCup;0,5\n"))
	f.Add([]byte("start_frame,anchor,fps\n0,free,24\n12,\"beat 5 + 1/2, 2 frames early\",24\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		timing, _, err := ReadPanels(data, fps(24))
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Errorf("more than a sentence: %q", err)
			}
			return
		}
		b, err := board.NewFromTiming(timing)
		if err != nil {
			return // too long, for instance
		}
		must(t, b.Check())
		again, err := PanelTable(b)
		must(t, err)
		back, _, err := ReadPanels(again, fps(24))
		must(t, err)
		same, _, err := b.Take(back)
		must(t, err)
		if !reflect.DeepEqual(same.Starts(), b.Starts()) {
			t.Errorf("starts %v came back as %v", b.Starts(), same.Starts())
		}
	})
}
