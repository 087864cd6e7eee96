package otio

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"stillbeat/board"
)

// Limits of a timeline that is read.
const (
	MaxBytes = 64 << 20
	maxDepth = 40                                                     // of stacks and tracks in each other
	maxNodes = 8 * board.MaxPanels                                    // objects in tracks
	maxMarks = board.MaxBeats + board.MaxPanels + 10*board.MaxMarkers // markers, of which a film takes board.MaxMarkers
)

// node is an object of a timeline: what all kinds of them have that matters.
type node struct {
	schema   string // without its version
	name     string
	kind     string // of a track or a transition
	disabled bool
	source   *during
	media    *during // what there is of the picture or sound
	refs     map[string]media
	active   string // key of the one that is used
	warped   bool   // it runs at another speed
	in, out  moment
	kept     json.RawMessage
	children []*node
	marks    []mark
}

type mark struct {
	name string
	kept json.RawMessage
	at   moment
}

// decoder builds nodes in one pass over the text, so that what it takes in
// memory is bounded by the limits and the text.
type decoder struct {
	j            *json.Decoder
	nodes, marks int
}

// decode reads the one object that data holds.
func decode(data []byte) (*node, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("it has more than %d MB", MaxBytes>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return nil, errors.New("it is not text in UTF-8")
	}
	d := decoder{j: json.NewDecoder(bytes.NewReader(data))}
	n, err := d.node(0)
	if err == nil {
		if _, err = d.j.Token(); err == nil {
			err = errors.New("there is more after its end")
		} else if errors.Is(err, io.EOF) {
			err = nil
		}
	}
	if err != nil {
		line := 1 + bytes.Count(data[:min(int(d.j.InputOffset()), len(data))], []byte("\n"))
		return nil, fmt.Errorf("line %d: %w", line, plain(err))
	}
	if n == nil || n.schema == "" {
		return nil, errors.New("it is no timeline: it has no OTIO_SCHEMA")
	}
	return n, nil
}

// plain says what is wrong with the JSON in words of our own.
func plain(err error) error {
	var kind *json.UnmarshalTypeError
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("it ends too early")
	case errors.As(err, &kind):
		return fmt.Errorf("a value does not fit (%s)", kind.Value)
	case errors.As(err, &syntax):
		return fmt.Errorf("this is not JSON (%v)", syntax)
	}
	return err
}

// node reads an object, nil for null.
func (d *decoder) node(depth int) (*node, error) {
	if depth > maxDepth {
		return nil, fmt.Errorf("there are more than %d stacks and tracks in each other", maxDepth)
	}
	if d.nodes++; d.nodes > maxNodes {
		return nil, fmt.Errorf("there are more than %d objects in its tracks", maxNodes)
	}
	t, err := d.j.Token()
	if err != nil || t == nil {
		return nil, err
	}
	if t != json.Delim('{') {
		return nil, errors.New("there is no object where one should be")
	}
	n := &node{}
	for d.j.More() {
		key, err := d.j.Token()
		if err != nil {
			return nil, err
		}
		if err := d.field(n, key.(string), depth); err != nil {
			return nil, err
		}
	}
	if ref, found := n.refs[n.active]; found || n.active == "" {
		if !found {
			ref = n.refs["DEFAULT_MEDIA"]
		}
		if ref.Available != nil {
			n.media = ref.Available
		}
	}
	n.refs = nil
	_, err = d.j.Token()
	return n, err
}

// field reads the value of one key into n.
func (d *decoder) field(n *node, key string, depth int) error {
	switch key {
	case "OTIO_SCHEMA":
		err := d.j.Decode(&n.schema)
		n.schema, _, _ = strings.Cut(n.schema, ".")
		return err
	case "name":
		return d.j.Decode(&n.name)
	case "kind", "transition_type":
		return d.j.Decode(&n.kind)
	case "enabled":
		enabled := true
		err := d.j.Decode(&enabled)
		n.disabled = !enabled
		return err
	case "source_range":
		return d.j.Decode(&n.source)
	case "in_offset":
		return d.optional(&n.in)
	case "out_offset":
		return d.optional(&n.out)
	case "metadata":
		var raw struct {
			Stillbeat json.RawMessage `json:"stillbeat"`
		}
		err := d.j.Decode(&raw)
		n.kept = raw.Stillbeat
		return err
	case "media_reference":
		var ref media
		err := d.j.Decode(&ref)
		n.media = ref.Available
		return err
	case "media_references":
		return d.references(n)
	case "active_media_reference_key":
		return d.j.Decode(&n.active)
	case "effects":
		return d.list(func() error { return d.effect(n) })
	case "tracks":
		tracks, err := d.node(depth + 1)
		if tracks != nil {
			n.children = append(n.children, tracks)
		}
		return err
	case "children":
		return d.list(func() error {
			child, err := d.node(depth + 1)
			if child != nil {
				n.children = append(n.children, child)
			}
			return err
		})
	case "markers":
		return d.list(func() error { return d.mark(n) })
	}
	return d.j.Decode(&skipped{})
}

// skipped takes any value and keeps nothing of it.
type skipped struct{}

func (*skipped) UnmarshalJSON([]byte) error { return nil }

// optional reads a time that may be null.
func (d *decoder) optional(to *moment) error {
	var m *moment
	if err := d.j.Decode(&m); err != nil || m == nil {
		return err
	}
	*to = *m
	return nil
}

// list has each element of a list read; it may be null.
func (d *decoder) list(read func() error) error {
	t, err := d.j.Token()
	if err != nil || t == nil {
		return err
	}
	if t != json.Delim('[') {
		return errors.New("there is no list where one should be")
	}
	for d.j.More() {
		if err := read(); err != nil {
			return err
		}
	}
	_, err = d.j.Token()
	return err
}
