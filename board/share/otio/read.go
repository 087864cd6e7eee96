package otio

import (
	"encoding/json"
	"errors"
	"fmt"

	"stillbeat/board"
)

// Read returns the timing that a timeline tells. Stacks and tracks in each
// other become one line: of several picture tracks the upper ones cover the
// lower ones. What is told at other rates is in seconds, from which the film
// takes its nearest frames.
//
// Errors are sentences that name the line. Notes tell what was left out.
func Read(data []byte) (t board.Timing, notes []string, err error) {
	root, err := decode(data)
	if err != nil {
		return board.Timing{}, nil, err
	}
	film, f := root, &flattener{notes: map[string]int{}}
	if root.schema == "SerializableCollection" {
		if film = firstTimeline(root); film == nil {
			return board.Timing{}, nil, errors.New("there is no timeline in it")
		}
		if len(root.children) > 1 {
			f.left("what is in it besides the timeline %.40q", film.name)
		}
	}
	shots, long, err := f.flat(film)
	if err != nil {
		return board.Timing{}, nil, err
	}
	if shots = tidy(shots); len(shots) == 0 {
		return board.Timing{}, nil, errors.New("there are no pictures in it")
	}
	if len(shots) > board.MaxPanels {
		return board.Timing{}, nil, fmt.Errorf("it has %d pictures: a film has at most %d", len(shots), board.MaxPanels)
	}
	r := reader{flattener: f}
	r.timing.Title = film.name
	if told, ok := rate(shots); ok {
		r.timing.Rate = told
	}
	r.timing.End.At = long.seconds()
	if err := r.film(film.kept); err != nil {
		return board.Timing{}, nil, err
	}
	for _, s := range shots {
		r.cue(s)
	}
	r.wholeMarks(film, 0)
	for _, what := range r.order {
		if n := r.notes[what]; n > 1 {
			what += fmt.Sprintf(" (%d times)", n)
		}
		notes = append(notes, "left out: "+what)
	}
	return r.timing, notes, nil
}

// firstTimeline returns the first timeline of a collection.
func firstTimeline(n *node) *node {
	for _, child := range n.children {
		if child.schema == "Timeline" {
			return child
		}
		if child.schema == "SerializableCollection" {
			if found := firstTimeline(child); found != nil {
				return found
			}
		}
	}
	return nil
}

// tidy takes shots without a length out and joins gaps of others.
func tidy(shots []shot) (out []shot) {
	for _, s := range shots {
		n := len(out)
		switch {
		case s.till-s.from <= tiny:
		case n > 0 && s.foreignGap() && out[n-1].foreignGap() && s.into == nil:
			out[n-1].till = s.till
		default:
			out = append(out, s)
		}
	}
	return out
}

func (s shot) foreignGap() bool { return s.of == nil || s.gap() && s.of.kept == nil }

type reader struct {
	*flattener
	timing board.Timing
}

// cue takes in a shot.
func (r *reader) cue(s shot) {
	c := board.Cue{Moment: board.Moment{At: s.from}, Gap: s.gap(), Into: &board.Transition{}}
	if s.of != nil {
		r.panel(&c, s)
		for _, m := range s.of.marks {
			at := m.at.seconds() - s.skip
			if s.of.source != nil {
				at -= s.of.source.start.seconds()
			}
			if at >= -tiny && s.from+at < s.till+tiny {
				r.mark(m, s.from+at)
			}
		}
	}
	if s.into != nil {
		c.Into = r.passage(s.into)
	}
	r.timing.Cues = append(r.timing.Cues, c)
}

// wholeMarks takes in the markers of the timeline's stack and of its tracks.
func (r *reader) wholeMarks(n *node, depth int) {
	if n.schema == "Clip" || n.schema == "Gap" {
		return
	}
	if depth > 2 {
		if len(n.marks) > 0 {
			r.left("markers of stacks and tracks within tracks")
		}
		return
	}
	start := 0.0
	if n.source != nil {
		start = n.source.start.seconds()
	}
	for _, m := range n.marks {
		r.mark(m, m.at.seconds()-start)
	}
	for _, child := range n.children {
		r.wholeMarks(child, depth+1)
	}
}

func (r *reader) mark(m mark, at float64) {
	if len(r.timing.Markers) == board.MaxMarkers {
		r.left("markers: a film has at most %d", board.MaxMarkers)
		return
	}
	var own ownMarker
	out := board.Mark{Moment: board.Moment{At: at}, Name: m.name}
	if m.kept != nil && json.Unmarshal(m.kept, &own) == nil && own.Kind == filmMarker {
		out.Was = &own.Start
	}
	r.timing.Markers = append(r.timing.Markers, out)
}
