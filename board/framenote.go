package board

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// FrameNote is a note pinned to one frame of a panel. It keeps its distance
// from the panel's start, in seconds, and so moves with the panel and stays
// put when the frame rate changes.
type FrameNote struct {
	After float64 `json:"after"` // seconds from the panel's start
	Text  string  `json:"text"`
}

// FrameNotes are the notes on a panel's frames, in the order of these. Panels
// point to them, since most have none; what they point to is never changed.
type FrameNotes []FrameNote

// Notes returns what is noted on the panel's frames. It is shared: do not
// change it.
func (p Panel) Notes() []FrameNote {
	if p.FrameNotes == nil {
		return nil
	}
	return *p.FrameNotes
}

// MaxFrameNotes is the most notes pinned to frames of one panel.
const MaxFrameNotes = 1000

func checkFrameNotes(notes []FrameNote) error {
	if len(notes) > MaxFrameNotes {
		return fmt.Errorf("%d notes on its frames: a panel has at most %d", len(notes), MaxFrameNotes)
	}
	for i, n := range notes {
		if !(n.After >= 0 && n.After <= MaxSeconds) {
			return fmt.Errorf("a note %g seconds after the start is outside the film", n.After)
		}
		if i > 0 && n.After < notes[i-1].After {
			return errors.New("the notes on its frames are not in order")
		}
		if n.Text == "" || !readable(n.Text) {
			return errors.New("a note on a frame is empty, too long or not readable")
		}
	}
	return nil
}

// NoteFrame returns the frame a note of panel i stands on. When the hold came
// to be too short for it, that is the panel's last.
func (b Board) NoteFrame(i int, n FrameNote, starts []Frame) Frame {
	return min(starts[i]+b.Rate.Nearest(n.After), starts[i+1]-1)
}

// NotesOn returns what is noted on frame f of the film, one note below the
// other, "" for none.
func (b Board) NotesOn(f Frame, starts []Frame) string {
	i := PanelAt(starts, f)
	if i < 0 {
		return ""
	}
	var out string
	for _, n := range b.Panels[i].Notes() {
		if b.NoteFrame(i, n, starts) == f {
			out = joinedText(out, n.Text)
		}
	}
	return out
}

// SetFrameNote pins a note to frame f of the film in place of those that stand
// there; an empty text takes them away.
func SetFrameNote(f Frame, text string) Edit {
	return merging(Edit{Name: fmt.Sprintf("note on frame %d", f), Apply: func(b Board) (Board, error) {
		starts := b.Starts()
		i := PanelAt(starts, f)
		if i < 0 {
			return b, fmt.Errorf("frame %d is outside the film", f)
		}
		notes := slices.DeleteFunc(slices.Clone(b.Panels[i].Notes()), func(n FrameNote) bool { return b.NoteFrame(i, n, starts) == f })
		if strings.TrimSpace(text) != "" {
			notes = append(notes, FrameNote{b.Rate.Seconds(f - starts[i]), text})
		}
		out := b
		out.Panels = slices.Clone(b.Panels)
		out.Panels[i].FrameNotes = inOrder(notes)
		return out.checked(b)
	}})
}

// inOrder returns the notes for a panel to point to, nil for none.
func inOrder(notes []FrameNote) *FrameNotes {
	slices.SortStableFunc(notes, func(a, b FrameNote) int { return cmp.Compare(a.After, b.After) })
	if len(notes) == 0 {
		return nil
	}
	list := FrameNotes(notes)
	return &list
}

// cutNotes returns the notes of panel i before frame f of the film and those
// from there on, as a panel that starts there has them.
func (b Board) cutNotes(i int, f Frame, starts []Frame) (before, after *FrameNotes) {
	var first, rest []FrameNote
	for _, n := range b.Panels[i].Notes() {
		if b.NoteFrame(i, n, starts) < f {
			first = append(first, n)
			continue
		}
		n.After = max(0, n.After-b.Rate.Seconds(f-starts[i]))
		rest = append(rest, n)
	}
	return inOrder(first), inOrder(rest)
}

// joinedNotes returns the notes of the panels from one to the other, the last
// left out, as a panel that holds for all of them has them.
func (b Board) joinedNotes(from, to int, starts []Frame) *FrameNotes {
	var out []FrameNote
	for i := from; i < to; i++ {
		for _, n := range b.Panels[i].Notes() {
			n.After = b.Rate.Seconds(b.NoteFrame(i, n, starts) - starts[from])
			out = append(out, n)
		}
	}
	return inOrder(out)
}
