package file

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// longBoard returns a board with every field in use.
func longBoard(panels, beats, onsets int) board.Board {
	b := board.New()
	b.Title = `The kettle's "waltz"`
	b.Rate = board.FrameRate{Num: 24000, Den: 1001}
	b.Step = 2
	b.Song = &board.Song{Name: "waltz.mp3", Media: fakeID(0), Seconds: 600.25, Offset: -0.125}
	b.Grid = board.Grid{Tempo: 119.99, Confidence: 0.875, Metre: 3}
	for i := range beats {
		b.Grid.Beats = append(b.Grid.Beats, board.Beat{Time: 0.3 + float64(i)/3, Bar: i%3 == 0})
	}
	for i := range onsets {
		b.Grid.Onsets = append(b.Grid.Onsets, board.Onset{Time: float64(i) / 7, Strength: float64(i%10) / 9})
	}
	for i := range panels {
		p := board.Panel{
			ID: b.NextID, Start: board.Free(float64(i) / 3), Picture: fakeID(i), Step: i % 4, Still: i%5 == 1,
			Words: board.Words{
				Title:  fmt.Sprintf("Panel %d", i+1),
				Action: "The spoon leans over the rim, looks down and thinks better of it.",
				Sound:  "tink",
				Note:   "Rig wire from the left; keep the shadow of the cup in the frame.",
			},
		}
		if i > 0 && i%2 == 0 {
			p.Start.Anchor = board.Anchor{Beat: i, Of: 2, Part: 1, Offset: -2}
		}
		b.NextID++
		b.Panels = append(b.Panels, p)
	}
	for i := 0; i+1 < panels; i += 40 {
		b.Moves = append(b.Moves, board.ObjectMove{ID: board.MoveID(i + 1), Object: "spoon", First: b.Panels[i].ID, Last: b.Panels[i+1].ID,
			Keys: []board.Spot{{Height: 200}, {X: 30.5}}, Manner: board.Falling, Scale: 6, Hits: []board.Hit{{Moment: 1, Start: board.Free(float64(i) / 7)}}})
	}
	b.Plan = &board.Planning{Pace: 2.75, SetUp: 0, Session: 150, Copies: 1, Log: []board.Logged{{Shot: "1", Exposures: 12, Minutes: 33}}}
	for i := 0; i < panels; i += 70 {
		b.Remarks = append(b.Remarks, board.Remark{ID: fmt.Sprintf("n-%d", i), Author: "Aunt", Written: int64(i), Panel: b.Panels[i].ID, After: 0.25,
			Text: "Slower here?", Answer: "On twos now.", State: board.RemarkDone})
	}
	b.End = board.Start{Time: float64(panels)/3 + 1, Anchor: board.Anchor{Beat: panels + 1, Of: 1}}
	return b
}

// fakeID returns an id no film holds.
func fakeID(i int) board.MediaID { return board.MediaID(fmt.Sprintf("%064x", i+1)) }

// isFake reports whether an id is one of fakeID.
func isFake(id board.MediaID) bool { return strings.HasPrefix(string(id), strings.Repeat("0", 50)) }

// noise returns n bytes that do not repeat, the same for the same seed.
func noise(n int, seed uint64) []byte {
	data := make([]byte, n)
	r := rand.New(rand.NewPCG(seed, 1))
	for i := range data {
		data[i] = byte(r.Uint32())
	}
	return data
}

func mustCreate(t testing.TB, path string, b board.Board) *File {
	t.Helper()
	f, err := Create(path, b)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func mustOpen(t testing.TB, path string) (*File, board.Board) {
	t.Helper()
	f, b, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f, b
}

func mustClose(t testing.TB, f *File) {
	t.Helper()
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

func mustRead(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func mustWrite(t testing.TB, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// checkBoard checks that a board came back as it was, and says where it
// differs if not.
func checkBoard(t testing.TB, got, want board.Board) {
	t.Helper()
	if reflect.DeepEqual(got, want) {
		return
	}
	g, w := fmt.Sprintf("%#v", got), fmt.Sprintf("%#v", want)
	at := 0
	for at < min(len(g), len(w)) && g[at] == w[at] {
		at++
	}
	at = max(0, at-60)
	t.Errorf("another board:\ngot  ...%.200s\nwant ...%.200s", g[at:], w[at:])
}

// filesIn returns the names in a folder.
func filesIn(t testing.TB, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// goodFilm returns the bytes of a small film with a picture and a song, and
// their ids.
func goodFilm(t testing.TB) ([]byte, []board.MediaID) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "good"+Ext)
	b := longBoard(5, 12, 20)
	f := mustCreate(t, path, b)
	pictures, err := f.AddMedia(Picture, Media{Name: "cup.png", Data: noise(9000, 1)})
	if err != nil {
		t.Fatal(err)
	}
	songs, err := f.AddMedia(Song, Media{Name: "waltz.mp3", Data: noise(5000, 2)})
	if err != nil {
		t.Fatal(err)
	}
	b.Panels[0].Picture, b.Song.Media = pictures[0], songs[0]
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	if err := f.SetSetting("zoom", "2.5"); err != nil {
		t.Fatal(err)
	}
	mustClose(t, f)
	return mustRead(t, path), append(pictures, songs...)
}
