package board

import (
	"fmt"
	"slices"
)

// Framing is the part of the frame that the camera sees: its middle, and its
// width as a part of the frame's. Width 0 is 1, so the zero value is the whole
// frame.
type Framing struct {
	At    Point   `json:"at,omitzero"`
	Width float64 `json:"width,omitempty"`
}

// Limits of a framing's width.
const (
	MinFraming = 0.02
	MaxFraming = 10
)

// Part returns the width as a part of the frame's, 1 where none is set.
func (f Framing) Part() float64 {
	if f.Width == 0 {
		return 1
	}
	return f.Width
}

func (f Framing) check() error {
	if f.Width != 0 && !(f.Width >= MinFraming && f.Width <= MaxFraming) {
		return fmt.Errorf("a framing %g times as wide as the frame: it takes %g to %g", f.Width, MinFraming, float64(MaxFraming))
	}
	return f.At.check()
}

// same reports whether two framings show the same, however they are written.
func (f Framing) same(g Framing) bool { return f.At == g.At && f.Part() == g.Part() }

// Spacing says how a move is spread over its frames. Animators call it slow in
// when a move eases into its end and slow out when it eases out of its start.
type Spacing string

// The spacings.
const (
	Even      Spacing = ""
	SlowIn    Spacing = "slow-in"
	SlowOut   Spacing = "slow-out"
	SlowInOut Spacing = "slow-in-out"
)

// Spacings lists all of them, for menus.
var Spacings = []Spacing{Even, SlowIn, SlowOut, SlowInOut}

// At returns the part of the way that is done after the part u of the time,
// both 0 to 1: u for even spacing, 1-(1-u)^2 with a slow in, u^2 with a slow
// out and 3u^2-2u^3 with both, the charts animators draw.
func (s Spacing) At(u float64) float64 {
	u = min(max(u, 0), 1)
	switch s {
	case SlowIn:
		return 1 - (1-u)*(1-u)
	case SlowOut:
		return u * u
	case SlowInOut:
		return u * u * (3 - 2*u)
	}
	return u
}

// CameraMove is a move of the camera within a panel, from one framing to
// another. The zero value holds the whole frame.
type CameraMove struct {
	From    Framing `json:"from,omitzero"`
	To      Framing `json:"to,omitzero"`
	Spacing Spacing `json:"spacing,omitempty"`
}

// Holds reports whether the camera stands still.
func (m CameraMove) Holds() bool { return m.From.same(m.To) }

// At returns the framing after the part u of the time, 0 to 1. Middle and
// width have done the same part of their ways, so what stands still in both
// framings stands still between them.
func (m CameraMove) At(u float64) Framing {
	if m.Holds() {
		return m.From
	}
	k := m.Spacing.At(u)
	mix := func(a, b float64) float64 { return a + (b-a)*k }
	return Framing{
		Point{mix(m.From.At.X, m.To.At.X), mix(m.From.At.Y, m.To.At.Y)},
		mix(m.From.Part(), m.To.Part()),
	}
}

func (m CameraMove) check() error {
	if !slices.Contains(Spacings, m.Spacing) {
		return fmt.Errorf("%.40q is no spacing of a move", string(m.Spacing))
	}
	if err := m.From.check(); err != nil {
		return err
	}
	return m.To.check()
}

// cut returns the two parts of the move before and after the part u of its
// time: together they pass through the same framings, each spaced as the
// nearer end of the whole.
func (m CameraMove) cut(u float64) (before, after CameraMove) {
	if m.Holds() {
		return m, m
	}
	between := m.At(u)
	before, after = CameraMove{m.From, between, Even}, CameraMove{between, m.To, Even}
	if m.Spacing == SlowOut || m.Spacing == SlowInOut {
		before.Spacing = SlowOut
	}
	if m.Spacing == SlowIn || m.Spacing == SlowInOut {
		after.Spacing = SlowIn
	}
	return before, after
}

// SetMove moves the camera within the chosen panels.
func SetMove(set []int, m CameraMove) Edit {
	return merging(onDrawings("camera move", set, func(d *Drawn) { d.Travel = m }))
}

// FramingAt returns what the camera sees of a panel at frame f of the frames
// it is seen in, step frames to an exposure: an exposure shows one framing,
// the first is where the move begins and the last where it ends.
func (m CameraMove) FramingAt(f Frame, seen Frame, step int) Framing {
	last := (seen - 1) / Frame(step)
	if m.Holds() || last < 1 {
		return m.From
	}
	return m.At(float64(min(max(f, 0)/Frame(step), last)) / float64(last))
}
