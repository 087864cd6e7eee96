package folder

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

// store holds the media of a film.
type store map[board.MediaID]stored

// stored is a medium of it.
type stored struct {
	name string
	data []byte
}

// add stores bytes under a name and returns their id.
func (s store) add(name string, data []byte) board.MediaID {
	id := idOf(data)
	s[id] = stored{name, data}
	return id
}

func (s store) source(id board.MediaID) ([]byte, string, error) {
	m, ok := s[id]
	if !ok {
		return nil, "", fmt.Errorf("there is no medium %.12s", id)
	}
	return m.data, m.name, nil
}

// greyPicture returns a PNG of one grey, another for each n.
func greyPicture(t testing.TB, n int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 4, 2))
	for i := range img.Pix {
		img.Pix[i] = uint8(n >> (8 * (i % 4)))
	}
	var out bytes.Buffer
	must(t, png.Encode(&out, img))
	return out.Bytes()
}

// drawnFilm returns the small film in another shape, drawn on: a sketch on two
// panels, one of them without a picture, and another beside a picture alone.
func drawnFilm(t testing.TB) (board.Board, store) {
	t.Helper()
	b, s := teaFilm(t)
	b.Aspect = board.Aspect{W: 239, H: 100}
	arrow := s.add("arrow.sketch", scrawl(t, 1))
	b.Panels[0].Drawn = &board.Drawn{
		Placed: board.Placement{Fit: board.ByHand, At: board.Point{X: 0.25, Y: -0.125}, Scale: 1.5, Turn: -3, Flip: true},
		Travel: board.CameraMove{To: board.Framing{At: board.Point{X: 0.2}, Width: 0.5}, Spacing: board.SlowInOut},
		Sketch: arrow,
		Lettering: []board.Letter{
			{Kind: board.TitleCard, Text: "Tea & <sugar>", Back: board.Outline, Ink: "c0392b"},
			{Kind: board.Arrow, At: board.Point{X: -0.2}, To: board.Point{X: 0.4}, Bend: 0.1},
		},
	}
	b.Panels[2].Drawn = &board.Drawn{Sketch: arrow}
	b.Panels[3].Drawn = &board.Drawn{Sketch: s.add("", scrawl(t, 2))}
	b.Panels[1].Drawn = &board.Drawn{Placed: board.Placement{Fit: board.Filled}}
	b.Moves = []board.ObjectMove{
		{ID: 1, Object: "cup", First: 1, Last: 7, Keys: []board.Spot{{Height: 200}, {X: 60}}, Manner: board.Falling, Scale: 6,
			Hits: []board.Hit{{Moment: 1, Start: board.Start{Time: 2.25, Anchor: board.Anchor{Beat: 3, Of: 1}}}}},
		{ID: 4, First: 3, Last: 3, Keys: []board.Spot{{}, {X: 40}, {X: 40, Y: -25}}, Hits: []board.Hit{{Moment: 0, Start: board.Free(3.375)}},
			Sight: board.Sight{At: board.Point{Y: 0.3}, PerMM: 0.004}},
	}
	b.Remarks = []board.Remark{
		{ID: "k3-1", Author: "Aunt", Written: 1767225600000, Panel: 7, After: 0.25, Was: 2, Text: "<b>Slower</b>,\nplease", Answer: "yes", State: board.RemarkAccepted},
		{ID: "k3-2", Author: "Aunt", Written: 1767225600001, Was: 3, Text: "its panel is gone"},
		{ID: "k3-3", Author: "Aunt", Written: 1767225600002, Panel: 1, State: board.RemarkGone},
	}
	return b, s
}

// kindOf returns what a medium of a board is.
func kindOf(b board.Board, id board.MediaID) Kind {
	if b.Song != nil && id == b.Song.Media {
		return Song
	}
	for _, p := range b.Panels {
		if p.Drawing().Sketch == id {
			return Sketch
		}
	}
	return Picture
}

// tune returns bytes that begin like a WAVE file.
func tune() []byte { return []byte("RIFF\x04\x00\x00\x00WAVE") }

// scrawl returns a sketch of one stroke, another for each n.
func scrawl(t testing.TB, n int) []byte {
	t.Helper()
	data, err := board.EncodeSketch(board.Sketch{Strokes: []board.Stroke{
		{Layer: board.Above, Smooth: true, Width: 80, Dots: []board.Dot{{X: int32(n), Wide: 255}, {Y: -900, Wide: 30}}}}})
	must(t, err)
	return data
}

// teaFilm returns a small film with a song, two pictures of which one is shown
// twice, a panel without one, and all the kinds of starts.
func teaFilm(t testing.TB) (board.Board, store) {
	t.Helper()
	s := store{}
	kettle, spoon := s.add("kettle on.png", greyPicture(t, 1)), s.add("IMG_0412.PNG", greyPicture(t, 2))
	b := board.New()
	b.Title, b.Rate, b.Step, b.NextID = "Tea for 二人", board.FrameRate{Num: 24000, Den: 1001}, 2, 8
	b.Song = &board.Song{Name: "waltz.wav", Media: s.add("waltz.wav", tune()), Seconds: 8, Offset: 0.5, FadeOut: 0.25}
	for i := range 8 {
		b.Grid.Beats = append(b.Grid.Beats, board.Beat{Time: 0.25 + float64(i)/2, Bar: i%3 == 0, Hand: i == 3})
	}
	b.Grid.Tempo, b.Grid.Confidence, b.Grid.Metre = 120, 0.875, 3
	b.Grid.Onsets = []board.Onset{{Time: 0.1 + 0.2, Strength: 1}, {Time: 1, Strength: 1.0 / 3}}
	b.Grid.Locks = []board.Stretch{{From: 0, To: 1}}
	b.Panels = []board.Panel{
		{ID: 1, Picture: kettle, Words: board.Words{Title: "The kettle", Sound: "“tink” & <hiss>"}},
		{ID: 7, Picture: spoon, Start: board.Start{Time: 1.75, Anchor: board.Anchor{Beat: 2, Of: 1, Offset: -2}}, Step: 1},
		{ID: 3, Start: board.Free(1.0 / 0.3), Opens: board.OpensShot, Into: board.Transition{Kind: board.Dissolve, Frames: 12}},
		{ID: 4, Picture: kettle, Start: board.Start{Time: 3.5, Anchor: board.Anchor{Beat: 5, Part: 1, Of: 2}}},
	}
	b.End = board.Start{Time: 4.75, Anchor: board.Anchor{Beat: 8, Of: 1}}
	b.Markers = []board.Marker{{Start: board.Free(2), Name: "the lid"}}
	return b, s
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// written writes a film as a new folder and returns its path.
func written(t testing.TB, b board.Board, s store) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "tea")
	must(t, Write(context.Background(), dir, b, s.source, nil))
	return dir
}

// comesBack writes a film, reads it and checks that board and media are the
// same; the folder is returned.
func comesBack(t testing.TB, b board.Board, s store) string {
	t.Helper()
	dir := written(t, b, s)
	got, media, err := Read(context.Background(), dir, nil)
	must(t, err)
	if !reflect.DeepEqual(got, b) {
		t.Errorf("another board came back:\ngot  %+v\nwant %+v", got, b)
	}
	back := store{}
	for _, m := range media {
		data, err := m.Data()
		must(t, err)
		back.add(m.Name, data)
		if want := kindOf(b, m.ID); m.Kind != want {
			t.Errorf("%s is a %s, want a %s", m.Name, m.Kind, want)
		}
	}
	if !reflect.DeepEqual(back, s) || len(media) != len(s) {
		t.Errorf("%d media came back as %d, or others", len(s), len(media))
	}
	return dir
}

// tree lists the files below a folder, with slashes, in order.
func tree(t testing.TB, dir string) []string {
	t.Helper()
	var out []string
	must(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			path, err = filepath.Rel(dir, path)
			out = append(out, filepath.ToSlash(path))
		}
		return err
	}))
	return out
}

// golden compares text with testdata/name.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		must(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	must(t, err)
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs (go test -update rewrites it)\ngot:\n%s\nwant:\n%s", name, got, want)
	}
}

// oneSentence fails unless err is one line that says all of want.
func oneSentence(t testing.TB, err error, want ...string) {
	t.Helper()
	if err == nil {
		t.Fatalf("there is no error, want one that says %q", want)
	}
	for _, w := range want {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("it says %q, want %q in it", err, w)
		}
	}
	if strings.Contains(err.Error(), "\n") || len(err.Error()) > 400 {
		t.Errorf("it says %q, want one line", err)
	}
}

// holds fails unless the folder holds these names and no others.
func holds(t testing.TB, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	must(t, err)
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

var errDisk = errors.New("the disk is broken")
