package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/share/lists"
	"stillbeat/board/share/otio"
)

func (a *app) timingCommand() *cobra.Command {
	var from string
	var fresh, force bool
	cmd := &cobra.Command{
		Use:   "timing FILM --from LIST [--new [--force]]",
		Short: "Lay the timing of an edited list on a film",
		Long: `Give the panels of FILM the order, the starts and the words that LIST has: a
timeline (.otio) or a table of panels (.csv), as share writes them and as they
came back from an editing program or a spreadsheet.

A panel is known by its id, else by its number; if none is known so, they are
taken in order. Panels that LIST does not have come after its end. For what
the film does not have there are blank panels. Other frame rates are brought
to that of FILM, each start to the nearest frame.

In a table, hold_frames decides; without it start_frame, hold_s or start_s.

With --new a film of blank panels is made.`,
		Example: `  stillbeat share dance.stillbeat -o dance.csv
  stillbeat timing dance.stillbeat --from dance.csv
  stillbeat timing draft.stillbeat --from cut.otio --new`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if from == "" {
				return wrong(cmd, "say which list: --from LIST")
			}
			read, found := timingReaders[strings.ToLower(filepath.Ext(from))]
			if !found {
				return wrong(cmd, "%q is no list that can be read: the name must end in .otio or .csv", from)
			}
			if !fresh && force {
				return wrong(cmd, "--force is for --new")
			}
			if fresh {
				if err := checkFilmName(cmd, args[0]); err != nil {
					return err
				}
				return a.newFromTiming(args[0], from, read, force)
			}
			return withFilm(args[0], func(d *desk.Desk) error { return a.takeTiming(d, args[0], from, read) })
		},
	}
	cmd.Flags().StringVar(&from, "from", "", "read `LIST`")
	cmd.Flags().BoolVar(&fresh, "new", false, "make FILM, of blank panels")
	cmd.Flags().BoolVar(&force, "force", false, "replace FILM if it is there")
	return cmd
}

// A timingReader reads a list; rate is that of lists that do not say theirs.
type timingReader struct {
	most int64 // bytes
	read func(data []byte, rate board.FrameRate) (board.Timing, []string, error)
}

var timingReaders = map[string]timingReader{
	".otio": {otio.MaxBytes, func(data []byte, _ board.FrameRate) (board.Timing, []string, error) { return otio.Read(data) }},
	".csv":  {lists.MaxTable, lists.ReadPanels},
}

// readTiming reads a list and tells what was left out.
func (a *app) readTiming(path string, r timingReader, rate board.FrameRate) (board.Timing, error) {
	data, err := readUpTo(path, r.most)
	if err == nil {
		var t board.Timing
		var notes []string
		if t, notes, err = r.read(data, rate); err == nil {
			a.note(notes)
			return t, nil
		}
	}
	return board.Timing{}, fmt.Errorf("read %q: %w", path, err)
}

// readUpTo reads a file of at most so many bytes.
func readUpTo(path string, most int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, bare(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("it has more than %d MB", most>>20)
	}
	if err != nil {
		return nil, bare(err)
	}
	return data, nil
}

func (a *app) takeTiming(d *desk.Desk, film, from string, r timingReader) error {
	before := d.Board()
	t, err := a.readTiming(from, r, before.Rate)
	if err != nil {
		return err
	}
	after, notes, err := before.Take(t)
	if err != nil {
		return fmt.Errorf("lay %q on %q: %w", from, film, err)
	}
	if reflect.DeepEqual(after, before) {
		return a.say("%s: everything was so already", film)
	}
	err = d.Do(board.TakeTiming(t))
	if err == nil {
		err = d.Flush()
	}
	if err != nil {
		return fmt.Errorf("lay %q on %q: %w", from, film, err)
	}
	a.note(notes)
	return a.say("%s: %s", film, gist(d.Board()))
}

func (a *app) newFromTiming(film, from string, r timingReader, force bool) error {
	if err := checkOutput(film, force); err != nil {
		return err
	}
	t, err := a.readTiming(from, r, board.New().Rate)
	if err != nil {
		return err
	}
	b, err := board.NewFromTiming(t)
	if err != nil {
		return fmt.Errorf("make a film of %q: %w", from, err)
	}
	edit := board.Edit{Name: "film from a list", Apply: func(board.Board) (board.Board, error) { return b, nil }}
	if err := withNewFilm(film, func(d *desk.Desk) error { return d.Do(edit) }); err != nil {
		return fmt.Errorf("make %q: %w", film, err)
	}
	if t.Song != "" {
		a.note([]string{fmt.Sprintf("the song %.80q is not in the list: its beats are there as a click", t.Song)})
	}
	return a.say("%s: %s", film, gist(b))
}
