package folder

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"stillbeat/board"
)

// schema compiles film.schema.json; the compiler checks it against JSON Schema
// 2020-12.
func schema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	s, err := c.Compile("film.schema.json")
	must(t, err)
	return s
}

func filmText(t testing.TB, b board.Board, s store) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(written(t, b, s), filmFile))
	must(t, err)
	return text
}

func jsonValue(t testing.TB, text []byte) any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	must(t, err)
	return v
}

func TestWrittenFoldersFollowTheSchema(t *testing.T) {
	s := schema(t)
	tea, teaMedia := teaFilm(t)
	full, fullMedia := fullBoard(t)
	drawn, drawnMedia := drawnFilm(t)
	for name, text := range map[string][]byte{
		"empty": filmText(t, board.New(), store{}),
		"tea":   filmText(t, tea, teaMedia),
		"full":  filmText(t, full, fullMedia),
		"drawn": filmText(t, drawn, drawnMedia),
	} {
		if err := s.Validate(jsonValue(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Every field the schema names is one that a folder can have: all are there in
// the film with every field, but for reads_as, which is for later versions.
func TestTheSchemaNamesNothingElse(t *testing.T) {
	b, s := fullBoard(t)
	written := map[string]bool{"reads_as": true}
	walkJSON(jsonValue(t, filmText(t, b, s)), func(object map[string]any) {
		for name := range object {
			written[name] = true
		}
	})
	text, err := os.ReadFile("film.schema.json")
	must(t, err)
	described := 0
	walkJSON(jsonValue(t, text), func(object map[string]any) {
		properties, _ := object["properties"].(map[string]any)
		if object["type"] != "object" {
			return // the property of that name, or a condition
		}
		for name := range properties {
			described++
			if !written[name] {
				t.Errorf("the schema describes %q, which no folder has", name)
			}
		}
	})
	if described < 85 {
		t.Errorf("only %d fields are described", described)
	}
}

// walkJSON calls do for every object in v.
func walkJSON(v any, do func(map[string]any)) {
	switch v := v.(type) {
	case map[string]any:
		do(v)
		for _, w := range v {
			walkJSON(w, do)
		}
	case []any:
		for _, w := range v {
			walkJSON(w, do)
		}
	}
}

// The document in FORMAT.md is what it says: it follows the schema and is read.
func TestTheDocumentInFormatMD(t *testing.T) {
	page, err := os.ReadFile("FORMAT.md")
	must(t, err)
	var lines [][]byte
	for line := range bytes.Lines(page) {
		if code, ok := bytes.CutPrefix(line, []byte("    ")); ok && (len(lines) > 0 || bytes.HasPrefix(code, []byte("{"))) {
			lines = append(lines, code)
		} else if len(lines) > 0 {
			break
		}
	}
	text := slices.Concat(lines...)
	if err := schema(t).Validate(jsonValue(t, text)); err != nil {
		t.Error(err)
	}
	doc, err := parse(text)
	must(t, err)
	b, err := doc.board(func(string, Kind) (board.MediaID, error) { return idOf(nil), nil })
	must(t, err)
	// Halfway from beat 3 at 1.75 s to the next at 2.25 s, 0.5 s later in the
	// film: 2.5 s, frame 60 at 24000/1001, less 2.
	if starts := b.Starts(); !slices.Equal(starts, []board.Frame{0, 58, 102}) || b.Panels[1].Start.Time != 2.5 {
		t.Errorf("starts %v, the second at %v s", starts, b.Panels[1].Start.Time)
	}
}

func TestLayoutIsTheSameJSON(t *testing.T) {
	for _, text := range []string{
		`{}`, `[]`, `{"a":[],"b":{}}`, `[[[]]]`, `"a\"}{[,:"`, `{"a":"x,y:{z}","b":["\\",1.5e-7,true,null]}`,
		`{"long":"` + string(bytes.Repeat([]byte("x"), 120)) + `","more":[{"a":1},{"b":{"c":[2]}}]}`, `12`,
	} {
		var v any
		must(t, json.Unmarshal([]byte(text), &v))
		laid, err := layout(v)
		must(t, err)
		var compact bytes.Buffer
		must(t, json.Compact(&compact, laid))
		if compact.String() != text {
			t.Errorf("%s became\n%s", text, laid)
		}
	}
}
