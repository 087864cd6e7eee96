// Package board is what a film is before it is shot: panels along a line of
// time, the music they are laid on, and the edits that change them. It knows
// nothing of screens, files or sound.
package board

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"unicode/utf8"
)

// Limits of a board. They are far beyond any film shot frame by frame and
// keep damaged files from asking for absurd amounts of memory.
const (
	MaxSeconds = 3 * 60 * 60 // length of a film
	MaxPanels  = 20000
	MaxText    = 20000 // bytes in one text field
	MaxStep    = 12    // frames per exposure
)

// Board is a film's plan. It is a value: edits return a new board and leave
// the old one as it was, so slices and grids are never changed in place.
//
// Panels tile the film: the first starts at frame 0, each holds until the
// next starts, the last holds until End.
type Board struct {
	Title  string    `json:"title"`
	Rate   FrameRate `json:"rate"`
	Step   int       `json:"step"` // frames per exposure: 1 on ones, 2 on twos
	Aspect Aspect    `json:"aspect,omitzero"`
	Song   *Song     `json:"song,omitempty"`
	Grid   Grid      `json:"grid"`
	Panels []Panel   `json:"panels"`
	End    Start     `json:"end"`
	NextID PanelID   `json:"next_id"`

	Markers   []Marker     `json:"markers,omitempty"`   // in any order
	Moves     []ObjectMove `json:"moves,omitempty"`     // of objects on the set, in any order
	Dismissed []string     `json:"dismissed,omitempty"` // names of findings of the check that were accepted: see Dismiss

	Plan    *Planning `json:"plan,omitempty"`    // of the shoot; nil: as usual. Read it with Planning
	Remarks []Remark  `json:"remarks,omitempty"` // of those who looked at it, in any order
}

// New returns an empty board at 24 frames a second, on ones.
func New() Board { return Board{Rate: FrameRate{24, 1}, Step: 1, NextID: 1} }

// SongOffset returns the second of film at which the song begins.
func (b Board) SongOffset() float64 {
	if b.Song == nil {
		return 0
	}
	return b.Song.Offset
}

// OnGrid reports whether the board has beats to lay starts on: those of its
// song, or a click.
func (b Board) OnGrid() bool { return !b.Grid.Empty() }

// Seconds returns the film time a start asks for. Each beat is placed from
// its own time, so nothing accumulates.
func (b Board) Seconds(s Start) float64 {
	if s.Anchored() && b.OnGrid() {
		return b.SongOffset() + b.Grid.Time(s.Anchor.Beat, s.Anchor.Part, s.Anchor.Of)
	}
	return s.Time
}

// Frame returns the frame a start asks for: its time rounded to the nearest
// frame, and for an anchored start moved by its offset.
func (b Board) Frame(s Start) Frame {
	f := b.Rate.Nearest(b.Seconds(s))
	if s.Anchored() && b.OnGrid() {
		f += s.Anchor.Offset
	}
	return f
}

// Starts returns the first frame of each panel and, last, the first frame
// after the film: len(Panels)+1 ascending frames, the first 0. A board
// without panels has length 0. Where starts would collide (a coarse frame
// rate) the later ones give way, so that each panel holds at least a frame.
func (b Board) Starts() []Frame {
	out := make([]Frame, len(b.Panels)+1)
	for i := 1; i < len(b.Panels); i++ {
		out[i] = max(b.Frame(b.Panels[i].Start), out[i-1]+1)
	}
	if n := len(b.Panels); n > 0 {
		out[n] = max(b.Frame(b.End), out[n-1]+1)
	}
	return out
}

// Span returns the frames panel i holds. Callers that want many spans use
// Starts.
func (b Board) Span(i int) Span {
	s := b.Starts()
	return Span{s[i], s[i+1]}
}

// Frames returns the length of the film.
func (b Board) Frames() Frame {
	s := b.Starts()
	return s[len(s)-1]
}

// PanelAt returns the index of the panel up at frame f given the board's
// starts, -1 outside the film. Viewer, exports and sheet all ask it.
func PanelAt(starts []Frame, f Frame) int {
	if len(starts) < 2 || f < 0 || f >= starts[len(starts)-1] {
		return -1
	}
	return sort.Search(len(starts), func(i int) bool { return starts[i] > f }) - 1
}

// Index returns the place of the panel with the given id, -1 if it is gone.
func (b Board) Index(id PanelID) int {
	for i, p := range b.Panels {
		if p.ID == id {
			return i
		}
	}
	return -1
}

// StepOf returns the frames per exposure of panel i.
func (b Board) StepOf(i int) int {
	if s := b.Panels[i].Step; s > 0 {
		return s
	}
	return max(1, b.Step)
}

// Exposures returns how many photographs the film takes: each panel's hold
// divided by its step, rounded up.
func (b Board) Exposures() int64 {
	starts := b.Starts()
	var n int64
	for i := range b.Panels {
		step := int64(b.StepOf(i))
		n += (int64(starts[i+1]-starts[i]) + step - 1) / step
	}
	return n
}

// Check returns an error if the board breaks a rule of the model; files are
// checked with it before they are used.
func (b Board) Check() error {
	if err := b.Rate.Check(); err != nil {
		return err
	}
	if b.Step < 1 || b.Step > MaxStep {
		return fmt.Errorf("the film is on %ds: a step is 1 to %d frames", b.Step, MaxStep)
	}
	if err := b.Aspect.check(); err != nil {
		return err
	}
	if !readable(b.Title) {
		return errors.New("the film's title is too long or not readable")
	}
	if b.NextID < 1 {
		return fmt.Errorf("the next panel would get the id %d: ids count from 1", b.NextID)
	}
	if len(b.Panels) > MaxPanels {
		return fmt.Errorf("%d panels: a film has at most %d", len(b.Panels), MaxPanels)
	}
	if err := b.Grid.check(); err != nil {
		return err
	}
	if b.Song != nil {
		if err := b.Song.check(); err != nil {
			return err
		}
	}
	seen := make(map[PanelID]bool, len(b.Panels))
	for i, p := range b.Panels {
		if p.ID <= 0 || p.ID >= b.NextID || seen[p.ID] {
			return fmt.Errorf("panel %d has the id %d, which is used twice or was never given out", i+1, p.ID)
		}
		seen[p.ID] = true
		if p.Step < 0 || p.Step > MaxStep {
			return fmt.Errorf("panel %d is on %ds: a step is 1 to %d frames", i+1, p.Step, MaxStep)
		}
		if err := b.checkStart(p.Start); err != nil {
			return fmt.Errorf("panel %d: %w", i+1, err)
		}
		for _, t := range []string{p.Title, p.Action, p.Sound, p.Note, p.Size, p.Camera, p.Heading} {
			if !readable(t) {
				return fmt.Errorf("panel %d has a text that is too long or not readable", i+1)
			}
		}
		if err := errors.Join(p.Opens.check(), p.Fixed.check(), p.Into.check()); err != nil {
			return fmt.Errorf("panel %d: %w", i+1, err)
		}
		if err := errors.Join(p.Drawing().check(), checkFrameNotes(p.Notes())); err != nil {
			return fmt.Errorf("panel %d: %w", i+1, err)
		}
	}
	if err := b.checkStart(b.End); err != nil {
		return fmt.Errorf("the end of the film: %w", err)
	}
	if err := errors.Join(b.checkMarkers(), b.checkMoves(), b.Planning().check()); err != nil {
		return err
	}
	if err := errors.Join(b.checkDismissed(), b.checkRemarks()); err != nil {
		return err
	}
	if end := b.Rate.Seconds(b.Frames()); end > MaxSeconds {
		return fmt.Errorf("the film would last %.0f hours: the longest is 3", end/3600)
	}
	return nil
}

func (b Board) checkStart(s Start) error {
	if !finite(s.Time, MaxSeconds) {
		return fmt.Errorf("the start at %g seconds is outside the film", s.Time)
	}
	return s.Anchor.check()
}

// checked returns b if it keeps the rules, else old and what is wrong.
func (b Board) checked(old Board) (Board, error) {
	if err := b.Check(); err != nil {
		return old, err
	}
	return b, nil
}

func readable(text string) bool { return len(text) <= MaxText && utf8.ValidString(text) }

func finite(v, limit float64) bool { return !math.IsNaN(v) && math.Abs(v) <= limit }
