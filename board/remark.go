package board

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Remark is a note that somebody who looked at the film pinned to one of its
// frames. It keeps its distance from the start of its panel, in seconds, as a
// FrameNote does, and its author and answer beside it.
type Remark struct {
	ID      string      `json:"id"`               // given where it was written: see CheckRemarkID
	Author  string      `json:"author"`           // who wrote it, in one line
	Written int64       `json:"written"`          // when it was last changed: milliseconds since 1970, UTC
	Panel   PanelID     `json:"panel,omitempty"`  // 0, or one that is gone: it is loose
	After   float64     `json:"after,omitempty"`  // seconds from the panel's start
	Was     float64     `json:"was,omitempty"`    // second of the film at which it was written
	Text    string      `json:"text,omitempty"`   // none where it is gone
	Answer  string      `json:"answer,omitempty"` // of who makes the film
	State   RemarkState `json:"state,omitempty"`
}

// RemarkState is what has become of a remark.
type RemarkState string

// States of a remark. One that is gone, taken back by its author or removed
// from the film, leaves its id behind, so that an older file of notes does not
// bring it back.
const (
	RemarkOpen     RemarkState = ""
	RemarkAccepted RemarkState = "accepted"
	RemarkDone     RemarkState = "done"
	RemarkGone     RemarkState = "gone"
)

// Limits of remarks, in bytes where they are texts.
const (
	MaxRemarks      = 5000 // in a film, with those that are gone
	MaxRemarkID     = 40
	MaxRemarkAuthor = 200
	MaxRemarkText   = 8000
	maxWritten      = 1 << 53 // what a number in JSON holds exactly
)

// CheckRemarkID returns an error unless id is made of up to MaxRemarkID small
// letters a to z, figures and hyphens.
func CheckRemarkID(id string) error {
	if id == "" || len(id) > MaxRemarkID || strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
		return fmt.Errorf("the id %.60q of a note is not made of up to %d small letters, figures and hyphens", id, MaxRemarkID)
	}
	return nil
}

func (r Remark) check(next PanelID) error {
	if err := CheckRemarkID(r.ID); err != nil {
		return err
	}
	switch {
	case strings.TrimSpace(r.Author) == "" || len(r.Author) > MaxRemarkAuthor || !readable(r.Author):
		return fmt.Errorf("note %s: the name of its author is empty, too long or not readable", r.ID)
	case (r.Text == "") != (r.State == RemarkGone) || len(r.Text) > MaxRemarkText || !readable(r.Text):
		return fmt.Errorf("note %s: its text is empty, too long or not readable", r.ID)
	case !readable(r.Answer):
		return fmt.Errorf("note %s: its answer is too long or not readable", r.ID)
	case r.Written < 0 || r.Written > maxWritten:
		return fmt.Errorf("note %s: it was written at no time", r.ID)
	case r.Panel < 0 || r.Panel >= next:
		return fmt.Errorf("note %s: its panel has the id %d, which was never given out", r.ID, r.Panel)
	case !(r.After >= 0 && r.After <= MaxSeconds) || !(r.Was >= 0 && r.Was <= MaxSeconds):
		return fmt.Errorf("note %s: it is outside the film", r.ID)
	}
	switch r.State {
	case RemarkOpen, RemarkAccepted, RemarkDone, RemarkGone:
		return nil
	}
	return fmt.Errorf("note %s: %.40q is nothing that becomes of a note", r.ID, string(r.State))
}

func (b Board) checkRemarks() error {
	if len(b.Remarks) > MaxRemarks {
		return fmt.Errorf("%d notes of others: a film has at most %d", len(b.Remarks), MaxRemarks)
	}
	seen := make(map[string]bool, len(b.Remarks))
	for _, r := range b.Remarks {
		if err := r.check(b.NextID); err != nil {
			return err
		}
		if seen[r.ID] {
			return fmt.Errorf("note %s is there twice", r.ID)
		}
		seen[r.ID] = true
	}
	return nil
}

// PlacedRemark is a remark with where it stands on the film as it is.
type PlacedRemark struct {
	Remark
	At    int   // index of its panel, -1 if it is loose
	Frame Frame // of the film, -1 if it is loose
}

// PlacedRemarks returns the remarks that are not gone in the order of the film,
// those on one frame in the order in which they were written. Where the hold
// came to be too short for one, it stands on the panel's last frame. Those
// whose panel is gone come last.
func (b Board) PlacedRemarks() []PlacedRemark {
	if len(b.Remarks) == 0 {
		return nil
	}
	at, starts := b.places(), b.Starts()
	var out []PlacedRemark
	for _, r := range b.Remarks {
		if r.State == RemarkGone {
			continue
		}
		p := PlacedRemark{r, -1, -1}
		if i, there := at[r.Panel]; there {
			p.At, p.Frame = i, b.remarkFrame(r, i, starts)
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, b PlacedRemark) int {
		return cmp.Or(cmp.Compare(uint64(a.Frame), uint64(b.Frame)), // -1 is the largest
			cmp.Compare(a.Written, b.Written), cmp.Compare(a.ID, b.ID))
	})
	return out
}

func (b Board) remarkFrame(r Remark, i int, starts []Frame) Frame {
	return b.NoteFrame(i, FrameNote{After: r.After}, starts)
}
