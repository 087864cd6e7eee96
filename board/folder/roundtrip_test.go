package folder

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestFilmJSON(t *testing.T) {
	b, s := teaFilm(t)
	dir := comesBack(t, b, s)
	text, err := os.ReadFile(filepath.Join(dir, "film.json"))
	must(t, err)
	golden(t, "film.json", text)
	want := []string{"film.json", "pictures/001 The kettle.png", "pictures/002 IMG_0412.png", "song/waltz.wav"}
	if got := tree(t, dir); !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

func TestDrawnFilmJSON(t *testing.T) {
	b, s := drawnFilm(t)
	dir := comesBack(t, b, s)
	text, err := os.ReadFile(filepath.Join(dir, "film.json"))
	must(t, err)
	golden(t, "drawn.json", text)
	want := []string{"film.json", "pictures/001 The kettle.png", "pictures/002 IMG_0412.png",
		"sketches/001 The kettle.sketch", "sketches/004.sketch", "song/waltz.wav"}
	if got := tree(t, dir); !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
}

// A medium that is a picture and the song at once is there once.
func TestAMediumOfTwoKinds(t *testing.T) {
	b, s := teaFilm(t)
	delete(s, b.Song.Media)
	b.Song.Media = b.Panels[0].Picture
	if files := tree(t, comesBack(t, b, s)); len(files) != 3 {
		t.Errorf("the folder holds %q", files)
	}
}

func TestEmptyFilm(t *testing.T) {
	b := board.New()
	dir := comesBack(t, b, store{})
	holds(t, dir, "film.json")
	text, err := os.ReadFile(filepath.Join(dir, "film.json"))
	must(t, err)
	golden(t, "empty.json", text)
}

// A field of the board that is not carried, one added tomorrow included, does
// not come back here.
func TestEveryFieldComesBack(t *testing.T) {
	b, s := fullBoard(t)
	if empty := emptyFields(reflect.ValueOf(b), "Board"); len(empty) > 0 {
		t.Fatalf("these fields are not filled, so the test would not see them go: %v", empty)
	}
	comesBack(t, b, s)
}

func TestTheCheckOfFieldsSeesEmptyOnes(t *testing.T) {
	b, _ := fullBoard(t)
	b.Panels[1].Words.Note = ""
	b.Grid.Locks = nil
	want := []string{"Board.Grid.Locks", "Board.Panels[1].Words.Note"}
	if got := emptyFields(reflect.ValueOf(b), "Board"); !slices.Equal(got, want) {
		t.Errorf("it sees %v, want %v", got, want)
	}
}

// fullBoard returns a board of which no field is zero, by reflection, and the
// media its ids name.
func fullBoard(t testing.TB) (board.Board, store) {
	t.Helper()
	var b board.Board
	f := filler{t: t, store: store{}}
	f.fill(reflect.ValueOf(&b).Elem())
	b.Rate = board.FrameRate{Num: 30000, Den: 1001}
	b.Song.Media = f.store.add("full.wav", tune())
	b.Song.Seconds = 1000 // longer than its trims and fades
	b.NextID = 1000
	for i := range b.Panels {
		slices.SortFunc(*b.Panels[i].FrameNotes, func(a, b board.FrameNote) int { return cmp.Compare(a.After, b.After) })
		b.Panels[i].Drawn.Sketch = f.store.add(fmt.Sprintf("drawn %d.sketch", i), scrawl(t, i))
	}
	for id := range f.store { // pictures that the filler gave the song and sketches first
		if !slices.Contains(b.Media(), id) {
			delete(f.store, id)
		}
	}
	for i := range b.Remarks {
		b.Remarks[i].Panel = b.Panels[0].ID
	}
	for i := range b.Moves {
		m := &b.Moves[i]
		m.ID, m.First, m.Last = board.MoveID(i+1), b.Panels[0].ID, b.Panels[1].ID
		m.Keys = append(m.Keys, board.Spot{X: 1, Y: 2, Height: 3})
		for k := range m.Hits {
			m.Hits[k] = board.Hit{Moment: k + 1, Start: board.Start{Time: 0.5, Anchor: board.Anchor{Beat: 3, Part: 1, Of: 3, Offset: -2}}}
		}
		m.Anticipate, m.Overshoot, m.Damping, m.Rebound = 0.1, 0.2, 0.3, 0.4
	}
	b.Plan.Session = 90.5
	must(t, b.Check())
	return b, f.store
}

// filler sets every field of a value to something of its own.
type filler struct {
	t     testing.TB
	n     int
	store store
}

func (f *filler) fill(v reflect.Value) {
	f.n++
	switch at := v.Addr().Interface().(type) {
	case *board.Opening:
		*at = board.OpensScene
	case *board.Passage:
		*at = board.Wipe
	case *board.LetterKind:
		*at = board.Label
	case *board.Back:
		*at = board.Plate
	case *board.Colour:
		*at = board.Colour(fmt.Sprintf("%06x", f.n))
	case *board.Fitting:
		*at = board.ByHand
	case *board.Spacing:
		*at = board.SlowIn
	case *board.RemarkState:
		*at = board.RemarkDone
	case *board.Manner:
		*at = board.SlowingIn
	case *board.MediaID:
		*at = f.store.add(fmt.Sprintf("brought in %d.png", f.n), greyPicture(f.t, f.n))
	case *board.PanelID:
		*at = board.PanelID(f.n)
	case *board.Anchor:
		*at = board.Anchor{Beat: f.n, Part: 1, Of: 3, Offset: board.Frame(-f.n)}
	default:
		f.fillKind(v)
	}
}

func (f *filler) fillKind(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(fmt.Sprintf("w%d", f.n))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int64:
		v.SetInt(3)
	case reflect.Float64:
		v.SetFloat(float64(f.n) / 128) // below 2, the least limit
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range v.Len() {
			f.fill(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f.fill(v.Field(i))
		}
	default:
		f.t.Fatalf("the filler does not know what to put into a %s", v.Type())
	}
}

// emptyFields returns the fields in v that are zero, lists without elements
// included.
func emptyFields(v reflect.Value, path string) (out []string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return emptyFields(v.Elem(), path)
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = append(out, emptyFields(v.Index(i), fmt.Sprintf("%s[%d]", path, i))...)
		}
		if v.Len() > 0 {
			return out
		}
	case reflect.Struct:
		for i := range v.NumField() {
			out = append(out, emptyFields(v.Field(i), path+"."+v.Type().Field(i).Name)...)
		}
		return out
	}
	if v.IsZero() || v.Kind() == reflect.Slice {
		out = append(out, path)
	}
	return out
}

func TestRatesComeBackExactly(t *testing.T) {
	for _, r := range append(slices.Clone(board.Rates), board.FrameRate{Num: 25, Den: 2}, board.FrameRate{Num: 48, Den: 2},
		board.FrameRate{Num: 1, Den: 1}, board.FrameRate{Num: 120, Den: 1}, board.FrameRate{Num: 119999999, Den: 1000000}) {
		b := board.New()
		b.Rate = r
		comesBack(t, b, store{})
	}
}

// Holds from one frame to the whole film, at each rate, on starts of each
// kind, to the last bit of each second.
func TestHoldsComeBackExactly(t *testing.T) {
	for _, r := range board.Rates {
		b, s := teaFilm(t)
		b.Rate, b.Panels, b.NextID = r, nil, 1
		for _, f := range []board.Frame{0, 1, 2, 3, 5, 1000, 1001, 80000} {
			b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(r.Seconds(f)), Picture: idOf(greyPicture(t, 1))})
			b.NextID++
		}
		b.Panels[4].Start = board.Start{Time: 1e-300, Anchor: board.Anchor{Beat: -3, Part: 47, Of: 48, Offset: 7}}
		b.Panels[5].Start.Anchor = board.Anchor{Beat: 9, Part: 2} // of no parts: it is free
		b.Panels[5].Picture = idOf(greyPicture(t, 2))
		b.End = board.Free(r.Seconds(80001))
		dir := comesBack(t, b, s)
		got, _, err := Read(context.Background(), dir, nil)
		must(t, err)
		if !slices.Equal(got.Starts(), b.Starts()) {
			t.Errorf("at %s: starts %v, want %v", r, got.Starts(), b.Starts())
		}
	}
}

func TestNamesOfEveryScript(t *testing.T) {
	b, s := teaFilm(t)
	titles := []string{"Чайник, который поёт", "お茶\u3000と\u3000砂糖", "چای می\u200cریزد", "👩\u200d🚀 takes tea", strings.Repeat("नमस्ते ", 40), "../..", "a/b\\c:*?\"<>|\x07\u202eb", "CON", ".", "e\u0301tude"}
	b.Panels, b.NextID = nil, 1
	clear(s)
	for i, title := range titles {
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(float64(i)), Picture: s.add(title+".PNG", greyPicture(t, i)), Words: board.Words{Title: title}})
		b.NextID++
	}
	b.Song.Name = "песня.wav"
	b.Song.Media = s.add("песня.wav", tune())
	b.End = board.Free(float64(len(titles)))
	dir := comesBack(t, b, s)
	golden(t, "names.txt", []byte(strings.Join(tree(t, dir), "\n")+"\n"))
}

// Ten thousand panels with a picture for every fiftieth.
func TestManyPanels(t *testing.T) {
	b, s := teaFilm(t)
	b.Panels, b.NextID = nil, 1
	clear(s)
	b.Song = nil
	var picture board.MediaID
	for i := range 10000 {
		if i%50 == 0 {
			picture = s.add("p.png", greyPicture(t, i))
		}
		p := board.Panel{ID: b.NextID, Start: board.Free(float64(i) / 24), Words: board.Words{Title: fmt.Sprintf("Panel %d", i+1), Action: "It leans over the rim."}}
		p.Picture = picture
		b.NextID++
		b.Panels = append(b.Panels, p)
	}
	b.End = board.Free(10000.0 / 24)
	dir := comesBack(t, b, s)
	if files := tree(t, dir); len(files) != 201 || files[1] != "pictures/00001 Panel 1.png" || files[200] != "pictures/09951 Panel 9951.png" {
		t.Errorf("the folder holds %d files, the second %q, the last %q", len(files), files[1], files[len(files)-1])
	}
}
