package folder

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"unicode/utf8"

	"stillbeat/board"
)

// Limits of lists on which a board sets none.
const (
	maxNames  = 2*board.MaxPanels + 1 // files: a picture and a sketch for each panel and a song
	maxOnsets = board.MaxBeats
)

// parse reads film.json. What it returns takes a small multiple of the memory
// of data: lists are refused before they are longer than a film's can be.
func parse(data []byte) (document, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors put it there
	if !utf8.Valid(data) {
		return document{}, errors.New("it is not text in UTF-8")
	}
	d, err := version(data)
	if err != nil {
		return document{}, err
	}
	return d.document(data)
}

// version returns the decoder for the version the document is of.
func version(data []byte) (decoder, error) {
	var head struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
		ReadsAs *int   `json:"reads_as"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return decoder{}, plainJSON(err, data)
	}
	if head.Format != Format {
		return decoder{}, fmt.Errorf("%w: its format is %.40q, not %q", ErrNotFilm, head.Format, Format)
	}
	oldest := head.Version
	if head.ReadsAs != nil {
		oldest = *head.ReadsAs
	}
	switch {
	case head.Version < 1 || oldest < 1 || oldest > head.Version:
		return decoder{}, fmt.Errorf("%w: there is no version %d that can be read as %d", ErrNotFilm, head.Version, oldest)
	case oldest > Version:
		return decoder{}, fmt.Errorf("%w: its format has version %d", ErrNewer, head.Version)
	}
	return decoder{strict: head.Version <= Version}, nil
}

// decoder reads JSON values. A strict one refuses fields that are not known.
type decoder struct{ strict bool }

// document reads all of film.json.
func (d decoder) document(data []byte) (document, error) {
	type plainDocument document
	type plainGrid board.Grid
	var raw struct {
		plainDocument
		Panels    json.RawMessage `json:"panels"`
		Markers   json.RawMessage `json:"markers"`
		Moves     json.RawMessage `json:"moves"`
		Dismissed json.RawMessage `json:"dismissed"`
		Plan      json.RawMessage `json:"plan"`
		Remarks   json.RawMessage `json:"remarks"`
		Names     json.RawMessage `json:"names"`
		Grid      struct {
			plainGrid
			Beats  json.RawMessage `json:"beats"`
			Onsets json.RawMessage `json:"onsets"`
			Unsure json.RawMessage `json:"unsure"`
			Locks  json.RawMessage `json:"locks"`
		} `json:"grid"`
	}
	if err := d.into(data, &raw); err != nil {
		return document{}, err
	}
	doc := document(raw.plainDocument)
	doc.Grid = board.Grid(raw.Grid.plainGrid)
	return doc, cmp.Or(
		d.panels(raw.Panels, &doc.Panels),
		list(d, raw.Markers, &doc.Markers, "marker", board.MaxMarkers),
		d.moves(raw.Moves, &doc.Moves),
		list(d, raw.Dismissed, &doc.Dismissed, "dismissed finding", board.MaxDismissed),
		d.plan(raw.Plan, &doc.Plan),
		list(d, raw.Remarks, &doc.Remarks, "note of others", board.MaxRemarks),
		list(d, raw.Names, &doc.Names, "name", maxNames),
		list(d, raw.Grid.Beats, &doc.Grid.Beats, "beat", board.MaxBeats),
		list(d, raw.Grid.Onsets, &doc.Grid.Onsets, "onset", maxOnsets),
		list(d, raw.Grid.Unsure, &doc.Grid.Unsure, "unsure stretch", board.MaxStretches),
		list(d, raw.Grid.Locks, &doc.Grid.Locks, "lock", board.MaxStretches),
	)
}

// panels is list for panels, whose lettering and notes are lists too.
func (d decoder) panels(data []byte, to *[]panel) error {
	type rawPanel struct {
		panel
		Drawn *struct {
			drawn
			Lettering json.RawMessage `json:"lettering"`
		} `json:"drawn"`
		FrameNotes json.RawMessage `json:"frame_notes"`
	}
	var raw, none rawPanel
	return each(d, data, "panel", board.MaxPanels, func(j *json.Decoder) error {
		raw = none
		if err := j.Decode(&raw); err != nil {
			return err
		}
		p := raw.panel
		var notes []board.FrameNote
		if err := list(d, raw.FrameNotes, &notes, "note on a frame", board.MaxFrameNotes); err != nil {
			return err
		}
		if p.FrameNotes = nil; len(notes) > 0 {
			p.FrameNotes = (*board.FrameNotes)(&notes)
		}
		if raw.Drawn != nil {
			p.Drawn = &raw.Drawn.drawn
			if err := list(d, raw.Drawn.Lettering, &p.Drawn.Lettering, "lettering", board.MaxLettering); err != nil {
				return err
			}
		}
		*to = append(*to, p)
		return nil
	})
}

// plan reads the plan of the shoot; nothing and null are none, a figure that is
// left out is the usual one.
func (d decoder) plan(data []byte, to **plan) error {
	if *to = nil; len(data) == 0 || string(data) == "null" {
		return nil
	}
	var raw struct {
		plan
		Log json.RawMessage `json:"log"`
	}
	raw.plan = plan(board.UsualPlanning)
	if err := d.into(data, &raw); err != nil {
		return fmt.Errorf("the plan: %w", err)
	}
	*to = &raw.plan
	return list(d, raw.Log, &raw.plan.Log, "log entry", board.MaxLogged)
}

// into reads the one value that data holds.
func (d decoder) into(data []byte, v any) error {
	j := json.NewDecoder(bytes.NewReader(data))
	if d.strict {
		j.DisallowUnknownFields()
	}
	return plainJSON(j.Decode(v), data)
}

// list reads a list of at most limit elements; what names one of them. An
// empty list, null and nothing are a nil list.
func list[T any](d decoder, data []byte, to *[]T, what string, limit int) error {
	var v, none T
	return each(d, data, what, limit, func(j *json.Decoder) error {
		v = none
		if err := j.Decode(&v); err != nil {
			return err
		}
		*to = append(*to, v)
		return nil
	})
}

// each has every element of a list read; for the rest it is list.
func each(d decoder, data []byte, what string, limit int, read func(*json.Decoder) error) error {
	if len(data) == 0 || string(data) == "null" {
		return nil
	}
	j := json.NewDecoder(bytes.NewReader(data))
	if d.strict {
		j.DisallowUnknownFields()
	}
	if t, err := j.Token(); err != nil || t != json.Delim('[') {
		return fmt.Errorf("there is no list where the %ss should be", what)
	}
	for n := 0; j.More(); n++ {
		if n == limit {
			return fmt.Errorf("there are more than %d %ss, the most there may be", limit, what)
		}
		if err := read(j); err != nil {
			return fmt.Errorf("%s %d: %w", what, n+1, plainJSON(err, data))
		}
	}
	return nil
}
