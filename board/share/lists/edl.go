package lists

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"stillbeat/board"
)

// Limits of a CMX 3600 list: events to a list and frames of a transition have
// three digits, reels eight signs (pycmx; a manual of a controller with a
// sample of such a list).
const (
	maxEvents = 999
	maxLength = 255
	maxReel   = 8
	maxTitle  = 70
)

// CutList returns the film as CMX 3600 cut lists, its first frame at one hour:
// more than one if it has more than 999 events. Each panel is a reel of its
// own, on which it begins at zero; the name of its picture is in the comment.
// A dissolve or wipe begins where it is first seen; a fade goes through black.
// Notes tell in a sentence each what does not fit in such a list.
//
// Rates without a timecode are written at 24, 25 or 30 frames a second if each
// frame becomes a whole number of them, else at 24 with starts rounded. A silent
// list leaves the song out.
func CutList(b board.Board, silent bool) (parts [][]byte, notes []string, err error) {
	if len(b.Panels) == 0 {
		return nil, nil, ErrEmpty
	}
	l := cutList{b: b, rate: b.Rate, reels: map[string]bool{"BL": true, "AX": true}, names: PictureNames(b)}
	if err := l.convert(); err != nil {
		return nil, nil, err
	}
	l.nameReels()
	l.pictures()
	if !silent {
		l.song()
	}
	title := oneLine(b.Title)
	if title == "" {
		title = "FILM"
	}
	if r := []rune(title); len(r) > maxTitle {
		title = string(r[:maxTitle])
		l.note("the title is cut to %d signs", maxTitle)
	}
	const most = maxEvents
	n := (len(l.events) + most - 1) / most
	if n > 1 {
		l.note("a list has at most %d events and the film has %d: it is written in %d lists", most, len(l.events), n)
	}
	for k := range n {
		head := title
		if n > 1 {
			head = fmt.Sprintf("%s %d", title, k+1)
		}
		parts = append(parts, l.write(head, l.events[k*most:min((k+1)*most, len(l.events))]))
	}
	return parts, l.notes, nil
}

// cutList is a list in the making.
type cutList struct {
	b      board.Board
	rate   board.FrameRate // the list's
	starts []board.Frame   // at that rate
	into   []board.Span    // passages at that rate
	reel   []string        // of each panel
	names  []string        // of its picture
	reels  map[string]bool // given out
	events []event
	notes  []string
}

// An event is one number of a list: a cut of a source, or a transition from
// another one to it.
type event struct {
	to       source
	channel  string
	from     *source // of a transition; To is where it ends on that source
	way      string  // D, W001
	length   board.Frame
	at, till board.Frame // of the film
}

// A source is a reel from one of its frames on.
type source struct {
	reel, name, title string
	in                board.Frame
}

var black = source{reel: "BL"}

func (l *cutList) note(format string, args ...any) {
	l.notes = append(l.notes, fmt.Sprintf(format, args...))
}

var errTooShort = errors.New("panels would be shorter than a frame")

// convert brings starts and passages to a rate that has a timecode.
func (l *cutList) convert() error {
	b := l.b
	from := b.Starts()
	passings := b.Passings(from)
	if b.Rate.HasTimecode() {
		l.starts, l.into = from, passings
		if b.Rate.Nominal() > 30 {
			l.note("the list counts %d frames to a second; many programs read such lists up to 30 only", b.Rate.Nominal())
		}
		return nil
	}
	times := int64(0)
	for _, whole := range []int64{24, 25, 30} {
		if n := whole * b.Rate.Den; n%b.Rate.Num == 0 {
			times, l.rate = n/b.Rate.Num, board.FrameRate{Num: whole, Den: 1}
			l.note("%s frames a second have no timecode: the list has %d, and each frame is %d of them", b.Rate, whole, times)
			break
		}
	}
	if times == 0 {
		l.rate = board.FrameRate{Num: 24, Den: 1}
		l.note("%s frames a second have no timecode: the list has 24, and starts are moved to the nearest frame", b.Rate)
	}
	to := func(f board.Frame) board.Frame { return board.Frame(roundedUnits(b.Rate, f, l.rate.Num)) }
	for i, f := range from {
		l.starts = append(l.starts, to(f))
		if i > 0 && l.starts[i] <= l.starts[i-1] {
			return fmt.Errorf("%w at 24 frames a second, panel %s for one: a cut list has no timecode for %s", errTooShort, b.Number(i-1), b.Rate)
		}
	}
	for _, p := range passings {
		l.into = append(l.into, board.Span{Start: to(p.Start), End: to(p.End)})
	}
	return nil
}

// write returns a list of events.
func (l *cutList) write(title string, events []event) []byte {
	var out bytes.Buffer
	mode := "NON-DROP FRAME"
	if strings.Contains(l.rate.Timecode(0), ";") {
		mode = "DROP FRAME"
	}
	fmt.Fprintf(&out, "TITLE: %s\nFCM: %s\n", title, mode)
	line := func(n int, s source, channel, way, length string, frames, at, till board.Frame) {
		fmt.Fprintf(&out, "%03d  %-8s %-5s %-4s %-3s %s %s %s %s\n", n, s.reel, channel, way, length,
			l.rate.Timecode(s.in), l.rate.Timecode(s.in+frames), l.rate.Timecode(l.hour()+at), l.rate.Timecode(l.hour()+till))
	}
	comment := func(what, text string) {
		if text != "" {
			fmt.Fprintf(&out, "* %s: %s\n", what, text)
		}
	}
	for k, e := range events {
		if e.from == nil {
			line(k+1, e.to, e.channel, "C", "", e.till-e.at, e.at, e.till)
			comment("FROM CLIP NAME", e.to.name)
		} else {
			line(k+1, *e.from, e.channel, "C", "", 0, e.at, e.at)
			line(k+1, e.to, e.channel, e.way, fmt.Sprintf("%03d", e.length), e.till-e.at, e.at, e.till)
			comment("FROM CLIP NAME", e.from.name)
			comment("TO CLIP NAME", e.to.name)
		}
		comment("COMMENT", e.to.title)
	}
	return out.Bytes()
}

// hour returns the frame that is labelled 01:00:00:00.
func (l *cutList) hour() board.Frame {
	n := l.rate.Nominal()
	if strings.Contains(l.rate.Timecode(0), ";") {
		return board.Frame(3600*n - 54*n/15) // labels are skipped in 54 minutes of the hour
	}
	return board.Frame(3600 * n)
}
