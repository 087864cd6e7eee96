package main

import (
	"fmt"
	"time"

	"stillbeat/board"
)

// notesReport is what notes prints as JSON.
type notesReport struct {
	Film  string       `json:"film"`
	Title string       `json:"title"`
	Notes []noteReport `json:"notes"`
}

type noteReport struct {
	ID      string       `json:"id"`
	Author  string       `json:"author"`
	Written string       `json:"written"`         // RFC 3339, UTC
	Panel   string       `json:"panel,omitempty"` // its number; none: the note is loose
	Frame   *board.Frame `json:"frame,omitempty"` // of the film; none: the note is loose
	Seconds float64      `json:"seconds"`         // of the film, where it stands or stood
	State   string       `json:"state"`           // open, accepted or done
	Text    string       `json:"text"`
	Answer  string       `json:"answer,omitempty"`
}

func newNotesReport(film string, b board.Board) notesReport {
	out := notesReport{Film: film, Title: b.Title, Notes: []noteReport{}}
	numbers := b.Numbers()
	for _, p := range b.PlacedRemarks() {
		n := noteReport{ID: p.ID, Author: p.Author, Written: time.UnixMilli(p.Written).UTC().Format(time.RFC3339),
			Seconds: micro(p.Was), State: stateWord(p.State), Text: p.Text, Answer: p.Answer}
		if p.At >= 0 {
			n.Panel, n.Frame, n.Seconds = numbers[p.At], &p.Frame, micro(b.Rate.Seconds(p.Frame))
		}
		out.Notes = append(out.Notes, n)
	}
	return out
}

func stateWord(s board.RemarkState) string {
	if s == board.RemarkOpen {
		return "open"
	}
	return string(s)
}

// noteCells is how wide a note is in the list.
const noteCells = 72

// notesSummary lists the notes for a person.
func notesSummary(b board.Board) string {
	placed := b.PlacedRemarks()
	if len(placed) == 0 {
		return "Nobody has noted anything yet.\n"
	}
	numbers, states := b.Numbers(), map[board.RemarkState]int{}
	list := table{right: []int{0, 1, 2}}
	list.add("Panel", "Frame", "Time", "Author", "State", "Note")
	for _, p := range placed {
		states[p.State]++
		panel, frame, at := "gone", "", b.Rate.Nearest(p.Was)
		if p.At >= 0 {
			panel, frame, at = numbers[p.At], fmt.Sprint(p.Frame), p.Frame
		}
		list.add(panel, frame, b.Rate.Timecode(at), shorten(oneLine(p.Author), 24), stateWord(p.State), shorten(oneLine(p.Text), noteCells))
		if p.Answer != "" {
			list.add("", "", "", "", "", "Answer: "+shorten(oneLine(p.Answer), noteCells))
		}
	}
	return fmt.Sprintf("%s: %d open, %d accepted, %d done\n\n%s", count(len(placed), "note"),
		states[board.RemarkOpen], states[board.RemarkAccepted], states[board.RemarkDone], &list)
}
