package file

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"stillbeat/board"
)

// Limits of what is stored. A list has no more elements than its limit even
// before it is in memory, so a small file cannot ask for a large amount.
const (
	maxJSON  = 64 << 20 // bytes of a board or of a grid
	maxTimes = 500000   // beats, and onsets, of a grid
)

// stored is a board as it is written: its own fields in JSON, the grid apart.
type stored struct {
	plainBoard
	Panels    json.RawMessage `json:"panels"`
	Markers   json.RawMessage `json:"markers"`
	Moves     json.RawMessage `json:"moves"`
	Dismissed json.RawMessage `json:"dismissed"`
	Plan      json.RawMessage `json:"plan"`
	Remarks   json.RawMessage `json:"remarks"`
}

type plainBoard board.Board

// encodeBoard returns the board's JSON without its grid.
func encodeBoard(b board.Board) ([]byte, error) {
	if err := check(b); err != nil {
		return nil, err
	}
	b.Grid = board.Grid{}
	return encode(b, maxJSON)
}

func decodeBoard(data []byte) (board.Board, error) {
	var s stored
	if err := decode(data, &s); err != nil {
		return board.Board{}, err
	}
	b := board.Board(s.plainBoard)
	var err error
	if b.Panels, err = decodeList[board.Panel](s.Panels, board.MaxPanels); err != nil {
		return b, err
	}
	if b.Markers, err = decodeList[board.Marker](s.Markers, board.MaxMarkers); err != nil {
		return b, err
	}
	if b.Moves, err = decodeList[board.ObjectMove](s.Moves, board.MaxObjectMoves); err != nil {
		return b, err
	}
	if b.Dismissed, err = decodeList[string](s.Dismissed, board.MaxDismissed); err != nil {
		return b, err
	}
	if b.Plan, err = decodePlan(s.Plan); err != nil {
		return b, err
	}
	b.Remarks, err = decodeList[board.Remark](s.Remarks, board.MaxRemarks)
	return b, err
}

// decodePlan reads a plan of the shoot; nothing and null are none, a figure that
// is left out is the usual one.
func decodePlan(data []byte) (*board.Planning, error) {
	if len(data) == 0 || string(data) == "null" {
		return nil, nil
	}
	type planning board.Planning
	var s struct {
		planning
		Log json.RawMessage `json:"log"`
	}
	s.planning = planning(board.UsualPlanning)
	if err := decode(data, &s); err != nil {
		return nil, err
	}
	p := board.Planning(s.planning)
	var err error
	p.Log, err = decodeList[board.Logged](s.Log, board.MaxLogged)
	return &p, err
}

// storedGrid is a grid as it is written.
type storedGrid struct {
	plainGrid
	Beats  json.RawMessage `json:"beats"`
	Onsets json.RawMessage `json:"onsets"`
}

type plainGrid board.Grid

func decodeGrid(data []byte) (board.Grid, error) {
	var s storedGrid
	if err := decode(data, &s); err != nil {
		return board.Grid{}, err
	}
	g := board.Grid(s.plainGrid)
	var err error
	if g.Beats, err = decodeList[board.Beat](s.Beats, maxTimes); err != nil {
		return g, err
	}
	g.Onsets, err = decodeList[board.Onset](s.Onsets, maxTimes)
	return g, err
}

// encode returns v in JSON, of at most limit bytes.
func encode(v any, limit int) ([]byte, error) {
	data, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("the board cannot be written: %w", err)
	}
	if len(data) > limit {
		return nil, fmt.Errorf("the board takes %d MB: a film holds at most %d MB of words and panels", len(data)>>20, limit>>20)
	}
	return data, nil
}

// decode reads one JSON value. A field that is not known is an error: saving
// the board again would lose it.
func decode(data []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	return d.Decode(v)
}

// decodeList reads a JSON list of at most limit elements; nothing and null
// are a nil list.
func decodeList[T any](data []byte, limit int) ([]T, error) {
	if len(data) == 0 || string(data) == "null" {
		return nil, nil
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return nil, errors.New("a list is missing")
	}
	list := []T{}
	var v, none T
	for d.More() {
		if len(list) == limit {
			return nil, fmt.Errorf("a list has more than %d elements", limit)
		}
		v = none
		if err := d.Decode(&v); err != nil {
			return nil, err
		}
		if len(list) == cap(list) { // twice as long, which asks for less in all than append does
			list = slices.Grow(list, min(max(16, len(list)), limit-len(list)))
		}
		list = append(list, v)
	}
	return list, nil
}

// check refuses a board that would not come back as it is.
func check(b board.Board) error {
	if err := b.Check(); err != nil {
		return err
	}
	if len(b.Grid.Beats) > maxTimes || len(b.Grid.Onsets) > maxTimes {
		return fmt.Errorf("the song has %d beats and %d onsets: a film holds at most %d of each",
			len(b.Grid.Beats), len(b.Grid.Onsets), maxTimes)
	}
	if b.Song != nil {
		if err := checkID(b.Song.Media); err != nil {
			return fmt.Errorf("the song: %w", err)
		}
	}
	for i, p := range b.Panels {
		for _, id := range []board.MediaID{p.Picture, p.Drawing().Sketch} {
			if err := checkID(id); err != nil {
				return fmt.Errorf("panel %d: %w", i+1, err)
			}
		}
	}
	return nil
}

// checkID refuses what cannot be the name of stored bytes.
func checkID(id board.MediaID) error {
	if id == "" {
		return nil
	}
	if sum, err := hex.DecodeString(string(id)); err != nil || len(sum) != sha256.Size || hex.EncodeToString(sum) != string(id) {
		return fmt.Errorf("%.80q is not the id of a stored picture or song", string(id))
	}
	return nil
}
