package folder

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"stillbeat/board"
)

// smallDocument is a film.json that is read; cases change one thing in it.
const smallDocument = `{
  "format": "stillbeat folder", "version": 1, "title": "Tea", "rate": "24", "step": 1,
  "song": {"file": "song/a.wav", "name": "a.wav", "seconds": 8, "offset": 0},
  "panels": [
    {"start": 0, "picture": "pictures/a.png", "title": "one"},
    {"start": {"beat": 1}, "picture": "pictures/b.png"}
  ],
  "end": 2,
  "grid": {"beats": [{"time": 0.5}, {"time": 1}]}
}`

// smallFolder makes a folder of smallDocument with one thing replaced.
func smallFolder(t testing.TB, old, with string) string {
	t.Helper()
	if !strings.Contains(smallDocument, old) {
		t.Fatalf("there is no %s to replace", old)
	}
	dir := filepath.Join(t.TempDir(), "tea")
	for _, sub := range []string{"pictures", "song"} {
		must(t, os.MkdirAll(filepath.Join(dir, sub), 0o755))
	}
	must(t, os.WriteFile(filepath.Join(dir, "film.json"), []byte(strings.Replace(smallDocument, old, with, 1)), 0o644))
	must(t, os.WriteFile(filepath.Join(dir, "pictures", "a.png"), greyPicture(t, 1), 0o644))
	must(t, os.WriteFile(filepath.Join(dir, "pictures", "b.png"), greyPicture(t, 2), 0o644))
	must(t, os.WriteFile(filepath.Join(dir, "song", "a.wav"), tune(), 0o644))
	return dir
}

func TestReadFillsInWhatIsLeftOut(t *testing.T) {
	b, media, err := Read(context.Background(), smallFolder(t, "{", "\ufeff{"), nil)
	must(t, err)
	if b.Panels[0].ID != 1 || b.Panels[1].ID != 2 || b.NextID != 3 {
		t.Errorf("the ids are %d, %d and then %d", b.Panels[0].ID, b.Panels[1].ID, b.NextID)
	}
	if want := (board.Start{Time: 1, Anchor: board.Anchor{Beat: 1, Of: 1}}); b.Panels[1].Start != want {
		t.Errorf("the second start is %+v, want %+v", b.Panels[1].Start, want)
	}
	if len(media) != 3 || media[0].Name != "a.wav" || media[2].Name != "b.png" {
		t.Errorf("the media are %+v", media)
	}
	b, _, err = Read(context.Background(), smallFolder(t, `{"start": 0,`, `{"id": 5, "start": 0,`), nil)
	must(t, err)
	if b.Panels[0].ID != 5 || b.Panels[1].ID != 6 || b.NextID != 7 {
		t.Errorf("the ids are %d, %d and then %d", b.Panels[0].ID, b.Panels[1].ID, b.NextID)
	}
}

func TestFiguresLeftOutOfAPlanAreTheUsual(t *testing.T) {
	b, _, err := Read(context.Background(), smallFolder(t, `"end": 2`, `"plan": {"session": 90, "set_up": 0}, "end": 2`), nil)
	must(t, err)
	want := board.UsualPlanning
	want.Session, want.SetUp = 90, 0
	if !reflect.DeepEqual(b.Planning(), want) {
		t.Errorf("the plan is %+v, want %+v", b.Planning(), want)
	}
	b, _, err = Read(context.Background(), smallFolder(t, `"end": 2`, `"plan": null, "end": 2`), nil)
	must(t, err)
	if b.Plan != nil {
		t.Errorf("null is the plan %+v", b.Plan)
	}
}

// What is refused, and whether the schema refuses it too: it knows no sums, no
// order and no files.
func TestReadRefuses(t *testing.T) {
	s := schema(t)
	for _, c := range []struct {
		name, old, with, want string
		schemaToo             bool
	}{
		{"another format", `"stillbeat folder"`, `"a book"`, `its format is "a book"`, true},
		{"no version", `"version": 1, `, ``, "no version 0", true},
		{"a newer version", `"version": 1`, `"version": 2`, "newer Stillbeat: its format has version 2", true},
		{"a version later than it reads as", `"version": 1`, `"version": 3, "reads_as": 2`, "newer Stillbeat", true},
		{"a version that reads as a later one", `"version": 1`, `"version": 1, "reads_as": 2`, "no version 1 that can be read as 2", true},
		{"a version in quotes", `"version": 1`, `"version": "1"`, `"version" does not fit (string)`, true},
		{"an unknown field", `"title": "Tea"`, `"titel": "Tea"`, `"titel" is not known`, true},
		{"an unknown field of a panel", `"title": "one"`, `"titel": "one"`, `panel 1: the field "titel" is not known`, true},
		{"an unknown field of an anchor", `{"beat": 1}`, `{"beat": 1, "by": 2}`, `panel 2: the field "by" is not known`, true},
		{"an unknown field of a beat", `{"time": 1}`, `{"time": 1, "at": 2}`, `beat 2: the field "at" is not known`, true},
		{"no rate", `"rate": "24", `, ``, "frame rate is missing", true},
		{"a rate in decimals", `"24"`, `"23.976"`, `"23.976" is not a frame rate`, true},
		{"a rate as a number", `"24"`, `24`, `"rate" does not fit (number)`, true},
		{"a rate with a zero in front", `"24"`, `"024"`, "is not a frame rate", true},
		{"a rate of nothing", `"24"`, `"24/0"`, "is not a frame rate", true},
		{"a rate too fast", `"24"`, `"121"`, "outside 1 to 120", false},
		{"a step of thirteen", `"step": 1`, `"step": 13`, "step is 1 to 12", true},
		{"a step and a half", `"step": 1`, `"step": 1.5`, `"step" does not fit`, true},
		{"no start", `"start": 0, `, ``, "panel 1: its start is missing", true},
		{"a start in words", `"start": 0`, `"start": "0"`, "panel 1: the value does not fit (string)", true},
		{"a start beyond numbers", `"start": 0`, `"start": 1e999`, "panel 1: the value does not fit", true},
		{"a start beyond the film", `"start": 0`, `"start": 20000`, "panel 1: the start at 20000 seconds", true},
		{"an anchor without a beat", `{"beat": 1}`, `{"part": 0}`, `panel 2: an anchor needs a "beat"`, true},
		{"an anchor past its beat", `{"beat": 1}`, `{"beat": 1, "part": 2, "of": 2}`, "panel 2", false},
		{"an anchor with nothing to hold on to", `{"time": 0.5}, {"time": 1}`, ``, `panel 2: its anchor needs a "time"`, false},
		{"no end", `"end": 2,`, ``, "the end of the film", true},
		{"an id twice", `{"start": 0,`, `{"id": 1, "start": 0,`, "", false},
		{"an id below one", `{"start": 0,`, `{"id": -1, "start": 0,`, "id -1", true},
		{"an id without a next", `{"start": 0,`, `{"id": 9223372036854775807, "start": 0,`, "id", false},
		{"beats that run back", `{"time": 1}`, `{"time": 0.1}`, "ascending", false},
		{"panels that are no list", `"panels": [`, `"panels": 1, "names": [`, "no list where the panels", true},
		{"two documents", `{"beats": [{"time": 0.5}, {"time": 1}]}`, `{}} {`, "line 9 is not JSON", true},
		{"not JSON", `"end": 2,`, `"end" 2,`, "line 8 is not JSON", true},
		{"cut short", `"end": 2,`, "\x00", "line 8 is not JSON", true},
		{"not text", `"Tea"`, "\"\xff\"", "not text in UTF-8", false},
		{"a path above", `pictures/a.png`, `../a.png`, `panel 1: "../a.png": it is no path inside`, true},
		{"a path above in between", `pictures/a.png`, `pictures/../../a.png`, "it is no path inside", true},
		{"an absolute path", `pictures/a.png`, `/a.png`, "it is no path inside", true},
		{"a path of another system", `pictures/a.png`, `pictures\\a.png`, "it is no path inside", true},
		{"a path to nothing", `pictures/a.png`, `pictures/gone.png`, `panel 1: "pictures/gone.png": there is no such file`, false},
		{"a path to a folder", `pictures/a.png`, `pictures`, "not an ordinary file", false},
		{"the folder itself", `pictures/a.png`, `.`, "it is no path inside", true},
		{"a path with a zero byte", `pictures/a.png`, `a\u0000b`, `panel 1`, false},
		{"a picture that is none", `pictures/a.png`, `film.json`, "not a PNG, JPEG, GIF, WebP, BMP or TIFF picture", false},
		{"a sketch that is none", `"title": "one"`, `"sketch": "film.json"`, `panel 1: "film.json": not a sketch`, false},
		{"a sketch above", `"title": "one"`, `"sketch": "../a.sketch"`, "it is no path inside", true},
		{"a sketch by its id", `"title": "one"`, `"drawn": {"sketch": "` + strings.Repeat("ab", 32) + `"}`, `panel 1: the field "sketch" is not known`, true},
		{"an unknown field of what is drawn", `"title": "one"`, `"drawn": {"placd": {}}`, `panel 1: the field "placd" is not known`, true},
		{"an unknown field of a placement", `"title": "one"`, `"drawn": {"placed": {"fit": "fill", "by": 2}}`, `panel 1: the field "by" is not known`, true},
		{"an unknown fit", `"title": "one"`, `"drawn": {"placed": {"fit": "squeeze"}}`, "panel 1: \"squeeze\" is no way to fit", true},
		{"a turn that is not by hand", `"title": "one"`, `"drawn": {"placed": {"fit": "fill", "turn": 3}}`, "panel 1: a picture is moved", true},
		{"a scale too large", `"title": "one"`, `"drawn": {"placed": {"fit": "hand", "scale": 101}}`, "101 times its size", true},
		{"a place too far", `"title": "one"`, `"drawn": {"placed": {"fit": "hand", "at": {"x": 0, "y": -21}}}`, "too far from the frame", true},
		{"an unknown spacing", `"title": "one"`, `"drawn": {"travel": {"spacing": "fast"}}`, "is no spacing of a move", true},
		{"a framing too narrow", `"title": "one"`, `"drawn": {"travel": {"to": {"width": 0.001}}}`, "a framing 0.001 times", true},
		{"an unknown field of a note", `"title": "one"`, `"frame_notes": [{"after": 0, "text": "x", "font": "x"}]`, `panel 1: note on a frame 1: the field "font" is not known`, true},
		{"a note before its panel", `"title": "one"`, `"frame_notes": [{"after": -1, "text": "x"}]`, "a note -1 seconds after the start", true},
		{"a note without words", `"title": "one"`, `"frame_notes": [{"after": 1, "text": ""}]`, "a note on a frame is empty", true},
		{"an unknown field of a remark", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1, "text": "x", "colour": 1}], "end": 2`, `note of others 1: the field "colour" is not known`, true},
		{"a remark without words", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1}], "end": 2`, "note a: its text is empty", true},
		{"a remark that is gone with words", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1, "text": "x", "state": "gone"}], "end": 2`, "note a: its text is empty", true},
		{"a remark of nobody", `"end": 2`, `"remarks": [{"id": "a", "author": " ", "written": 1, "text": "x"}], "end": 2`, "note a: the name of its author is empty", true},
		{"a remark whose id is none", `"end": 2`, `"remarks": [{"id": "A b", "author": "x", "written": 1, "text": "x"}], "end": 2`, `the id "A b" of a note`, true},
		{"a remark twice", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1, "text": "x"}, {"id": "a", "author": "x", "written": 1, "text": "x"}], "end": 2`, "note a is there twice", false},
		{"a remark before its panel", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1, "text": "x", "after": -1}], "end": 2`, "note a: it is outside the film", true},
		{"a remark in no state", `"end": 2`, `"remarks": [{"id": "a", "author": "x", "written": 1, "text": "x", "state": "maybe"}], "end": 2`, "note a: \"maybe\" is nothing", true},
		{"lettering without a kind", `"title": "one"`, `"drawn": {"lettering": [{"text": "x"}]}`, "is no kind of lettering", true},
		{"an unknown field of lettering", `"title": "one"`, `"drawn": {"lettering": [{"kind": "label"}, {"kind": "label", "font": "x"}]}`, `panel 1: lettering 2: the field "font" is not known`, true},
		{"a colour by its name", `"title": "one"`, `"drawn": {"lettering": [{"kind": "label", "ink": "red"}]}`, `"red" is no colour`, true},
		{"letters too large", `"title": "one"`, `"drawn": {"lettering": [{"kind": "label", "size": 3}]}`, "letters 3 times as high", true},
		{"lettering that is no list", `"title": "one"`, `"drawn": {"lettering": {}}`, "panel 1: there is no list where the letterings", true},
		{"too much lettering", `"title": "one"`, `"drawn": {"lettering": [` + strings.Repeat(`{"kind": "label"}, `, 100) + `{"kind": "label"}]}`, "panel 1: there are more than 100 letterings", true},
		{"a shape too narrow", `"step": 1`, `"step": 1, "aspect": {"w": 5, "h": 1}`, "too narrow", false},
		{"a shape without a height", `"step": 1`, `"step": 1, "aspect": {"w": 5}`, "5 wide to 0 high", true},
		{"a shape in words", `"step": 1`, `"step": 1, "aspect": "4:3"`, `"aspect" does not fit (string)`, true},
		{"a song that is not there", `song/a.wav`, `song/b.wav`, `"song/b.wav": there is no such file`, false},
		{"a negative trim", `"offset": 0`, `"offset": 0, "trim_in": -1`, "trim", true},
		{"fades that do not fit", `"offset": 0`, `"offset": 0, "fade_in": 9`, "fades", false},
		{"a move without keys", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": []}], "end": 2`, "move 1: a path of 0 keys", true},
		{"a move in no manner", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [{}, {}], "manner": "fly"}], "end": 2`, `move 1: "fly" is no way to move`, true},
		{"an unknown field of a key", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [{}, {"z": 1}]}], "end": 2`, `move 1: key 2: the field "z" is not known`, true},
		{"a hit without a start", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [{}, {}], "hits": [{"moment": 1}]}], "end": 2`, "move 1: its start is missing", true},
		{"a hit on a key that is not there", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [{}, {}], "hits": [{"moment": 2, "start": 1}]}], "end": 2`, "move 1: a hit on moment 2", false},
		{"a move of a size that is none", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [{}, {}], "scale": -6}], "end": 2`, "move 1: a scale of 1:-6", true},
		{"keys that are no list", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": {}}], "end": 2`, "move 1: there is no list where the keys", true},
		{"a move over panels that are not there", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 9, "keys": [{}, {}]}], "end": 2`, "panel id 9", false},
		{"too many keys", `"end": 2`, `"moves": [{"id": 1, "first": 1, "last": 2, "keys": [` + strings.Repeat("{}, ", 100) + `{}]}], "end": 2`, "move 1: there are more than 100 keys", true},
		{"a session of no time", `"end": 2`, `"plan": {"session": 0}, "end": 2`, "a session of 0 minutes", true},
		{"an unknown figure of the plan", `"end": 2`, `"plan": {"crew": 3}, "end": 2`, `the plan: the field "crew" is not known`, true},
		{"a plan that is a figure", `"end": 2`, `"plan": 90, "end": 2`, "the plan: ", true},
		{"an entry of the log without exposures", `"end": 2`, `"plan": {"log": [{"minutes": 9}]}, "end": 2`, "log entry 1 has 0 exposures", true},
		{"an unknown field of the log", `"end": 2`, `"plan": {"log": [{"exposures": 1, "minutes": 9, "by": "x"}]}, "end": 2`, `log entry 1: the field "by"`, true},
		{"a log too long", `"end": 2`, `"plan": {"log": [` + strings.Repeat(`{"exposures": 1, "minutes": 9}, `, 5000) + `{"exposures": 1, "minutes": 9}]}, "end": 2`, "more than 5000 log entr", true},
		{"a still that is a figure", `"title": "one"`, `"still": 1`, `does not fit`, true},
		{"a name that is too long", `"end": 2`, `"names": [{"file": "song/a.wav", "name": "` + strings.Repeat("x", 20001) + `"}], "end": 2`, "too long", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.want == "" { // an id given twice needs both panels
				c.with, c.want = `{"id": 1, "start": 0}, {"id": 1, "start": 0,`, "used twice"
			}
			dir := smallFolder(t, c.old, c.with)
			b, media, err := Read(context.Background(), dir, nil)
			oneSentence(t, err, `read folder "tea": `, "film.json", c.want)
			if media != nil || len(b.Panels) > 0 {
				t.Error("something is returned beside the error")
			}
			if errors.Is(err, ErrNewer) != strings.Contains(c.want, "newer") {
				t.Errorf("ErrNewer does not fit: %v", err)
			}
			text, err := os.ReadFile(filepath.Join(dir, filmFile))
			must(t, err)
			if refused := schemaRefuses(t, s, text); refused != c.schemaToo {
				t.Errorf("the schema refuses it: %v, want %v", refused, c.schemaToo)
			}
		})
	}
}

// A later version that says it reads as this one is read; what is not known
// is passed over, but not in a start.
func TestReadPassesOverWhatItMay(t *testing.T) {
	later := func(old, with string) string {
		dir := smallFolder(t, old, with)
		path := filepath.Join(dir, filmFile)
		text, err := os.ReadFile(path)
		must(t, err)
		text = bytes.Replace(text, []byte(`"version": 1`), []byte(`"version": 9, "reads_as": 1`), 1)
		must(t, os.WriteFile(path, text, 0o644))
		return dir
	}
	b, _, err := Read(context.Background(), later(`"title": "one"`, `"title": "one", "smell": {"of": "tea"}`), nil)
	must(t, err)
	if b.Panels[0].Title != "one" {
		t.Errorf("the title is %q", b.Panels[0].Title)
	}
	b, _, err = Read(context.Background(), later(`"title": "one"`, `"drawn": {"gloss": 1, "lettering": [{"kind": "label", "font": "x"}]}`), nil)
	must(t, err)
	if d := b.Panels[0].Drawing(); len(d.Lettering) != 1 || d.Lettering[0].Kind != board.Label {
		t.Errorf("drawn is %+v", d)
	}
	_, _, err = Read(context.Background(), later(`{"beat": 1}`, `{"beat": 1, "swing": 2}`), nil)
	oneSentence(t, err, `panel 2: the field "swing" is not known`)
}

func TestReadRefusesWhatIsNoFolder(t *testing.T) {
	at := t.TempDir()
	must(t, os.WriteFile(filepath.Join(at, "file"), []byte("x"), 0o644))
	must(t, os.Mkdir(filepath.Join(at, "empty"), 0o755))
	_, _, err := Read(context.Background(), filepath.Join(at, "gone"), nil)
	oneSentence(t, err, `read folder "gone": there is no such file or folder`)
	_, _, err = Read(context.Background(), filepath.Join(at, "file"), nil)
	oneSentence(t, err, `read folder "file": this is not a film in a folder: it is a file`)
	_, _, err = Read(context.Background(), filepath.Join(at, "empty"), nil)
	oneSentence(t, err, `read folder "empty": this is not a film in a folder: it holds no film.json`)
	if !errors.Is(err, ErrNotFilm) {
		t.Errorf("%v is not ErrNotFilm", err)
	}
}

// A list far too long is refused before it is in memory.
func TestALongListTakesLittleMemory(t *testing.T) {
	for _, name := range []string{"panels", "names", "markers", "moves", "locks", "lettering", "keys", "frame_notes", "remarks"} {
		long := "[" + strings.Repeat("{},", 1<<20/3) + "{}]"
		text := fmt.Sprintf(`{"format": "stillbeat folder", "version": 1, %q: %s}`, name, long)
		if name == "locks" {
			text = fmt.Sprintf(`{"format": "stillbeat folder", "version": 1, "grid": {%q: %s}}`, name, long)
		}
		if name == "lettering" {
			text = fmt.Sprintf(`{"format": "stillbeat folder", "version": 1, "panels": [{"drawn": {%q: %s}}]}`, name, long)
		}
		if name == "keys" {
			text = fmt.Sprintf(`{"format": "stillbeat folder", "version": 1, "moves": [{%q: %s}]}`, name, long)
		}
		if name == "frame_notes" {
			text = fmt.Sprintf(`{"format": "stillbeat folder", "version": 1, "panels": [{%q: %s}]}`, name, long)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := parse([]byte(text))
		runtime.ReadMemStats(&after)
		oneSentence(t, err, "the most there may be")
		if took := (after.TotalAlloc - before.TotalAlloc) / uint64(len(text)); took > 50 {
			t.Errorf("%s: %d times its size is allocated", name, took)
		}
	}
}

func schemaRefuses(t testing.TB, s *jsonschema.Schema, text []byte) bool {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	return err != nil || s.Validate(v) != nil
}
