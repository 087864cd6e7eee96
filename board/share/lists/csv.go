package lists

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"stillbeat/board"
)

// columns of the table of panels, in order. Times are seconds of film; frames
// count from 0, panels and beats from 1.
var columns = []string{
	"number", "start_frame", "start_s", "timecode", "hold_frames", "hold_s", "beat", "anchor",
	"title", "action", "sound", "note", "size", "camera", "rig", "effect", "plate",
	"transition", "transition_frames", "id", "fps",
}

// PanelTable returns the panels as a table with a head: CSV as in RFC 4180, in
// UTF-8, with a decimal point. A text that a spreadsheet would take for a
// formula has an apostrophe before it. ReadPanels reads it.
func PanelTable(b board.Board) ([]byte, error) {
	if len(b.Panels) == 0 {
		return nil, ErrEmpty
	}
	starts, numbers := b.Starts(), b.Numbers()
	rows := [][]string{columns}
	for i, p := range b.Panels {
		from, hold := starts[i], starts[i+1]-starts[i]
		rows = append(rows, []string{
			numbers[i], whole(from), seconds(b.Rate.Seconds(from)), b.Rate.Timecode(from),
			whole(hold), seconds(b.Rate.Seconds(starts[i+1]) - b.Rate.Seconds(from)), b.BeatWords(from), anchorWords(p.Start),
			p.Title, p.Action, p.Sound, p.Note, p.Size, p.Camera, yes(p.Rig), yes(p.Effect), yes(p.Plate),
			string(p.Into.Kind), framesOf(p.Into), strconv.FormatInt(int64(p.ID), 10), rateWords(b.Rate),
		})
	}
	return table(rows), nil
}

// ErrNoBeats is returned for the beats of a film without any.
var ErrNoBeats = errors.New("the film has no beats to list")

// BeatTable returns the beats as a table like that of the panels: when each is
// in the film and in the song, its frame, how many milliseconds that frame
// comes after it, and the panel that is up.
func BeatTable(b board.Board) ([]byte, error) {
	if !b.OnGrid() {
		return nil, ErrNoBeats
	}
	rows := [][]string{{"beat", "bar", "place", "film_s", "frame", "timecode", "frame_late_ms", "panel", "song_s", "by_hand"}}
	starts, numbers := b.Starts(), b.Numbers()
	bar, place := 0, 0
	for k, beat := range b.Grid.Beats {
		if place++; beat.Bar {
			bar, place = bar+1, 1
		}
		f, at := b.BeatFrame(k), b.SongOffset()+beat.Time
		row := []string{strconv.Itoa(k + 1), strconv.Itoa(bar), strconv.Itoa(place), seconds(at), whole(f), b.Rate.Timecode(f),
			strconv.FormatFloat(1000*(b.Rate.Seconds(f)-at), 'f', 1, 64), "", seconds(beat.Time), yes(beat.Hand)}
		if i := board.PanelAt(starts, f); i >= 0 {
			row[7] = numbers[i]
		}
		rows = append(rows, row)
	}
	return table(rows), nil
}

var plainNumber = regexp.MustCompile(`^-?\d+(\.\d+)?$`)

// table writes rows. Numbers may begin with a minus and are left alone.
func table(rows [][]string) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	for _, row := range rows {
		for i, cell := range row {
			if !plainNumber.MatchString(cell) {
				row[i] = guarded(strings.ReplaceAll(strings.ReplaceAll(cell, "\r\n", "\n"), "\r", "\n"))
			}
		}
		w.Write(row)
	}
	w.Flush() // a buffer takes everything
	return out.Bytes()
}

// formula reports whether a spreadsheet would take a text for a formula, or for
// one that is guarded already. Source of the signs: OWASP, CSV Injection.
func formula(text string) bool {
	bare := strings.TrimLeft(text, "'")
	return bare != "" && strings.ContainsRune("=+-@\t\r\n", rune(bare[0]))
}

func guarded(text string) string {
	if formula(text) {
		return "'" + text
	}
	return text
}

// unguarded undoes guarded.
func unguarded(cell string) string {
	if strings.HasPrefix(cell, "'") && formula(cell) {
		return cell[1:]
	}
	return cell
}

func whole(f board.Frame) string { return strconv.FormatInt(int64(f), 10) }

// seconds writes a time to the microsecond.
func seconds(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

func yes(v bool) string {
	if v {
		return "yes"
	}
	return ""
}

func framesOf(t board.Transition) string {
	if t.Kind == board.Cut {
		return ""
	}
	return whole(t.Frames)
}

// rateWords writes a rate exactly, as board.ParseRate reads it.
func rateWords(r board.FrameRate) string {
	if r.Den == 1 {
		return strconv.FormatInt(r.Num, 10)
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

// anchorWords writes the beat a start is tied to: "beat 5", "beat 5 + 1/2, 2
// frames early"; beats count from 1.
func anchorWords(s board.Start) string {
	if !s.Anchored() {
		return "free"
	}
	a := s.Anchor
	text := fmt.Sprintf("beat %d", a.Beat+1)
	if a.Part > 0 {
		text += fmt.Sprintf(" + %d/%d", a.Part, a.Of)
	}
	switch {
	case a.Offset < 0:
		text += fmt.Sprintf(", %d frames early", -a.Offset)
	case a.Offset > 0:
		text += fmt.Sprintf(", %d frames late", a.Offset)
	}
	return text
}
