package review

import (
	"bytes"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"stillbeat/board"
)

const small = `{"format": "stillbeat notes", "version": 1, "film": {"title": "Tea", "rate": "24", "frames": 72},
 "notes": [{"id": "a", "author": "Aunt", "written": 10, "frame": 30, "panel": 2, "in": 6, "text": "slower"}]}`

func schema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	s, err := jsonschema.NewCompiler().Compile("notes.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func refuses(s *jsonschema.Schema, data []byte) bool {
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	return err != nil || s.Validate(v) != nil
}

// A file that breaks a rule is refused in one sentence, by the schema too where
// a schema can tell.
func TestWhatIsRefused(t *testing.T) {
	s := schema(t)
	if _, err := Read([]byte(small)); err != nil || refuses(s, []byte(small)) {
		t.Fatalf("the file that the cases change is refused: %v", err)
	}
	for _, c := range []struct {
		name, old, with, want string
		schemaToo             bool
	}{
		{"empty", small, "", "these are not notes on a film: it is not JSON", true},
		{"a web page", small, "<script>alert(1)</script>", "not JSON", true},
		{"a list", small, "[]", "not JSON, or of another shape", true},
		{"another format", `"stillbeat notes"`, `"stillbeat folder"`, `its format is "stillbeat folder", not "stillbeat notes"`, true},
		{"not text", "slower", "slow\xff", "not text in UTF-8", false},
		{"a newer version", `"version": 1`, `"version": 2`, "these notes were written for a newer version of Stillbeat", true},
		{"no version", `"version": 1,`, ``, "there is no version 0", true},
		{"a version in words", `"version": 1`, `"version": "one"`, "not JSON, or of another shape", true},
		{"an unknown field", `"frame": 30`, `"frame": 30, "run": "x"`, `note 1: it is not as notes are`, true},
		{"two documents", small, small + small, "not JSON", true},
		{"cut short", "slower\"}]}", "slower", "not JSON", true},
		{"notes that are no list", `"notes": [`, `"notes": {}, "x": [`, "", true},
		{"a note that is a number", `[{"id"`, `[7, {"id"`, "note 1: the field", true},
		{"an id that is a path", `"id": "a"`, `"id": "../a"`, `note 1: the id "../a" of a note`, true},
		{"an id that is markup", `"id": "a"`, `"id": "<b>"`, `note 1: the id "<b>" of a note`, true},
		{"an id too long", `"id": "a"`, `"id": "` + strings.Repeat("a", 41) + `"`, "note 1: the id", true},
		{"written by nobody", `"Aunt"`, `"\u0000 \n"`, "note 1: it does not say who wrote it", false},
		{"a name too long", `"Aunt"`, `"` + strings.Repeat("n", 201) + `"`, "note 1: the name of its author is longer", true},
		{"no words", `"slower"`, `" \u202e\n"`, "note 1: it has no words", false},
		{"too many words", `"slower"`, `"` + strings.Repeat("w", 8001) + `"`, "note 1: it is longer than 8000 bytes", true},
		{"words that are a list", `"slower"`, `["slower"]`, `note 1: the field "text" does not fit (array)`, true},
		{"a frame before the film", `"frame": 30`, `"frame": -1`, "note 1: it is outside the film", true},
		{"a frame far away", `"frame": 30`, `"frame": 1e12`, "note 1:", true},
		{"half a frame", `"frame": 30`, `"frame": 30.5`, "note 1: the field", true},
		{"further into its panel than into the film", `"in": 6`, `"in": 31`, "note 1: it is outside the film", false},
		{"a negative panel", `"panel": 2`, `"panel": -2`, "note 1: it is outside the film", true},
		{"written before 1970", `"written": 10`, `"written": -1`, "note 1: it was written at no time", true},
		{"no rate", `"24"`, `""`, "the film they are on has no frame rate", true},
		{"a rate of nothing", `"24"`, `"24/0"`, "no frame rate", true},
		{"a rate too fast", `"24"`, `"100000"`, "no frame rate", false},
		{"a print that is none", `"frames": 72`, `"frames": 72, "prints": ["xyz"]`, `"xyz" is nothing a film is known by`, true},
		{"prints that are no list", `"frames": 72`, `"frames": 72, "prints": 5`, "no list where the prints", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(small, c.old) {
				t.Fatalf("the file has no %s", c.old)
			}
			data := []byte(strings.Replace(small, c.old, c.with, 1))
			f, err := Read(data)
			if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") || len(err.Error()) > 300 {
				t.Errorf("it says %v, want one sentence with %q", err, c.want)
			}
			if len(f.Notes) > 0 {
				t.Error("notes are returned beside the error")
			}
			if got := refuses(s, data); got != c.schemaToo {
				t.Errorf("the schema refuses it: %v, want %v", got, c.schemaToo)
			}
		})
	}
	if _, err := Read(bytes.Repeat([]byte(" "), MaxBytes+1)); err == nil || !strings.Contains(err.Error(), "more than 16 MB") {
		t.Errorf("a huge file: %v", err)
	}
	if _, err := Read([]byte(strings.Replace(small, `"version": 1`, `"version": 9`, 1))); !errors.Is(err, ErrNewer) {
		t.Errorf("%v is not ErrNewer", err)
	}
}

func TestTextsArePlain(t *testing.T) {
	for in, want := range map[string]string{
		`<script>alert(1)</script>`:       "<script>alert(1)</script>",
		`a\r\nb\rc\td`:                    "a\nb\nc d",
		`\u0007\u001b[31mred\u0000`:       "[31mred",
		`left \u202eright\u202c \u2066x`:  "left right x",
		`می\u200cریزد 👩\u200d🚀`:           "می\u200cریزد 👩\u200d🚀",
		`  round about \u2028 the edge  `: "round about   the edge",
	} {
		f, err := Read([]byte(strings.Replace(small, "slower", in, 1)))
		if err != nil || f.Notes[0].Text != want {
			t.Errorf("%s is read as %q, %v, want %q", in, f.Notes[0].Text, err, want)
		}
	}
	f, err := Read([]byte(strings.Replace(small, "Aunt", `Aunt\nof the cup`, 1)))
	if err != nil || f.Notes[0].Author != "Aunt of the cup" {
		t.Errorf("a name of two lines is read as %q, %v", f.Notes[0].Author, err)
	}
}

// A list far too long is refused before it is in memory.
func TestALongListTakesLittleMemory(t *testing.T) {
	long := "[" + strings.Repeat("{},", 1<<20/3) + "{}]"
	prints := "[" + strings.Repeat(`"",`, 1<<20/3) + `""]`
	for _, data := range []string{
		fmt.Sprintf(`{"format": "stillbeat notes", "version": 1, "film": {"rate": "24", "frames": 1}, "notes": %s}`, long),
		fmt.Sprintf(`{"format": "stillbeat notes", "version": 1, "film": {"rate": "24", "frames": 1, "prints": %s}, "notes": []}`, prints),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Read([]byte(data))
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), "the most there may be") {
			t.Errorf("it says %v", err)
		}
		if took := (after.TotalAlloc - before.TotalAlloc) / uint64(len(data)); took > 20 {
			t.Errorf("%d times its size is allocated", took)
		}
	}
}

// Whatever is read is a file that can be taken to a film, and taking it twice
// is taking it once.
func FuzzRead(f *testing.F) {
	f.Add([]byte(small))
	f.Add([]byte(strings.Replace(small, `"text": "slower"`, `"gone": true`, 1)))
	f.Add([]byte(strings.Replace(small, `"frames": 72`, `"frames": 72, "prints": ["0123456789ab"]`, 1)))
	f.Add([]byte(`{"format": "stillbeat notes", "version": 99}`))
	film := teaFilm()
	f.Fuzz(func(t *testing.T, data []byte) {
		read, err := Read(data)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Fatalf("it says %q", err)
			}
			return
		}
		e, _, err := Take(film, read, true)
		if err != nil {
			t.Fatalf("it cannot be taken: %v", err)
		}
		once, err := e.Apply(film)
		if err != nil {
			t.Fatal(err)
		}
		_, n, err := once.WithRemarks(must(read.Remarks()))
		if err != nil || n.New+n.Changed+n.Gone > 0 {
			t.Fatalf("taken twice: %+v, %v", n, err)
		}
	})
}

func must(list []board.Remark, err error) []board.Remark {
	if err != nil {
		panic(err)
	}
	return list
}
