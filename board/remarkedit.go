package board

import (
	"errors"
	"slices"
	"strings"
)

var errNoRemark = errors.New("there is no such note")

// TakenRemarks counts what became of remarks that were brought to a film.
type TakenRemarks struct {
	New, Changed int
	Gone         int // taken back by their authors
	Known        int // there already, as they are or newer
	Foreign      int // left out: the film has one of another author by that id
}

// TakeRemarks brings remarks to the film: see WithRemarks.
func TakeRemarks(list []Remark) Edit {
	return Edit{Name: "take notes", Apply: func(b Board) (Board, error) {
		out, _, err := b.WithRemarks(list)
		return out, err
	}}
}

// WithRemarks returns the board with remarks from elsewhere. One that the film
// has already, by its id, takes the place of the film's if it was written later
// by the same author: it is open again, keeps its answer and stays where it
// stands. So the same list twice changes nothing, and the order of several does
// not matter. States, answers and panels that the film does not have are not
// taken over.
func (b Board) WithRemarks(list []Remark) (Board, TakenRemarks, error) {
	var n TakenRemarks
	out, at := b, b.places()
	out.Remarks = slices.Clone(b.Remarks)
	known := make(map[string]int, len(b.Remarks))
	for i, r := range b.Remarks {
		known[r.ID] = i
	}
	for _, r := range list {
		gone := r.State == RemarkGone
		i, there := known[r.ID]
		switch {
		case !there:
			if _, panel := at[r.Panel]; !panel {
				r.Panel, r.After = 0, 0
			}
			if r.Answer = ""; !gone {
				r.State = RemarkOpen
				n.New++
			}
			known[r.ID] = len(out.Remarks)
			out.Remarks = append(out.Remarks, r)
		case out.Remarks[i].Author != r.Author:
			n.Foreign++
		case out.Remarks[i].Written >= r.Written:
			n.Known++
		default:
			was := &out.Remarks[i]
			switch {
			case gone && was.State != RemarkGone:
				n.Gone++
			case !gone && was.State != RemarkGone:
				n.Changed++
			case !gone:
				n.New++
			}
			was.Written, was.Text, was.State = r.Written, r.Text, RemarkOpen
			if gone {
				was.Text, was.Answer, was.State = "", "", RemarkGone
			}
		}
	}
	if len(out.Remarks) == 0 {
		out.Remarks = nil
	}
	out, err := out.checked(b)
	if err != nil {
		return b, TakenRemarks{}, err
	}
	return out, n, nil
}

// Remark returns the place of a remark in the board's list, -1 if there is none
// or it is gone.
func (b Board) Remark(id string) int {
	return slices.IndexFunc(b.Remarks, func(r Remark) bool { return r.ID == id && r.State != RemarkGone })
}

// AcceptRemark says that a note will be followed.
func AcceptRemark(id string) Edit {
	return onRemark("accept a note", id, func(r *Remark) { r.State = RemarkAccepted })
}

// TickRemark says that a note was followed.
func TickRemark(id string) Edit {
	return onRemark("tick off a note", id, func(r *Remark) { r.State = RemarkDone })
}

// ReopenRemark takes back what AcceptRemark and TickRemark said.
func ReopenRemark(id string) Edit {
	return onRemark("reopen a note", id, func(r *Remark) { r.State = RemarkOpen })
}

// AnswerRemark answers a note; an empty text takes the answer away.
func AnswerRemark(id, text string) Edit {
	e := onRemark("answer a note", id, func(r *Remark) { r.Answer = strings.TrimSpace(text) })
	e.Merge = "answer note " + id
	return e
}

// RemoveRemark takes a note out. A file that still has it does not bring it
// back, until its author changes it.
func RemoveRemark(id string) Edit {
	return onRemark("remove a note", id, func(r *Remark) { r.Text, r.Answer, r.State = "", "", RemarkGone })
}

func onRemark(name, id string, change func(*Remark)) Edit {
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		i := b.Remark(id)
		if i < 0 {
			return b, errNoRemark
		}
		out := b
		out.Remarks = slices.Clone(b.Remarks)
		change(&out.Remarks[i])
		return out.checked(b)
	}}
}
