// Package otio writes a film as a timeline in OpenTimelineIO's JSON and reads
// such timelines, our own and others.
//
// What a timeline has no place for is kept in metadata under "stillbeat", so
// that a film comes back as it was but for its pictures and its sound.
package otio

import (
	"encoding/json"
	"strconv"

	"stillbeat/board"
)

// The objects of a timeline as they are written. Schemas and fields:
// AcademySoftwareFoundation/OpenTimelineIO, commit bc5fe2d7, test baselines.
type (
	timeline struct {
		Schema   string        `json:"OTIO_SCHEMA"`
		Name     string        `json:"name"`
		Metadata any           `json:"metadata"`
		Start    *rationalTime `json:"global_start_time"`
		Tracks   composition   `json:"tracks"`
	}
	composition struct { // Stack.1, Track.1
		Schema   string     `json:"OTIO_SCHEMA"`
		Name     string     `json:"name"`
		Kind     string     `json:"kind,omitempty"`
		Metadata any        `json:"metadata"`
		Source   *timeRange `json:"source_range"`
		Effects  []any      `json:"effects"`
		Markers  []marker   `json:"markers"`
		Enabled  bool       `json:"enabled"`
		Children []any      `json:"children"`
	}
	item struct { // Clip.2, Gap.1
		Schema   string     `json:"OTIO_SCHEMA"`
		Name     string     `json:"name"`
		Metadata any        `json:"metadata"`
		Source   *timeRange `json:"source_range"`
		Effects  []any      `json:"effects"`
		Markers  []marker   `json:"markers"`
		Enabled  bool       `json:"enabled"`

		Media map[string]reference `json:"media_references,omitempty"`
		Key   string               `json:"active_media_reference_key,omitempty"`
	}
	reference struct { // ExternalReference.1
		Schema    string     `json:"OTIO_SCHEMA"`
		Name      string     `json:"name"`
		Metadata  any        `json:"metadata"`
		Available *timeRange `json:"available_range"`
		Bounds    any        `json:"available_image_bounds"`
		URL       string     `json:"target_url"`
	}
	transition struct {
		Schema   string       `json:"OTIO_SCHEMA"`
		Name     string       `json:"name"`
		Metadata any          `json:"metadata"`
		Kind     string       `json:"transition_type"`
		In       rationalTime `json:"in_offset"`  // before the cut
		Out      rationalTime `json:"out_offset"` // after it
	}
	marker struct {
		Schema   string    `json:"OTIO_SCHEMA"`
		Name     string    `json:"name"`
		Metadata any       `json:"metadata"`
		Range    timeRange `json:"marked_range"`
		Colour   string    `json:"color"`
		Comment  string    `json:"comment"`
	}
	rationalTime struct {
		Schema string `json:"OTIO_SCHEMA"`
		Rate   number `json:"rate"`
		Value  number `json:"value"`
	}
	timeRange struct {
		Schema   string       `json:"OTIO_SCHEMA"`
		Start    rationalTime `json:"start_time"`
		Duration rationalTime `json:"duration"`
	}
)

// number is written with a decimal point, as the library does: its rates are
// floating-point numbers, 24000/1001 is 23.976023976023978.
type number float64

func (n number) MarshalJSON() ([]byte, error) {
	text := strconv.FormatFloat(float64(n), 'f', -1, 64)
	if float64(n) == float64(int64(n)) {
		text += ".0"
	}
	return []byte(text), nil
}

// Colours of markers.
const (
	barColour    = "GREEN"
	beatColour   = "CYAN"
	noteColour   = "YELLOW"
	markerColour = "RED"
)

// Kinds of transitions the standard has. A fade goes through black and a wipe
// has an edge: both are custom ones, named by what they are.
const (
	dissolve = "SMPTE_Dissolve"
	custom   = "Custom_Transition"
)

// own wraps what is kept in metadata.
type own[T any] struct {
	Stillbeat T `json:"stillbeat"`
}

type (
	// ownFilm is kept by the timeline.
	ownFilm struct {
		Rate board.FrameRate `json:"rate"`
		Step int             `json:"step"`
		End  board.Start     `json:"end"`
		Song *board.Song     `json:"song,omitempty"`
		Grid *ownGrid        `json:"grid,omitempty"`
	}
	// ownGrid has the beats in seconds of the song.
	ownGrid struct {
		Tempo      float64         `json:"tempo,omitempty"`
		Confidence float64         `json:"confidence,omitempty"`
		Metre      int             `json:"metre,omitempty"`
		Beats      json.RawMessage `json:"beats"`
	}
	// ownPanel is kept by a clip or a gap.
	ownPanel struct {
		ID      board.PanelID     `json:"id"`
		Number  string            `json:"number"`
		Start   board.Start       `json:"start"`
		Words   board.Words       `json:"words"`
		Into    *board.Transition `json:"into,omitempty"` // where no frame is left for a transition
		Opens   board.Opening     `json:"opens,omitempty"`
		Heading string            `json:"heading,omitempty"`
		Fixed   board.Numbers     `json:"fixed,omitzero"`
		Step    int               `json:"step,omitempty"`
	}
	// ownTransition is kept by a transition: the frames written and those the
	// film has, which are more where there is no room for them.
	ownTransition struct {
		board.Transition
		In  board.Frame `json:"in"`
		Out board.Frame `json:"out"`
	}
	// ownMarker is kept by a marker of the film, a beat or the note of a panel.
	ownMarker struct {
		Kind  string      `json:"kind"`
		Start board.Start `json:"start,omitzero"`
	}
)

// Kinds of markers.
const (
	filmMarker = "marker"
	beatMarker = "beat"
	noteMarker = "note"
)
