package board

import (
	"fmt"
	"slices"
)

// Sizes are the usual sizes of a shot, by code and by what is in the frame.
// Others may be written. Source: handbooks of film language agree on these;
// where the borders lie is common practice.
var Sizes = [][2]string{
	{"ECU", "extreme close-up: the eyes, one detail"},
	{"BCU", "big close-up: forehead to chin"},
	{"CU", "close-up: the face"},
	{"MCU", "medium close-up: head to chest"},
	{"MS", "medium shot: head to waist"},
	{"MLS", "medium long shot: head to knees"},
	{"LS", "long shot: the whole body"},
	{"VLS", "very long shot: small in the landscape"},
	{"ELS", "extreme long shot: the place alone"},
	{"OTS", "over the shoulder"},
	{"POV", "point of view"},
	{"2S", "two-shot"},
	{"HA", "high angle"},
	{"LA", "low angle"},
}

// Moves are the usual moves of a camera. Others may be written.
var Moves = []string{"pan left", "pan right", "tilt up", "tilt down", "track left", "track right",
	"push in", "pull out", "pedestal up", "pedestal down", "zoom in", "zoom out", "rack focus"}

// Passage is a way from one picture to the next.
type Passage string

// The ways; the empty one is a cut.
const (
	Cut      Passage = ""
	Dissolve Passage = "dissolve" // the pictures give way to each other
	Fade     Passage = "fade"     // through black
	Wipe     Passage = "wipe"
)

// Passages lists all of them, for menus.
var Passages = []Passage{Cut, Dissolve, Fade, Wipe}

// UsualFrames returns the length a new passage gets, frames at 24 fps: of
// dissolves 12, 24 and 48 are the commonest, of fades 8, 16, 24 and 32 (Burder,
// 16mm Film Cutting, on opticals); for wipes 12 to 24 is common practice.
func (p Passage) UsualFrames() Frame {
	switch p {
	case Dissolve:
		return 24
	case Fade, Wipe:
		return 16
	}
	return 0
}

// Transition is a passage with its whole length, half of it before the cut
// and half after.
type Transition struct {
	Kind   Passage `json:"kind"`
	Frames Frame   `json:"frames"`
}

// MaxTransition is the longest passage, frames: cut lists have three digits
// for it, to 255 (CMX 3600).
const MaxTransition = 255

func (t Transition) check() error {
	switch {
	case !slices.Contains(Passages, t.Kind):
		return fmt.Errorf("%.40q is no way from one picture to the next", string(t.Kind))
	case t.Kind == Cut && t.Frames != 0:
		return fmt.Errorf("a cut of %d frames: it has no length", t.Frames)
	case t.Kind != Cut && (t.Frames < 1 || t.Frames > MaxTransition):
		return fmt.Errorf("a %s of %d frames: it takes 1 to %d", t.Kind, t.Frames, MaxTransition)
	}
	return nil
}

// Write changes what is written on the chosen panels. what names the field for
// undo; a run of writes to one field of the same panels is one step.
func Write(set []int, what string, change func(*Words)) Edit {
	return merging(onPanels(what, set, func(p *Panel) { change(&p.Words) }))
}

// SetPicture gives the chosen panels a picture, or none with the empty id.
func SetPicture(set []int, m MediaID) Edit {
	return onPanels("picture", set, func(p *Panel) { p.Picture = m })
}

// SetStill says whether the chosen panels are still: nothing stirs in them, so
// that one photograph lasts for all of the hold.
func SetStill(set []int, still bool) Edit {
	return onPanels("still", set, func(p *Panel) { p.Still = still })
}

// SetPanelStep gives the chosen panels frames per exposure of their own; 0
// follows the film.
func SetPanelStep(set []int, step int) Edit {
	return onPanels("exposures", set, func(p *Panel) { p.Step = step })
}

// SetTransition says how the pictures before the chosen panels give way.
func SetTransition(set []int, t Transition) Edit {
	return merging(onPanels("transition", set, func(p *Panel) { p.Into = t }))
}

// onPanels changes the chosen panels one by one.
func onPanels(what string, set []int, change func(*Panel)) Edit {
	return onSeveral(named(what+" of", set), set, func(b Board, chosen []int) (Board, error) {
		out := b
		out.Panels = slices.Clone(b.Panels)
		for _, i := range chosen {
			change(&out.Panels[i])
		}
		return out.checked(b)
	})
}

// merging makes edits of one kind in a row one step to undo.
func merging(e Edit) Edit {
	e.Merge = e.Name
	return e
}
