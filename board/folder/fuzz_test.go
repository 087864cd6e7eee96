package folder

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// FuzzFilmJSON feeds bytes for film.json. What is read keeps the rules of a
// board and comes back the same when it is written.
func FuzzFilmJSON(f *testing.F) {
	for _, name := range []string{"testdata/film.json", "testdata/drawn.json", "testdata/empty.json"} {
		text, err := os.ReadFile(name)
		must(f, err)
		f.Add(text)
	}
	f.Add([]byte(smallDocument))
	f.Add([]byte(strings.Replace(smallDocument, `"version": 1`, `"version": 2, "reads_as": 1`, 1)))
	f.Add([]byte(strings.Replace(smallDocument, `"version": 1`, `"version": 1, "plan": {"session": 90, "log": [{"exposures": 12, "minutes": 31.5}]}`, 1)))
	f.Add([]byte(strings.Replace(smallDocument, `{"beat": 1}`, `{"beat": 1e9, "part": 3, "of": 4}`, 1)))
	f.Fuzz(func(t *testing.T, text []byte) {
		doc, err := parse(text)
		if err != nil {
			oneSentence(t, err)
			return
		}
		files := map[board.MediaID]string{}
		b, err := doc.board(func(file string, _ Kind) (board.MediaID, error) {
			id := idOf([]byte(file))
			files[id] = file
			return id, nil
		})
		if err != nil {
			return
		}
		must(t, b.Check())
		again, err := layout(newDocument(b, files, doc.Names))
		must(t, err)
		doc, err = parse(again)
		must(t, err)
		back, err := doc.board(func(file string, _ Kind) (board.MediaID, error) { return idOf([]byte(file)), nil })
		must(t, err)
		if !reflect.DeepEqual(back, b) {
			t.Errorf("another board came back:\n%+v\n%+v", back, b)
		}
	})
}
