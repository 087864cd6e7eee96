package lists

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"stillbeat/board"
)

// inFrames and holds say what the times are.
func (r *panelTable) inFrames() bool {
	return strings.HasSuffix(r.clock, "_frames") || r.clock == "start_frame"
}
func (r *panelTable) holds() bool { return strings.HasPrefix(r.clock, "hold") }

// seconds returns the second of film of a time in the unit of the table.
func (r *panelTable) seconds(v float64) float64 {
	if r.inFrames() {
		return r.timing.Rate.Seconds(board.Frame(v))
	}
	return v
}

// amount reads a time in a row.
func (r *panelTable) amount(row []string, name string) (float64, error) {
	text, _ := r.cell(row, name)
	v, err := number(text)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%s: %w", name, err)
	case r.inFrames() && v != math.Trunc(v):
		return 0, fmt.Errorf("%s: %s frames are not a whole number", name, text)
	}
	return v, nil
}

// time returns the second at which the panel of a row starts.
func (r *panelTable) time(row []string) (float64, error) {
	v, err := r.amount(row, r.clock)
	if err != nil {
		return 0, err
	}
	first := len(r.timing.Cues) == 0
	if r.holds() {
		at := r.next
		if v == 0 {
			return 0, errors.New("a hold is at least one frame")
		}
		r.next += v
		if said, _ := r.cell(row, "start_frame"); r.inFrames() && !r.warned && said != "" && said != whole(board.Frame(at)) {
			r.warned = true
			r.notes = append(r.notes, fmt.Sprintf("row %d starts on frame %.20s in the table, but the holds before it make %.0f: the holds are kept to", len(r.timing.Cues)+2, said, at))
		}
		return r.seconds(at), nil
	}
	switch {
	case first && v > 0:
		r.notes = append(r.notes, "the first panel does not start at 0: it is up from there on all the same")
		r.next = v
		return 0, nil
	case !first && v <= r.next:
		return 0, fmt.Errorf("%s: %g does not come after %g", r.clock, v, r.next)
	}
	r.next = v
	return r.seconds(v), nil
}

// end finds where the last panel ends. Where holds are not told, it holds as
// long as the one before it, a single one for a second.
func (r *panelTable) end() {
	cues := r.timing.Cues
	last := cues[len(cues)-1].At
	text, _ := r.cell(r.last, "hold_s")
	switch hold, err := number(text); {
	case r.holds():
		r.timing.End.At = r.seconds(r.next)
		return
	case err == nil && hold > 0:
		r.timing.End.At = last + hold
		return
	case len(cues) > 1:
		r.timing.End.At = last + last - cues[len(cues)-2].At
	default:
		r.timing.End.At = last + 1
	}
	r.notes = append(r.notes, fmt.Sprintf("the table does not say how long the last panel holds: it is given %.3f seconds", r.timing.End.At-last))
}

// number reads a number that is not negative; a comma may stand for the decimal point.
func number(s string) (float64, error) {
	v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(s), ",", "."), 64)
	if err != nil || math.IsNaN(v) || v < 0 || v > 1e9 {
		return 0, fmt.Errorf("%.40q is no number that can stand there", s)
	}
	return v, nil
}

var anchorForm = regexp.MustCompile(`^beat (-?\d{1,7})(?: \+ (\d{1,2})/(\d{1,2}))?(?:, (\d{1,7}) frames? (early|late))?$`)

// parseAnchor reads what anchorWords writes of a start at so many seconds.
func parseAnchor(text string, at float64) (*board.Start, error) {
	switch text = strings.TrimSpace(text); text {
	case "":
		return nil, nil
	case "free":
		return &board.Start{Time: at}, nil
	}
	m := anchorForm.FindStringSubmatch(text)
	if m == nil {
		return nil, fmt.Errorf("%.40q is no anchor: write free, or for instance beat 5 + 1/2, 2 frames early", text)
	}
	n := func(s string) int { v, _ := strconv.Atoi(s); return v }
	a := board.Anchor{Beat: n(m[1]) - 1, Part: n(m[2]), Of: max(1, n(m[3])), Offset: board.Frame(n(m[4]))}
	if m[5] == "early" {
		a.Offset = -a.Offset
	}
	return &board.Start{Time: at, Anchor: a}, nil
}
