// Package sheet makes the exposure sheet of a film: what is on each frame, in
// rows, on paper (PDF) and as a table (CSV).
package sheet

import (
	"fmt"
	"slices"
	"strings"

	"stillbeat/board"
)

// Options say what a sheet shows. The zero value is the whole film, a row for
// each frame.
type Options struct {
	Exposures bool     // a row for each exposure, not for each frame
	Shots     []int    // places in board.Shots of those shown, in any order; nil: all
	Onset     float64  // least strength of an onset that is an accent, 0: UsualOnset
	Columns   []Column // further columns, beside the poses, at most MaxColumns
}

// MaxColumns is the most further columns a page has room for.
const MaxColumns = 8

// UsualOnset is the least strength at which an onset is an accent.
const UsualOnset = 0.5

// Column is a column of words of the caller's: places of things in front of the
// camera, say.
type Column struct {
	Title string
	Words func(f board.Frame) string // what stands at a frame of the film, "" for nothing
}

// Accent says what is heard strongly on a frame.
type Accent int

// The accents, which may come together.
const (
	Downbeat Accent = 1 << iota // the beat that starts a bar
	Onset                       // a sound begins
)

// Row is a line of the sheet: a frame, or the frames of an exposure. Words that
// last for several rows stand on their first.
type Row struct {
	Shot   int         // place in board.Shots
	Panel  int         // index of the panel
	Frame  board.Frame // of the film, from 0; the first of an exposure's
	Frames board.Frame // how many it stands for

	Exposure int64  // of the film, from 1, as board.Exposures counts
	Exposed  bool   // it is taken on this row; else the one above is held
	Time     string // timecode, or a count where the rate has none

	Bar, Beat int // of the beat on this row, from 1; beat 0: none, bar 0: before the first
	Accent    Accent

	Number string // of the panel
	Begins bool   // the panel does
	Action string // what happens in it

	Sound      string
	SoundLasts bool

	Pose    int64 // exposure within the panel, from 1
	Nothing bool  // there is neither a picture nor a word on the panel

	Camera      string // moves and passages that begin here
	CameraLasts bool

	Marks   string   // what the shoot needs: rig, effect, plate, still
	Note    string   // with the names of markers
	Columns []string // what Options.Columns say
}

// Rows returns the sheet's rows, in the order of the film. It fails if a shot
// is not there or there are too many columns.
func Rows(b board.Board, o Options) ([]Row, error) {
	shots := b.Shots()
	for _, s := range o.Shots {
		if s < 0 || s+1 >= len(shots) {
			return nil, fmt.Errorf("there is no shot %d: the film has %d", s+1, max(0, len(shots)-1))
		}
	}
	if len(o.Columns) > MaxColumns {
		return nil, fmt.Errorf("%d columns more: a sheet takes %d", len(o.Columns), MaxColumns)
	}
	if len(shots) == 0 {
		return nil, nil
	}
	w := newWriter(b, o)
	for s := range len(shots) - 1 {
		if o.Shots != nil && !slices.Contains(o.Shots, s) {
			for i := shots[s]; i < shots[s+1]; i++ {
				w.taken += w.exposures(i)
			}
			continue
		}
		for i := shots[s]; i < shots[s+1]; i++ {
			w.panel(s, i)
		}
	}
	return w.rows, nil
}

// writer writes rows panel by panel.
type writer struct {
	b       board.Board
	o       Options
	starts  []board.Frame
	numbers []string
	music   map[board.Frame]heard
	notes   map[board.Frame][]string
	camera  []spoken
	at      int // first of camera that may not be over
	taken   int64
	rows    []Row
}

func newWriter(b board.Board, o Options) *writer {
	if o.Onset == 0 {
		o.Onset = UsualOnset
	}
	w := &writer{b: b, o: o, starts: b.Starts(), numbers: b.Numbers()}
	w.music, w.camera, w.notes = hear(b, o.Onset), cameraWords(b, w.starts), map[board.Frame][]string{}
	note := func(f board.Frame, text string) {
		if text != "" && !slices.Contains(w.notes[f], text) {
			w.notes[f] = append(w.notes[f], text)
		}
	}
	for _, m := range b.Markers {
		note(b.Frame(m.Start), m.Name)
	}
	for i, p := range b.Panels {
		note(w.starts[i], p.Note)
		for _, n := range p.Notes() {
			note(b.NoteFrame(i, n, w.starts), n.Text)
		}
	}
	return w
}

func (w *writer) exposures(i int) int64 {
	step := board.Frame(w.b.StepOf(i))
	return int64((w.starts[i+1] - w.starts[i] + step - 1) / step)
}

// panel adds the rows of panel i, which is in shot s.
func (w *writer) panel(s, i int) {
	p, step := w.b.Panels[i], board.Frame(w.b.StepOf(i))
	from, to := w.starts[i], w.starts[i+1]
	marks := MarkWords(p)
	nothing := p.Picture == "" && p.Drawn == nil && p.Title == "" && p.Action == ""
	each := board.Frame(1)
	if w.o.Exposures {
		each = step
	}
	for f := from; f < to; f += each {
		r := Row{
			Shot: s, Panel: i, Frame: f, Frames: min(each, to-f), Number: w.numbers[i], Begins: f == from,
			Exposed: (f-from)%step == 0, Pose: int64((f-from)/step) + 1, Nothing: nothing,
			Time: w.b.Rate.Timecode(f), SoundLasts: p.Sound != "", Marks: marks,
		}
		r.Exposure = w.taken + r.Pose
		if r.Begins {
			r.Action, r.Sound = joined(": ", p.Title, p.Action), p.Sound
			if p.Size != "" {
				r.Action = joined(" ", "["+p.Size+"]", r.Action)
			}
		}
		w.listen(&r)
		w.look(&r)
		for _, c := range w.o.Columns {
			r.Columns = append(r.Columns, c.Words(f))
		}
		w.rows = append(w.rows, r)
	}
	w.taken += w.exposures(i)
}

// listen adds what is heard and noted on a row's frames.
func (w *writer) listen(r *Row) {
	var notes []string
	for f := r.Frame; f < r.Frame+r.Frames; f++ {
		h := w.music[f]
		r.Accent |= h.accent
		if h.beat > 0 && (r.Beat == 0 || h.accent&Downbeat != 0) {
			r.Bar, r.Beat = h.bar, h.beat
		}
		notes = append(notes, w.notes[f]...)
	}
	r.Note = joined("\n", notes...)
}

// look adds what the camera does on a row's frames.
func (w *writer) look(r *Row) {
	span := board.Span{Start: r.Frame, End: r.Frame + r.Frames}
	for w.at < len(w.camera) && w.camera[w.at].over(r.Frame) {
		w.at++
	}
	var words []string
	for _, c := range w.camera[w.at:] {
		if c.span.Start >= span.End {
			break
		}
		if !c.span.Overlaps(span) {
			continue
		}
		r.CameraLasts = true
		if span.Contains(c.span.Start) || len(w.rows) == 0 || w.rows[len(w.rows)-1].Shot != r.Shot {
			words = append(words, c.words)
		}
	}
	r.Camera = joined("; ", words...)
}

// MarkWords names what the shoot needs for a panel: "rig plate".
func MarkWords(p board.Panel) string {
	var out []string
	for _, mark := range []struct {
		on   bool
		name string
	}{{p.Rig, "rig"}, {p.Effect, "effect"}, {p.Plate, "plate"}, {p.Still, "still"}} {
		if mark.on {
			out = append(out, mark.name)
		}
	}
	return strings.Join(out, " ")
}

// joined joins the words that are not empty.
func joined(by string, words ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(words), func(s string) bool { return s == "" }), by)
}
