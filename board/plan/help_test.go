package plan

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

// made is the time tests say call sheets were made.
var made = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func do(t testing.TB, b board.Board, edits ...board.Edit) board.Board {
	t.Helper()
	for _, e := range edits {
		out, err := e.Apply(b)
		if err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
		b = out
	}
	return b
}

// film returns a film at 24 fps of these panels and holds.
func film(t testing.TB, step int, panels []board.Panel, holds ...board.Frame) board.Board {
	t.Helper()
	return do(t, board.New(), board.SetStep(step), board.Paste(0, panels, holds))
}

// shotsFilm returns a film of n shots, a panel each, all holding as long.
func shotsFilm(t testing.TB, step, n int, hold board.Frame) board.Board {
	t.Helper()
	panels, holds := make([]board.Panel, n), make([]board.Frame, n)
	for i := range panels {
		panels[i].Opens, holds[i] = board.OpensShot, hold
	}
	return film(t, step, panels, holds...)
}

func planOf(t testing.TB, b board.Board) Plan {
	t.Helper()
	p, err := Make(b)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// teaTable is a film of two scenes with all there is to plan: a rig, an effect,
// a plate, a still panel, a repeat, a dissolve, moves, a long shot.
func teaTable(t testing.TB) board.Board {
	t.Helper()
	b := film(t, 2, []board.Panel{
		{Picture: "aa", Heading: "The table", Words: board.Words{Title: "Cup", Action: "The cup turns and looks at the spoon"}},
		{Picture: "bb", Still: true, Words: board.Words{Action: "The spoon lies there"}},
		{Picture: "cc", Opens: board.OpensShot, Words: board.Words{Action: "The cup jumps over the saucer", Marks: board.Marks{Rig: true}}},
		{Picture: "dd", Opens: board.OpensShot, Into: board.Transition{Kind: board.Dissolve, Frames: 12}, Words: board.Words{Action: "Steam fills the room", Marks: board.Marks{Effect: true, Plate: true}}},
		{Picture: "bb", Opens: board.OpensScene, Still: true, Words: board.Words{Action: "The spoon lies there"}},
		{Picture: "ee", Opens: board.OpensShot, Heading: "The sink", Words: board.Words{Action: "The teapot walks along the edge, slips, catches hold of the tap and hangs on"}},
		{Picture: "ff", Opens: board.OpensShot, Words: board.Words{Action: "A drop falls"}},
	}, 48, 36, 60, 48, 24, 300, 24)
	return do(t, b, board.SetTitle("Tea table"),
		board.AddObjectMove(board.ObjectMove{Object: "cup", First: b.Panels[2].ID, Last: b.Panels[2].ID, Keys: []board.Spot{{}, {X: 80}}, Manner: board.Jumping}),
		board.AddObjectMove(board.ObjectMove{Object: "teapot", First: b.Panels[5].ID, Last: b.Panels[5].ID, Keys: []board.Spot{{}, {X: 400}}}))
}

func pdfOf(t testing.TB, b board.Board, o Paper) []byte {
	t.Helper()
	o.Made = made
	var out bytes.Buffer
	if err := planOf(t, b).PDF(&out, b, o); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// pdfText returns the text of a PDF page by page, as pdftotext of
// poppler-utils lays it out, without runs of spaces and empty lines.
func pdfText(t *testing.T, data []byte) []string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "plan.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", "-enc", "UTF-8", file, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext (of poppler-utils): %v", err)
	}
	var pages []string
	for _, p := range strings.Split(strings.TrimSuffix(string(out), "\f"), "\f") {
		var page strings.Builder
		for _, l := range strings.Split(p, "\n") {
			if l = strings.Join(strings.Fields(l), " "); l != "" {
				page.WriteString(l + "\n")
			}
		}
		pages = append(pages, page.String())
	}
	return pages
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; run with -update and read the diff. It is\n%s", name, got)
	}
}
