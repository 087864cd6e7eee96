package printed

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
)

var update = flag.Bool("update", false, "rewrite golden files")

// made is the time tests say a board was printed.
var made = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

// rings is a source of pictures: the id "ring 3" is the third of them, rings of
// its own distance and colour.
type rings struct{}

// ringsMade keeps the bytes of those made.
var ringsMade sync.Map

func (rings) Media(id board.MediaID) ([]byte, error) {
	if data, ok := ringsMade.Load(id); ok {
		return data.([]byte), nil
	}
	var n int
	if _, err := fmt.Sscanf(string(id), "ring %d", &n); err != nil {
		return nil, fs.ErrNotExist
	}
	img := image.NewRGBA(image.Rect(0, 0, 640, 360))
	for y := range 360 {
		for x := range 640 {
			v := 0.5 + 0.5*math.Sin(math.Hypot(float64(x-320), float64(y-180))/float64(8+n%9))
			img.SetRGBA(x, y, color.RGBA{uint8(60 + 150*v), uint8(90 + 20*(n%7) + int(40*v)), uint8(200 - 90*v), 255})
		}
	}
	var out bytes.Buffer
	err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&out, img)
	ringsMade.Store(id, out.Bytes())
	return out.Bytes(), err
}

func ring(n int) board.MediaID { return board.MediaID(fmt.Sprint("ring ", n)) }

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

// teaTable is a film of two scenes, three shots and four panels at 24 fps on
// twos, with a song of 120 beats a minute, four to the bar, from second 0 on.
func teaTable(t testing.TB) board.Board {
	beats, bars := make([]float64, 20), []float64{}
	for i := range beats {
		beats[i] = 0.5 * float64(i)
		if i%4 == 0 {
			bars = append(bars, beats[i])
		}
	}
	grid := board.NewGrid(beats, bars)
	grid.Tempo = 120
	return do(t, board.New(), board.SetTitle("Tea table"), board.SetStep(2),
		board.SetSong(&board.Song{Name: "tune.wav", Seconds: 12}, grid),
		board.Paste(0, []board.Panel{
			{Picture: ring(1), Heading: "The table", Words: board.Words{Title: "Cup", Action: "The cup turns and looks at the spoon.\nThe spoon looks away.", Sound: "clink, then a long hum", Size: "MS", Marks: board.Marks{Rig: true}}},
			{Picture: ring(2), Words: board.Words{Action: "It hops", Camera: "push in", Marks: board.Marks{Effect: true, Plate: true}}},
			{Picture: ring(1), Opens: board.OpensScene, Heading: "The sink", Words: board.Words{Sound: "drip", Note: "wet"}},
			{Opens: board.OpensShot, Heading: "Close", Words: board.Words{Action: "Nothing"}},
		}, []board.Frame{24, 18, 30, 25}),
		board.SetPanelStep([]int{1}, 1),
		board.SetTransition([]int{2}, board.Transition{Kind: board.Dissolve, Frames: 8}),
		board.SetMove([]int{1}, board.CameraMove{To: board.Framing{Width: 0.5, At: board.Point{X: 0.1, Y: -0.2}}, Spacing: board.SlowIn}),
		board.SetFrameNote(10, "blink"),
	)
}

// hum is a waveform that swells.
func hum(from, to float64, n int) []Peak {
	out := make([]Peak, n)
	for i := range out {
		v := float32(math.Abs(math.Sin(from + (to-from)*float64(i)/float64(n))))
		out[i] = Peak{-v, v}
	}
	return out
}

// many is a film of n panels of a second each with words, the kth beginning
// with "action-k-".
func many(t testing.TB, n int) board.Board {
	panels, holds := make([]board.Panel, n), make([]board.Frame, n)
	for i := range panels {
		panels[i] = board.Panel{Words: board.Words{Action: fmt.Sprintf("action-%d- of the cup, which turns and looks at the spoon", i+1), Sound: "clink"}}
		holds[i] = 24
	}
	return do(t, board.New(), board.SetTitle("Many cups"), board.Paste(0, panels, holds))
}

// inPairs gives panels pictures of which each is seen twice.
func inPairs(b board.Board) board.Board {
	b.Panels = slices.Clone(b.Panels)
	for i := range b.Panels {
		b.Panels[i].Picture = ring(i / 2)
	}
	return b
}

func pdfOf(t testing.TB, b board.Board, o Options) []byte {
	t.Helper()
	if o.Made.IsZero() {
		o.Made = made
	}
	var out bytes.Buffer
	if err := Board(context.Background(), &out, b, picture.NewCache(rings{}, 0), o); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// poppler runs a tool of poppler-utils, which reads PDF files by itself, on a
// document. "FILE" among the arguments is its name.
func poppler(t *testing.T, data []byte, tool string, args ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "board.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = file
		}
	}
	var complaints bytes.Buffer
	cmd := exec.Command(tool, args...)
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("%s (of poppler-utils): %v %s", tool, err, complaints.String())
	}
	return string(out)
}

// pages returns the text of a PDF page by page.
func pages(t *testing.T, data []byte) []string {
	t.Helper()
	text := poppler(t, data, "pdftotext", "-layout", "-enc", "UTF-8", "FILE", "-")
	return strings.Split(strings.TrimSuffix(text, "\f"), "\f")
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
