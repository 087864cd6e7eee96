package sheet

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

// made is the time tests say a sheet was made.
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

// teaTable is a film of three shots at a rate, on twos, with a song of 120
// beats a minute, four to the bar. At 24 fps its panels hold 24, 18, 30 and 25
// frames, the second on ones.
func teaTable(t testing.TB, r board.FrameRate) board.Board {
	b := do(t, board.New(), board.SetTitle("Tea table"), board.SetRate(r), board.SetStep(2))
	beats := make([]float64, 20)
	var bars []float64
	for i := range beats {
		beats[i] = 0.5 * float64(i)
		if i%4 == 0 {
			bars = append(bars, beats[i])
		}
	}
	grid := board.NewGrid(beats, bars)
	grid.Onsets = []board.Onset{{Time: 0.25, Strength: 0.9}, {Time: 0.3, Strength: 0.2}, {Time: 2, Strength: 0.7}}
	frames := func(at24 int) board.Frame { return r.Nearest(float64(at24) / 24) }
	b = do(t, b, board.SetSong(&board.Song{Name: "tune.wav", Seconds: 12}, grid),
		board.Paste(0, []board.Panel{
			{Picture: "aa", Words: board.Words{Title: "Cup", Action: "The cup turns and looks at the spoon", Sound: "clink, then a long hum", Size: "MS", Marks: board.Marks{Rig: true}}},
			{Picture: "bb", Words: board.Words{Action: "It hops", Camera: "push in", Marks: board.Marks{Effect: true, Plate: true}}},
			{Picture: "cc", Opens: board.OpensShot, Heading: "The sink", Words: board.Words{Action: "=SUM(A1:A9)", Sound: "-drip", Note: "wet, \"very\""}},
			{Opens: board.OpensShot},
		}, []board.Frame{frames(24), frames(18), frames(30), frames(25)}),
		board.SetPanelStep([]int{1}, 1),
		board.SetTransition([]int{2}, board.Transition{Kind: board.Dissolve, Frames: 8}),
		board.SetMove([]int{0}, board.CameraMove{To: board.Framing{Width: 0.5, At: board.Point{X: 0.1, Y: -0.2}}, Spacing: board.SlowIn}),
		board.AddMarker(board.Marker{Start: board.Free(1), Name: "hit"}),
		board.SetFrameNote(frames(10), "blink"),
	)
	return b
}

func pdfOf(t testing.TB, b board.Board, o Options, p Paper) []byte {
	t.Helper()
	p.Made = made
	var out bytes.Buffer
	if err := PDF(&out, b, o, p); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// pdfText returns the text of a PDF page by page, as pdftotext of
// poppler-utils lays it out.
func pdfText(t *testing.T, data []byte) []string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", "-enc", "UTF-8", file, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext (of poppler-utils): %v", err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
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

// drawn writes rows as text, a hold as |.
func drawn(rows []Row) string {
	var b strings.Builder
	for _, r := range rows {
		pose := "|"
		switch {
		case r.Nothing && r.Begins:
			pose = "X"
		case r.Nothing:
			pose = ""
		case r.Exposed:
			pose = fmt.Sprint(r.Pose)
		}
		fmt.Fprintf(&b, "%d %d+%d e%d %s %d.%d %q %s %v %q %q/%v %s %q/%v %q %q %q\n", r.Shot, r.Frame, r.Frames, r.Exposure, r.Time, r.Bar, r.Beat,
			r.Accent, r.Number, r.Begins, r.Action, r.Sound, r.SoundLasts, pose, r.Camera, r.CameraLasts, r.Marks, r.Note, r.Columns)
	}
	return b.String()
}
