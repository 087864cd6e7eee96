// Package check looks a film over for what will look wrong or may hurt someone:
// each finding says where, what, why and by which source, and how it can be
// mended where there is a way.
package check

import (
	"context"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Severity says how much a finding matters.
type Severity string

// The severities, the worst first.
const (
	Danger Severity = "danger" // it may hurt someone
	Fault  Severity = "fault"  // it will look or sound wrong
	Hint   Severity = "hint"   // it is worth a look
)

// Severities lists all of them in order.
var Severities = []Severity{Danger, Fault, Hint}

// Kind groups findings of one sort.
type Kind string

// The kinds of the package's own findings.
const (
	OffBeat    Kind = "off-beat"
	ShortHold  Kind = "short-hold"
	Reading    Kind = "reading"
	NoPicture  Kind = "no-picture"
	BadPicture Kind = "bad-picture"
	Gap        Kind = "gap"
	Session    Kind = "session"
	Loud       Kind = "loud"
	SongEnds   Kind = "song-ends"
	TwoNumbers Kind = "number"
	Flicker    Kind = "flashing"
)

// Finding is one thing that was found.
type Finding struct {
	ID       string        // names it through edits: board.Dismiss takes it
	Kind     Kind          // what sort it is
	Severity Severity      // how much it matters
	Panel    board.PanelID // the first panel it is about, 0 for the film
	Number   string        // that panel's number, "" for the film
	Span     board.Span    // the frames it is about
	What     string        // what was found, as the end of a sentence about the panel or film
	Why      string        // why it matters, a sentence
	Source   string        // where the limit comes from
	Mend     *board.Edit   // what puts it right, nil if nothing does at once
	Caution  string        // what must go with the film when it is shown or shared, "" mostly

	Dismissed bool // the user has seen and accepted it
}

// Options says what Run looks at and by which limits. The zero value uses the
// usual ones and leaves out what it is not given.
type Options struct {
	Late     float64       // ms a start may come after its beat; 0: half a frame
	Early    float64       // ms before it; 0: board.LeadUnnoticed, or half a frame if that is more
	Shortest board.Frame   // least hold; 0: board.FrameRate.ShortestHold
	Reading  board.Reading // speed of reading
	Session  int64         // most exposures of a shot for one sitting; 0: the minutes of a session, by the film's plan
	Silence  float64       // seconds the film may go on after its song; 0: half a second
	Loop     bool          // the film is shown over and over

	// Pictures draws the film; nil: flashing is not looked at. A cache that is kept
	// makes the next check quick: a picture takes some 85 kB.
	Pictures *picture.Cache
	Peak     *Peak // of the film's song: see PeakOf; nil: its loudness is not looked at

	Progress func(done float64) // told the part done, 0 to 1; may be nil
}

// Report is what a check found.
type Report struct {
	Findings  []Finding // the worst first, then by frame
	Unchecked []string  // what was not looked at, and why: a phrase each
}

// Run looks a film over. The board must keep the rules of the model. Pictures
// that cannot be read are findings; the only error is that of ctx.
func Run(ctx context.Context, b board.Board, o Options) (Report, error) {
	var r Report
	if len(b.Panels) == 0 {
		return r, ctx.Err()
	}
	l := look{Board: b, Options: o, starts: b.Starts()}
	for _, of := range []func(look) []Finding{
		look.offBeat, look.short, look.unread, look.blank, look.sessions, look.loud, look.silent, look.numbered, look.moved, look.planned,
	} {
		r.Findings = append(r.Findings, of(l)...)
	}
	if b.Song != nil && o.Peak == nil {
		r.Unchecked = append(r.Unchecked, "how loud the song is: it could not be read")
	}
	if o.Pictures == nil {
		r.Unchecked = append(r.Unchecked, "flashing: there are no pictures at hand")
	} else {
		found, err := l.flashing(ctx)
		if err != nil {
			return Report{}, err
		}
		r.Findings = append(r.Findings, found...)
	}
	finish(b, r.Findings)
	return r, ctx.Err()
}

// look is a film being looked over.
type look struct {
	board.Board
	Options
	starts []board.Frame
}

// span returns the frames of panels from to to, the last included.
func (l look) span(from, to int) board.Span {
	return board.Span{Start: l.starts[from], End: l.starts[to+1]}
}

// hold returns how many frames panel i holds.
func (l look) hold(i int) board.Frame { return l.starts[i+1] - l.starts[i] }

// at returns a finding about panels from to to, the last included.
func (l look) at(kind Kind, from, to int) Finding {
	id := l.Panels[from].ID
	return Finding{ID: IDOf(kind, id), Kind: kind, Severity: Hint, Panel: id, Span: l.span(from, to)}
}

// works returns the edit if it can be done to the film, else nil.
func (l look) works(e board.Edit) *board.Edit {
	if _, err := e.Apply(l.Board); err != nil {
		return nil
	}
	return &e
}
