package otio

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"stillbeat/board"
)

// media is what there is of a clip's picture or sound.
type media struct {
	Available *during `json:"available_range"`
}

// maxRefs bounds the references of one clip.
const maxRefs = 1000

// references reads the pictures or sounds that a clip may use.
func (d *decoder) references(n *node) error {
	t, err := d.j.Token()
	if err != nil || t == nil {
		return err
	}
	if t != json.Delim('{') {
		return errors.New("the media references of a clip are no object")
	}
	n.refs = map[string]media{}
	for d.j.More() {
		key, err := d.j.Token()
		if err != nil {
			return err
		}
		if len(n.refs) == maxRefs {
			return fmt.Errorf("a clip has more than %d media references", maxRefs)
		}
		var ref media
		if err := d.j.Decode(&ref); err != nil {
			return err
		}
		n.refs[key.(string)] = ref
	}
	_, err = d.j.Token()
	return err
}

// effect reads one of the effects of n: all that matters is its speed.
func (d *decoder) effect(n *node) error {
	var effect struct {
		Schema string `json:"OTIO_SCHEMA"`
	}
	err := d.j.Decode(&effect)
	switch name, _, _ := strings.Cut(effect.Schema, "."); name {
	case "LinearTimeWarp", "FreezeFrame", "TimeEffect":
		n.warped = true
	}
	return err
}

// mark reads a marker of n; beats and notes of our own are in what is kept of
// the film and its panels.
func (d *decoder) mark(n *node) error {
	if d.marks++; d.marks > maxMarks {
		return fmt.Errorf("there are more than %d markers", maxMarks)
	}
	var raw *struct {
		Name     string  `json:"name"`
		Comment  string  `json:"comment"`
		Range    *during `json:"marked_range"`
		Metadata struct {
			Stillbeat json.RawMessage `json:"stillbeat"`
		} `json:"metadata"`
	}
	if err := d.j.Decode(&raw); err != nil || raw == nil || raw.Range == nil {
		return err
	}
	var kept ownMarker
	if json.Unmarshal(raw.Metadata.Stillbeat, &kept) == nil && (kept.Kind == beatMarker || kept.Kind == noteMarker) {
		return nil
	}
	if len(n.marks) <= board.MaxMarkers {
		name := raw.Name
		if name == "" {
			name = raw.Comment
		}
		n.marks = append(n.marks, mark{name, raw.Metadata.Stillbeat, raw.Range.start})
	}
	return nil
}
