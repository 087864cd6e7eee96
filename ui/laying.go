package ui

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/share/lists"
	"stillbeat/board/share/otio"
)

// A timingReader reads a list; rate is that of lists that do not say theirs.
type timingReader struct {
	most int64 // bytes
	read func(data []byte, rate board.FrameRate) (board.Timing, []string, error)
}

var timingReaders = map[string]timingReader{
	".otio": {otio.MaxBytes, func(data []byte, _ board.FrameRate) (board.Timing, []string, error) { return otio.Read(data) }},
	".csv":  {lists.MaxTable, lists.ReadPanels},
}

// layTimingDialog asks for a list whose timing the film is to have.
func (w *window) layTimingDialog() {
	w.pick(pickRequest{title: "Lay the timing of a list on the film", extensions: []string{".otio", ".csv"}, kind: "shares"},
		func(paths []string) { w.layTiming(paths[0]) })
}

// layTiming gives the panels the order, the starts and the words of a list, and
// says what of it was not matched.
func (w *window) layTiming(path string) {
	d, rate, name := w.desk, w.board.Rate, filepath.Base(path)
	var t board.Timing
	var notes []string
	w.jobs.Run("Reading "+name, func(context.Context, desk.Progress) (err error) {
		t, notes, err = readTiming(path, rate)
		return err
	}, func(err error) {
		if d != w.desk {
			return
		}
		before := w.board
		var after board.Board
		if err == nil {
			var more []string
			after, more, err = before.Take(t)
			notes = append(notes, more...)
		}
		same := err == nil && reflect.DeepEqual(after, before)
		if err == nil && !same {
			err = d.Do(board.TakeTiming(t))
		}
		if err != nil {
			w.trouble("The timing was not laid on the film", fmt.Errorf("%q: %w", name, err))
			return
		}
		d.CloseEdit()
		words := "The timing of " + name + " is laid on the film."
		if same {
			words = "The film has the timing of " + name + " already."
		}
		w.foot.Say(words)
		if len(notes) > 0 {
			w.inform(words, notes)
		}
	})
}

// readTiming reads a list, and tells what was left out.
func readTiming(path string, rate board.FrameRate) (board.Timing, []string, error) {
	r, found := timingReaders[strings.ToLower(filepath.Ext(path))]
	if !found {
		return board.Timing{}, nil, fmt.Errorf("it is no list that can be read: the name must end in .otio or .csv")
	}
	f, err := os.Open(path)
	if err != nil {
		return board.Timing{}, nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, r.most+1))
	if err == nil && int64(len(data)) > r.most {
		err = fmt.Errorf("it has more than %d MB", r.most>>20)
	}
	if err != nil {
		return board.Timing{}, nil, err
	}
	return r.read(data, rate)
}

// inform tells what one should know of what was done, a line each.
func (w *window) inform(title string, notes []string) {
	dialog.NewInformation(title, wrapped(sentences(notes), 90), w.win).Show()
}

// mostNotes is how many lines are told at once.
const mostNotes = 12

// sentences makes a line of each, but of what are too many.
func sentences(lines []string) string {
	var out []string
	for i, l := range lines {
		if i == mostNotes {
			out = append(out, fmt.Sprintf("And %d more.", len(lines)-mostNotes))
			break
		}
		out = append(out, sentence(l))
	}
	return strings.Join(out, "\n")
}
