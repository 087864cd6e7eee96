package folder

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"stillbeat/board"
)

// document is film.json. FORMAT.md and film.schema.json describe it.
type document struct {
	Format    string        `json:"format"`
	Version   int           `json:"version"`
	ReadsAs   int           `json:"reads_as,omitempty"`
	Title     string        `json:"title"`
	Rate      string        `json:"rate"`
	Step      int           `json:"step"`
	Aspect    board.Aspect  `json:"aspect,omitzero"`
	Song      *song         `json:"song,omitempty"`
	Panels    []panel       `json:"panels"`
	End       *start        `json:"end,omitempty"`
	NextID    board.PanelID `json:"next_id,omitempty"`
	Markers   []marker      `json:"markers,omitempty"`
	Moves     []objectMove  `json:"moves,omitempty"`
	Dismissed []string      `json:"dismissed,omitempty"`
	Plan      *plan         `json:"plan,omitempty"`

	Remarks []board.Remark `json:"remarks,omitempty"`
	Names   []named        `json:"names,omitempty"`
	Grid    board.Grid     `json:"grid"`
}

// song is a board.Song with a file in the place of an id.
type song struct {
	File    string  `json:"file,omitempty"`
	Name    string  `json:"name"`
	Seconds float64 `json:"seconds"`
	Offset  float64 `json:"offset"`
	TrimIn  float64 `json:"trim_in,omitempty"`
	TrimOut float64 `json:"trim_out,omitempty"`
	FadeIn  float64 `json:"fade_in,omitempty"`
	FadeOut float64 `json:"fade_out,omitempty"`
	Gain    float64 `json:"gain,omitempty"`
}

// panel is a board.Panel with files in the place of ids.
type panel struct {
	Start   *start `json:"start"`
	Picture string `json:"picture,omitempty"`
	Sketch  string `json:"sketch,omitempty"`
	Drawn   *drawn `json:"drawn,omitzero"` // nil: nothing
	board.Panel
}

// drawn is a board.Drawn without its sketch, which the panel has.
type drawn struct {
	Placed    board.Placement  `json:"placed,omitzero"`
	Travel    board.CameraMove `json:"travel,omitzero"`
	Lettering []board.Letter   `json:"lettering,omitempty"`
}

// IsZero reports whether nothing is made of the picture.
func (d *drawn) IsZero() bool {
	return d == nil || d.Placed == (board.Placement{}) && d.Travel == (board.CameraMove{}) && len(d.Lettering) == 0
}

// plan is a board.Planning.
type plan board.Planning

type marker struct {
	Start *start `json:"start"`
	Name  string `json:"name,omitempty"`
}

// named says under which name a file of the folder was brought in.
type named struct {
	File string `json:"file"`
	Name string `json:"name"`
}

// newDocument returns the document of a board whose media lie in files.
func newDocument(b board.Board, files map[board.MediaID]string, names []named) document {
	d := document{
		Format: Format, Version: Version,
		Title: b.Title, Rate: rateText(b.Rate), Step: b.Step, Aspect: b.Aspect,
		Panels: make([]panel, len(b.Panels)), End: &start{Start: b.End}, NextID: b.NextID,
		Dismissed: b.Dismissed, Remarks: b.Remarks, Names: names, Grid: b.Grid,
	}
	if s := b.Song; s != nil {
		d.Song = &song{files[s.Media], s.Name, s.Seconds, s.Offset, s.TrimIn, s.TrimOut, s.FadeIn, s.FadeOut, s.Gain}
	}
	for i, p := range b.Panels {
		made := p.Drawing()
		d.Panels[i] = panel{&start{Start: p.Start}, files[p.Picture], files[made.Sketch], &drawn{made.Placed, made.Travel, made.Lettering}, p}
	}
	for _, m := range b.Markers {
		d.Markers = append(d.Markers, marker{&start{Start: m.Start}, m.Name})
	}
	for _, m := range b.Moves {
		d.Moves = append(d.Moves, newObjectMove(m))
	}
	d.Plan = (*plan)(b.Plan)
	return d
}

// board returns the board of the document, checked. The files of its media
// are made ids by id.
func (d document) board(id func(file string, kind Kind) (board.MediaID, error)) (b board.Board, err error) {
	b = board.Board{Title: d.Title, Step: d.Step, Aspect: d.Aspect, Grid: d.Grid, NextID: d.NextID, Remarks: d.Remarks, Plan: (*board.Planning)(d.Plan)}
	if b.Rate, err = parseRate(d.Rate); err != nil {
		return b, err
	}
	if s := d.Song; s != nil {
		b.Song = &board.Song{Name: s.Name, Seconds: s.Seconds, Offset: s.Offset,
			TrimIn: s.TrimIn, TrimOut: s.TrimOut, FadeIn: s.FadeIn, FadeOut: s.FadeOut, Gain: s.Gain}
		if s.File != "" {
			if b.Song.Media, err = id(s.File, Song); err != nil {
				return b, err
			}
		}
	}
	for i, p := range d.Panels {
		got, err := p.of(b, id)
		if err != nil {
			return b, fmt.Errorf("panel %d: %w", i+1, err)
		}
		b.Panels = append(b.Panels, got)
	}
	if d.End != nil || len(d.Panels) > 0 {
		if b.End, err = d.End.of(b); err != nil {
			return b, fmt.Errorf("the end of the film: %w", err)
		}
	}
	for i, m := range d.Markers {
		got := board.Marker{Name: m.Name}
		if got.Start, err = m.Start.of(b); err != nil {
			return b, fmt.Errorf("marker %d: %w", i+1, err)
		}
		b.Markers = append(b.Markers, got)
	}
	for i, m := range d.Moves {
		got, err := m.of(b)
		if err != nil {
			return b, fmt.Errorf("move %d: %w", i+1, err)
		}
		b.Moves = append(b.Moves, got)
	}
	b.Dismissed = d.Dismissed
	giveIDs(&b)
	return b, b.Check()
}

// of returns the panel on a board that has its grid and its song.
func (p panel) of(b board.Board, id func(string, Kind) (board.MediaID, error)) (out board.Panel, err error) {
	out = p.Panel
	if out.Start, err = p.Start.of(b); err != nil {
		return out, err
	}
	if p.Picture != "" {
		if out.Picture, err = id(p.Picture, Picture); err != nil {
			return out, err
		}
	}
	var made board.Drawn
	if p.Drawn != nil {
		made = board.Drawn{Placed: p.Drawn.Placed, Travel: p.Drawn.Travel, Lettering: p.Drawn.Lettering}
	}
	if p.Sketch != "" {
		if made.Sketch, err = id(p.Sketch, Sketch); err != nil {
			return out, err
		}
	}
	if p.Sketch != "" || !p.Drawn.IsZero() {
		out.Drawn = &made
	}
	return out, nil
}

// giveIDs gives an id to each panel that has none, and the board its next one.
func giveIDs(b *board.Board) {
	if b.NextID == 0 {
		b.NextID = 1
		for _, p := range b.Panels {
			b.NextID = max(b.NextID, p.ID+1)
		}
		for _, r := range b.Remarks { // whose panel may be gone
			b.NextID = max(b.NextID, r.Panel+1)
		}
	}
	for i := range b.Panels {
		if b.Panels[i].ID == 0 {
			b.Panels[i].ID = b.NextID
			b.NextID++
		}
	}
}

// rateText writes a rate as "24" or "24000/1001", exactly.
func rateText(r board.FrameRate) string {
	if r.Den == 1 {
		return strconv.FormatInt(r.Num, 10)
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

func parseRate(s string) (board.FrameRate, error) {
	if s == "" {
		return board.FrameRate{}, errors.New("the frame rate is missing")
	}
	num, den, divided := strings.Cut(s, "/")
	if !divided {
		den = "1"
	}
	n, errN := strconv.ParseUint(num, 10, 32)
	d, errD := strconv.ParseUint(den, 10, 32)
	if errN != nil || errD != nil || strings.HasPrefix(num, "0") || strings.HasPrefix(den, "0") {
		return board.FrameRate{}, fmt.Errorf(`%.40q is not a frame rate: write it as "24" or "24000/1001"`, s)
	}
	r := board.FrameRate{Num: int64(n), Den: int64(d)}
	return r, r.Check()
}
