package lists

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"stillbeat/board"
)

// MaxTable is the largest table that is read, in bytes.
const MaxTable = 32 << 20

// What one row of a table takes in memory is bounded by its columns and, as
// texts may have commas in them too, by the signs between cells on one line.
const (
	maxColumns = 200
	maxCommas  = 20 * board.MaxText
)

// ReadPanels reads a table of panels as PanelTable writes it, or one by another
// hand: commas, semicolons or tabs between the cells, and a head with some of
// the same names in any order. Times come from the first of these columns that
// is there: hold_frames, start_frame, hold_s, start_s. Frames are those of the
// column fps, else of rate.
//
// Errors are sentences that name the row. Notes tell what was left out.
func ReadPanels(data []byte, rate board.FrameRate) (t board.Timing, notes []string, err error) {
	r, err := newTable(data)
	if err != nil {
		return board.Timing{}, nil, err
	}
	r.timing.Rate = rate
	for line := 2; ; line++ {
		cells, err := r.csv.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err == nil && strings.Join(cells, "") == "" {
			continue
		}
		if err == nil && len(r.timing.Cues) == board.MaxPanels {
			err = fmt.Errorf("there are more than %d panels, the most a film has", board.MaxPanels)
		} else if err == nil {
			err = r.row(cells)
		}
		if err != nil {
			return board.Timing{}, nil, fmt.Errorf("row %d: %w", line, plainCSV(err))
		}
	}
	if len(r.timing.Cues) == 0 {
		return board.Timing{}, nil, errors.New("the table has no rows")
	}
	r.end()
	return r.timing, r.notes, nil
}

// A panelTable is a table being read.
type panelTable struct {
	csv    *csv.Reader
	at     map[string]int // where a column is
	clock  string         // the column that gives the times
	timing board.Timing
	next   float64  // frames or seconds: the end of the holds, or the last start
	last   []string // the row before
	warned bool     // that starts and holds contradict each other
	notes  []string
}

// newTable reads the head of a table.
func newTable(data []byte) (*panelTable, error) {
	if len(data) > MaxTable {
		return nil, fmt.Errorf("it has more than %d MB", MaxTable>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return nil, errors.New("it is not text in UTF-8")
	}
	first, _, _ := bytes.Cut(data, []byte("\n"))
	r := &panelTable{csv: csv.NewReader(bytes.NewReader(data)), at: map[string]int{}}
	r.csv.Comma = ','
	for _, c := range []byte{';', '\t'} { // spreadsheets write these where the comma is the decimal point
		if bytes.Count(first, []byte{c}) > bytes.Count(first, []byte{byte(r.csv.Comma)}) {
			r.csv.Comma = rune(c)
		}
	}
	if bytes.Count(first, []byte{byte(r.csv.Comma)}) >= maxColumns {
		return nil, fmt.Errorf("its first row has more than %d columns", maxColumns)
	}
	for line := range bytes.Lines(data) {
		if len(line) > maxCommas && bytes.Count(line, []byte{byte(r.csv.Comma)}) > maxCommas {
			return nil, errors.New("a row has far too many cells")
		}
	}
	head, err := r.csv.Read()
	if err != nil {
		return nil, fmt.Errorf("its first row cannot be read: %w", plainCSV(err))
	}
	var unknown []string
	for i, name := range head {
		name = strings.ToLower(strings.TrimSpace(name))
		if _, twice := r.at[name]; twice {
			return nil, fmt.Errorf("it has two columns %.40q", name)
		}
		if r.at[name] = i; !slices.Contains(columns, name) {
			unknown = append(unknown, fmt.Sprintf("%.40q", name))
		}
	}
	for _, name := range []string{"hold_frames", "start_frame", "hold_s", "start_s"} {
		if _, found := r.at[name]; found {
			r.clock = name
			break
		}
	}
	if r.clock == "" {
		return nil, errors.New("its first row names no column hold_frames, start_frame, hold_s or start_s")
	}
	if len(unknown) > 0 {
		r.notes = append(r.notes, "columns that are not known were left out: "+strings.Join(unknown, ", "))
	}
	return r, nil
}

// plainCSV says what is wrong with a row in words of our own.
func plainCSV(err error) error {
	switch {
	case errors.Is(err, io.EOF):
		return errors.New("it is empty")
	case errors.Is(err, csv.ErrFieldCount):
		return errors.New("it has more or fewer cells than the first row")
	case errors.Is(err, csv.ErrQuote), errors.Is(err, csv.ErrBareQuote):
		return errors.New("a quotation mark is where none can be")
	}
	return err
}
