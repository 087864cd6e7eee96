package ui

import (
	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// Names of commands that buttons of the face do as well.
const (
	remarksName      = "Notes of others"
	takeRemarksName  = "Take notes of others…"
	openRemarksName  = "Only the notes that are open"
	acceptRemarkName = "Accept the note"
	answerRemarkName = "Answer the note…"
	tickRemarkName   = "Tick the note off"
	reopenRemarkName = "Reopen the note"
	removeRemarkName = "Remove the note"
)

// remarkCommands are those on the notes that others made on the film.
func (w *window) remarkCommands() []*command {
	f := w.remarks
	any := func() bool { return len(w.timeline.view.remarks) > 0 }
	in := func(states ...board.RemarkState) func() bool {
		return func() bool {
			r, ok := f.chosen()
			for _, s := range states {
				if ok && r.State == s {
					return true
				}
			}
			return false
		}
	}
	const group = remarksName
	return []*command{
		{menu: "Shots"},
		{menu: "Shots", group: group, name: "To the note before", looks: true, key: fyne.KeyPageUp, mod: ctrl, do: func() { f.step(-1) }, can: any},
		{menu: "Shots", group: group, name: "To the next note", looks: true, key: fyne.KeyPageDown, mod: ctrl, do: func() { f.step(1) }, can: any},
		{menu: "Shots", group: group, name: openRemarksName, looks: true, do: f.filter, ticked: func() bool { return f.onlyOpen }},
		{menu: "Shots", group: group},
		{menu: "Shots", group: group, name: acceptRemarkName, do: func() { f.do(board.AcceptRemark) }, can: in(board.RemarkOpen)},
		{menu: "Shots", group: group, name: answerRemarkName, do: f.answer, can: in(board.RemarkOpen, board.RemarkAccepted, board.RemarkDone)},
		{menu: "Shots", group: group, name: tickRemarkName, do: func() { f.do(board.TickRemark) }, can: in(board.RemarkOpen, board.RemarkAccepted)},
		{menu: "Shots", group: group, name: reopenRemarkName, do: func() { f.do(board.ReopenRemark) }, can: in(board.RemarkAccepted, board.RemarkDone)},
		{menu: "Shots", group: group, name: removeRemarkName, do: func() { f.do(board.RemoveRemark) }, can: in(board.RemarkOpen, board.RemarkAccepted, board.RemarkDone)},
	}
}

// turnTo turns the card to the notes.
func (f *remarkFace) turnTo() { f.w.faces.Show(f.face) }

// open goes to a note and shows it on the card or, on pages without the card,
// in the foot.
func (f *remarkFace) open(id string) {
	f.turnTo()
	f.goTo(id)
	if r, ok := f.chosen(); ok && f.w.pages.up != f.w.timelinePage {
		f.w.foot.Say(remarkSaid(r))
	}
}

// goTo chooses a note and takes the playhead to its frame, if it stands on one.
func (f *remarkFace) goTo(id string) {
	w := f.w
	f.at = id
	if r, ok := f.chosen(); ok && r.At >= 0 {
		w.seek(r.Frame)
		w.timeline.SetPlayhead(w.at, true)
	}
	f.present()
	refreshMenus(w.menu, w.commands)
}

// goThrough goes to the note in a row of the list, which stays as it is sorted:
// the next row is to be the next one still.
func (f *remarkFace) goThrough(row int) {
	f.going = true
	f.goTo(f.rows[row].ID)
	f.going = false
}

// step goes to the next note on the film, or to the one before; among those on
// one frame from one to the other.
func (f *remarkFace) step(by int) {
	list, now := f.onFilm(), -1
	for k, r := range list {
		if r.ID == f.at && r.Frame == f.w.at {
			now = k
		}
	}
	if now >= 0 {
		if to := now + by; to >= 0 && to < len(list) {
			f.open(list[to].ID)
			return
		}
	} else {
		for k := range list {
			if by < 0 {
				k = len(list) - 1 - k
			}
			if by > 0 && list[k].Frame >= f.w.at || by < 0 && list[k].Frame <= f.w.at {
				f.open(list[k].ID)
				return
			}
		}
	}
	words := "There is no note after this one."
	if by < 0 {
		words = "There is no note before this one."
	}
	f.w.foot.Say(words)
}

// do does an edit to the chosen note, as a step of its own.
func (f *remarkFace) do(edit func(id string) board.Edit) {
	if r, ok := f.chosen(); ok {
		f.w.desk.CloseEdit()
		f.w.do(edit(r.ID))
		f.w.desk.CloseEdit()
	}
}

// answer asks what to answer to the chosen note.
func (f *remarkFace) answer() {
	r, ok := f.chosen()
	if !ok {
		return
	}
	w := f.w
	words := newField("nothing: there is no answer", 4)
	words.SetText(r.Answer)
	w.ask("Answer to "+firstOfName(r.Author), "Answer", []askRow{{"Answer", words}}, func() error {
		w.desk.CloseEdit()
		defer w.desk.CloseEdit()
		return w.desk.Do(board.AnswerRemark(r.ID, words.Text))
	})
}

// firstOfName shortens a name for a title.
func firstOfName(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// filter shows the notes that are open alone, or all.
func (f *remarkFace) filter() {
	f.onlyOpen = !f.onlyOpen
	f.present()
	refreshMenus(f.w.menu, f.w.commands)
}
