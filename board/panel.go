package board

import "fmt"

// PanelID names a panel for as long as the film exists; numbers change when
// panels are moved, ids do not.
type PanelID int64

// MediaID names a picture, a sketch or a song stored in the film: the SHA-256 of its
// bytes in hexadecimal. The empty id means none.
type MediaID string

// Panel is one picture of the board with its words. It holds from its start
// to the start of the next panel.
type Panel struct {
	ID      PanelID    `json:"id"`
	Start   Start      `json:"start"`
	Picture MediaID    `json:"picture,omitempty"`
	Step    int        `json:"step,omitempty"`    // frames per exposure, 0: as the film
	Still   bool       `json:"still,omitempty"`   // nothing stirs in it: one photograph lasts for all of the hold
	Opens   Opening    `json:"opens,omitempty"`   // the shot or scene that begins here
	Heading string     `json:"heading,omitempty"` // title of that shot or scene
	Fixed   Numbers    `json:"fixed,omitzero"`    // numbers that stay whatever comes before
	Into    Transition `json:"into,omitzero"`     // how the picture before gives way to this one

	Drawn *Drawn `json:"drawn,omitempty"` // what is made of the picture; nil: nothing. Read it with Drawing
	Words
	FrameNotes *FrameNotes `json:"frame_notes,omitempty"` // pinned to frames; nil: none. Read them with Notes
}

// Words are what is written on a panel.
type Words struct {
	Title  string `json:"title,omitempty"`
	Action string `json:"action,omitempty"`
	Sound  string `json:"sound,omitempty"` // sound or dialogue
	Note   string `json:"note,omitempty"`
	Size   string `json:"size,omitempty"`   // size of the shot: see Sizes
	Camera string `json:"camera,omitempty"` // what the camera does: see Moves
	Marks
}

// Marks say what the shoot needs for a panel.
type Marks struct {
	Rig    bool `json:"rig,omitempty"`    // a rig stands in the frame, to be painted out
	Effect bool `json:"effect,omitempty"` // an effect is made in the camera
	Plate  bool `json:"plate,omitempty"`  // a clean plate is needed
}

// Anchor ties a start to the music: part Part of Of equal parts after beat
// Beat (0 is the first), moved by Offset frames; a negative offset lets the
// picture lead.
type Anchor struct {
	Beat   int   `json:"beat"`
	Of     int   `json:"of"`
	Part   int   `json:"part"`
	Offset Frame `json:"offset"`
}

// Start says where a panel begins. With an anchor it follows the music;
// without one it is free and keeps its time in the film.
type Start struct {
	Time   float64 `json:"time"` // seconds of film; the last known time of an anchored start
	Anchor Anchor  `json:"anchor,omitzero"`
}

// Anchored reports whether the start follows the music.
func (s Start) Anchored() bool { return s.Anchor.Of > 0 }

// Free returns a start at t seconds of film.
func Free(t float64) Start { return Start{Time: t} }

// MaxParts is the finest division of a beat an anchor may use.
const MaxParts = 48

func (a Anchor) check() error {
	if a.Of < 0 || a.Of > MaxParts || a.Part < 0 || (a.Of > 0 && a.Part >= a.Of) || a.Beat < -1e6 || a.Beat > 1e6 ||
		a.Offset < -1e6 || a.Offset > 1e6 {
		return fmt.Errorf("the anchor %d/%d after beat %d, moved by %d frames, makes no sense", a.Part, a.Of, a.Beat, a.Offset)
	}
	return nil
}
