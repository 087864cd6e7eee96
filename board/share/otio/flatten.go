package otio

import (
	"fmt"
)

// shot is a piece of a flat timeline: what is up from one second to another.
type shot struct {
	from, till float64
	skip       float64 // seconds of it that are cut off before
	of         *node   // a clip or a gap; nil: nothing
	into       *node   // the transition that leads to it
}

func (s shot) gap() bool { return s.of == nil || s.of.schema != "Clip" }

// tiny is what sums of seconds may miss by.
const tiny = 1e-7

// flattener makes one line of stacks and tracks. Upper tracks cover lower ones
// as far as they are no gaps.
type flattener struct {
	shots int
	notes map[string]int // what was left out, and how often
	order []string
}

func (f *flattener) left(format string, args ...any) {
	what := fmt.Sprintf(format, args...)
	if f.notes[what] == 0 {
		f.order = append(f.order, what)
	}
	f.notes[what]++
}

// flat returns the shots of an object from second 0 on, and its length.
func (f *flattener) flat(n *node) ([]shot, length, error) {
	var inner []shot
	var long length
	var err error
	switch n.schema {
	case "Clip", "Gap", "Filler":
		return f.single(n)
	case "Track", "Sequence":
		inner, long, err = f.row(n)
	case "Stack", "Timeline", "SerializableCollection":
		inner, long, err = f.pile(n)
	default:
		f.left("an object of the kind %.40q, which is not known", n.schema)
		if n.source == nil {
			return nil, length{}, nil
		}
		return f.single(&node{schema: "Gap", source: n.source})
	}
	if err != nil {
		return nil, length{}, err
	}
	if n.disabled {
		inner = []shot{{till: long.seconds()}}
	}
	if n.source != nil {
		var only length
		only.add(n.source.length)
		if k := len(inner) - 1; n.warped && k >= 0 { // at its speed it fills the range
			f.left("a change of speed of what is within a stack or a track")
			inner[k].till = max(inner[k].till, n.source.start.seconds()+only.seconds())
		}
		inner, long = trimmed(inner, n.source.start.seconds(), only.seconds()), only
	}
	if f.shots += len(inner); f.shots > maxNodes {
		return nil, length{}, fmt.Errorf("its tracks make more than %d pieces", maxNodes)
	}
	return inner, long, nil
}

// single returns the shot of a clip or a gap.
func (f *flattener) single(n *node) ([]shot, length, error) {
	span := n.source
	if span == nil {
		span = n.media
	}
	if span == nil {
		f.left("a clip or a gap that does not say how long it is")
		return nil, length{}, nil
	}
	var long length
	long.add(span.length)
	s := shot{till: long.seconds(), of: n}
	if n.disabled {
		s.of = nil
	}
	return []shot{s}, long, nil
}

// row lays the children of a track one after the other.
func (f *flattener) row(n *node) (out []shot, long length, err error) {
	var into *node
	for _, child := range n.children {
		if child.schema == "Transition" {
			into = child
			continue
		}
		shots, own, err := f.flat(child)
		if err != nil {
			return nil, length{}, err
		}
		at := long.seconds()
		for k, s := range shots {
			s.from, s.till = s.from+at, s.till+at
			if k == 0 && s.from <= at+tiny && into != nil {
				s.into = into
			}
			out = append(out, s)
		}
		if len(shots) > 0 {
			into = nil
			long.join(own)
			out[len(out)-1].till = long.seconds()
		}
	}
	if into != nil {
		f.left("a transition after the last picture")
	}
	return out, long, nil
}

// pile lays the children of a stack over each other, those with sound left out.
func (f *flattener) pile(n *node) (out []shot, long length, err error) {
	for _, child := range n.children {
		switch {
		case child.schema == "Transition":
			f.left("a transition outside of a track")
			continue
		case (child.schema == "Track" || child.schema == "Sequence") && child.kind != "Video" && child.kind != "":
			if child.kind != "Audio" {
				f.left("a track of the kind %.40q", child.kind)
			}
			continue
		}
		shots, own, err := f.flat(child)
		if err != nil {
			return nil, length{}, err
		}
		out = over(out, shots)
		if own.seconds() > long.seconds() {
			long = own
		}
	}
	return out, long, nil
}
