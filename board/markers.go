package board

import (
	"fmt"
	"slices"
)

// Marker is a named place in the film, free or anchored to the music.
type Marker struct {
	Start Start  `json:"start"`
	Name  string `json:"name,omitempty"`
}

// MaxMarkers is the most markers a film has.
const MaxMarkers = 2000

func (b Board) checkMarkers() error {
	if len(b.Markers) > MaxMarkers {
		return fmt.Errorf("%d markers: a film has at most %d", len(b.Markers), MaxMarkers)
	}
	for i, m := range b.Markers {
		if err := b.checkStart(m.Start); err != nil {
			return fmt.Errorf("marker %d: %w", i+1, err)
		}
		if !readable(m.Name) {
			return fmt.Errorf("the name of marker %d is too long or not readable", i+1)
		}
	}
	return nil
}

// AddMarker puts a marker into the film.
func AddMarker(m Marker) Edit {
	return Edit{Name: "add marker", Apply: func(b Board) (Board, error) {
		out := b
		m.Start.Time = b.Seconds(m.Start)
		out.Markers = append(slices.Clone(b.Markers), m)
		return out.checked(b)
	}}
}

// SetMarker changes marker i.
func SetMarker(i int, m Marker) Edit {
	return merging(onMarker("change marker", i, func(b *Board) {
		m.Start.Time = b.Seconds(m.Start)
		b.Markers[i] = m
	}))
}

// RemoveMarker takes marker i out.
func RemoveMarker(i int) Edit {
	return onMarker("remove marker", i, func(b *Board) { b.Markers = slices.Delete(b.Markers, i, i+1) })
}

// onMarker changes a board whose list of markers is a copy.
func onMarker(verb string, i int, change func(*Board)) Edit {
	return Edit{Name: fmt.Sprintf("%s %d", verb, i+1), Apply: func(b Board) (Board, error) {
		if i < 0 || i >= len(b.Markers) {
			return b, fmt.Errorf("there is no such marker")
		}
		out := b
		out.Markers = slices.Clone(b.Markers)
		change(&out)
		return out.checked(b)
	}}
}

// withMarkers returns the board with each marker's start changed.
func (b Board) withMarkers(change func(Start) Start) Board {
	b.Markers = slices.Clone(b.Markers)
	for i := range b.Markers {
		b.Markers[i].Start = change(b.Markers[i].Start)
	}
	return b
}
