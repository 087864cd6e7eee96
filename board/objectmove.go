package board

import (
	"errors"
	"fmt"
	"slices"
)

// MoveID names an object's move among those of its film.
type MoveID int64

// Manner says how an object gets along its path.
type Manner string

// The manners. The first five are spacings: they fill the panels of the move,
// from key to key. The others have weight and with it a time of their own.
const (
	Evenly       Manner = ""            // equal steps
	SlowingIn    Manner = "slow-in"     // eases into each timed key
	SlowingOut   Manner = "slow-out"    // eases out of it
	SlowingBoth  Manner = "slow-in-out" // eases out and in
	Accelerating Manner = "accelerate"  // faster and faster, into a hit
	Falling      Manner = "fall"        // dropped, or pushed off an edge
	Toppling     Manner = "topple"      // a stick falls over: the first key is its foot, the second its tip
	Jumping      Manner = "jump"
	Bouncing     Manner = "bounce" // dropped, and again and again off the ground
	Swinging     Manner = "swing"  // a pendulum: the first key is where it hangs, the second the weight, let go
	Settling     Manner = "settle" // springs to the last key and beyond, and comes to rest
)

// Manners lists all of them, for menus.
var Manners = []Manner{Evenly, SlowingIn, SlowingOut, SlowingBoth, Accelerating,
	Falling, Toppling, Jumping, Bouncing, Swinging, Settling}

// Spaced reports whether the manner is a spacing, without weight.
func (m Manner) Spaced() bool { return slices.Index(Manners, m) <= slices.Index(Manners, Accelerating) }

// Spot is a place on the set in millimetres: X to the right as the camera
// sees it, Y away from the camera, Height above the table.
type Spot struct {
	X      float64 `json:"x,omitempty"`
	Y      float64 `json:"y,omitempty"`
	Height float64 `json:"height,omitempty"`
}

// Hit puts a moment of a move on the music, or on a time of its own. Moments
// of spacings are their keys, from 0; those with weight count what happens:
// 0 is where it sets off, 1 the first landing, turn or arrival, and so on.
type Hit struct {
	Moment int   `json:"moment"`
	Start  Start `json:"start"`
}

// Sight says where in the frame the set is seen, so that a path can be shown
// over the picture. With PerMM 0 nobody has said.
type Sight struct {
	At    Point   `json:"at,omitzero"`      // where 0, 0, 0 of the set is seen
	PerMM float64 `json:"per_mm,omitempty"` // heights of the frame to a millimetre
	Turn  float64 `json:"turn,omitempty"`   // degrees clockwise
	Top   bool    `json:"top,omitempty"`    // seen from above, so that x and y show; else x and height
}

// ObjectMove is the move of an object over a run of panels. In its figures 0
// is the usual; which that is, board/motion knows. They are kept with manners
// that do not use them, so that one can be tried and taken back.
type ObjectMove struct {
	ID     MoveID  `json:"id"`
	Object string  `json:"object,omitempty"` // what moves: "cup"
	First  PanelID `json:"first"`            // the run of panels in which it moves
	Last   PanelID `json:"last"`
	Keys   []Spot  `json:"keys"` // the path, straight from one to the next
	Manner Manner  `json:"manner,omitempty"`
	Hits   []Hit   `json:"hits,omitempty"` // in any order, each moment once

	Scale      float64 `json:"scale,omitempty"`      // the set is 1:Scale of what it should look like
	Anticipate float64 `json:"anticipate,omitempty"` // how far it goes back first: part of the way, of the rise of a jump
	Ready      float64 `json:"ready,omitempty"`      // seconds that takes
	Overshoot  float64 `json:"overshoot,omitempty"`  // how far it goes too far: the same parts
	Damping    float64 `json:"damping,omitempty"`    // of what swings or settles: part of the critical
	Period     float64 `json:"period,omitempty"`     // seconds from swing to swing of what settles
	Rebound    float64 `json:"rebound,omitempty"`    // speed after a bounce as a part of that before
	Rise       float64 `json:"rise,omitempty"`       // height of a jump, mm above the higher of its ends

	Sight Sight `json:"sight,omitzero"`
}

// Limits of objects' moves.
const (
	MaxObjectMoves = 2000   // in a film
	MaxPathKeys    = 100    // of a move
	MaxReach       = 100000 // mm from the middle of the set
	MaxScale1To    = 1000   // a set 1:1000 of what it looks like
)

func (m ObjectMove) check() error {
	switch {
	case !readable(m.Object):
		return errors.New("the name of the object is too long or not readable")
	case !slices.Contains(Manners, m.Manner):
		return fmt.Errorf("%.40q is no way to move", string(m.Manner))
	case len(m.Keys) < 2 || len(m.Keys) > MaxPathKeys:
		return fmt.Errorf("a path of %d keys: it takes 2 to %d", len(m.Keys), MaxPathKeys)
	case len(m.Hits) > MaxPathKeys:
		return fmt.Errorf("%d hits: a move has at most %d", len(m.Hits), MaxPathKeys)
	}
	for i, k := range m.Keys {
		if !finite(k.X, MaxReach) || !finite(k.Y, MaxReach) || !finite(k.Height, MaxReach) {
			return fmt.Errorf("key %d of the path is too far away", i+1)
		}
	}
	seen := map[int]bool{}
	for _, h := range m.Hits {
		if h.Moment < 0 || h.Moment >= MaxPathKeys || m.Manner.Spaced() && h.Moment >= len(m.Keys) || seen[h.Moment] {
			return fmt.Errorf("a hit on moment %d, which the move has not, or which has one already", h.Moment)
		}
		seen[h.Moment] = true
	}
	for _, f := range []struct {
		what            string
		v, least, limit float64
	}{
		{"a scale of 1:%g", m.Scale, 1.0 / MaxScale1To, MaxScale1To},
		{"an anticipation of %g of the way", m.Anticipate, 0, 1},
		{"an anticipation of %g seconds", m.Ready, 0, 60},
		{"an overshoot of %g of the way", m.Overshoot, 0, 1},
		{"a damping of %g", m.Damping, 0.01, 0.99},
		{"a period of %g seconds", m.Period, 0.02, 60},
		{"a rebound of %g", m.Rebound, 0.01, 0.99},
		{"a rise of %g mm", m.Rise, 0, MaxReach},
		{"a set seen at %g heights to a millimetre", m.Sight.PerMM, 1e-6, maxFar},
		{"a set turned by %g degrees", m.Sight.Turn, -360, 360},
	} {
		if f.v != 0 && !(f.v >= f.least && f.v <= f.limit) {
			return fmt.Errorf(f.what+": it takes %g to %g", f.v, f.least, f.limit)
		}
	}
	return m.Sight.At.check()
}

// Named returns what moves, for people: "the cup", or "an object".
func (m ObjectMove) Named() string {
	if m.Object == "" {
		return "an object"
	}
	return "the " + m.Object
}

// checkMoves returns an error unless each move keeps the rules and its panels
// are there, the first not after the last.
func (b Board) checkMoves() error {
	if len(b.Moves) > MaxObjectMoves {
		return fmt.Errorf("%d moves of objects: a film has at most %d", len(b.Moves), MaxObjectMoves)
	}
	if len(b.Moves) == 0 {
		return nil
	}
	at, seen := b.places(), map[MoveID]bool{}
	for i, m := range b.Moves {
		first, ok := at[m.First]
		last, also := at[m.Last]
		switch {
		case m.ID < 1 || seen[m.ID]:
			return fmt.Errorf("move %d has the id %d, which is none or used twice", i+1, m.ID)
		case !ok || !also || first > last:
			return fmt.Errorf("move %d goes from panel id %d to panel id %d, which is no run of panels", i+1, m.First, m.Last)
		}
		seen[m.ID] = true
		if err := m.check(); err != nil {
			return fmt.Errorf("move %d: %w", i+1, err)
		}
		for _, h := range m.Hits {
			if err := b.checkStart(h.Start); err != nil {
				return fmt.Errorf("move %d: %w", i+1, err)
			}
		}
	}
	return nil
}

// places returns the place of each panel by its id.
func (b Board) places() map[PanelID]int {
	at := make(map[PanelID]int, len(b.Panels))
	for i, p := range b.Panels {
		at[p.ID] = i
	}
	return at
}
