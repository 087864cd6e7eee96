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
	Format  string        `json:"format"`
	Version int           `json:"version"`
	ReadsAs int           `json:"reads_as,omitempty"`
	Title   string        `json:"title"`
	Rate    string        `json:"rate"`
	Step    int           `json:"step"`
	Song    *song         `json:"song,omitempty"`
	Panels  []panel       `json:"panels"`
	End     *start        `json:"end,omitempty"`
	NextID  board.PanelID `json:"next_id,omitempty"`
	Markers []marker      `json:"markers,omitempty"`
	Names   []named       `json:"names,omitempty"`
	Grid    board.Grid    `json:"grid"`
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

// panel is a board.Panel with a file in the place of an id.
type panel struct {
	Start   *start `json:"start"`
	Picture string `json:"picture,omitempty"`
	board.Panel
}

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
func newDocument(b board.Board, pictures map[board.MediaID]string, songFile string, names []named) document {
	d := document{
		Format: Format, Version: Version,
		Title: b.Title, Rate: rateText(b.Rate), Step: b.Step,
		Panels: make([]panel, len(b.Panels)), End: &start{Start: b.End}, NextID: b.NextID,
		Names: names, Grid: b.Grid,
	}
	if s := b.Song; s != nil {
		d.Song = &song{songFile, s.Name, s.Seconds, s.Offset, s.TrimIn, s.TrimOut, s.FadeIn, s.FadeOut, s.Gain}
	}
	for i, p := range b.Panels {
		d.Panels[i] = panel{&start{Start: p.Start}, pictures[p.Picture], p}
	}
	for _, m := range b.Markers {
		d.Markers = append(d.Markers, marker{&start{Start: m.Start}, m.Name})
	}
	return d
}

// board returns the board of the document, checked. The files of its media
// are made ids by id.
func (d document) board(id func(file string, isSong bool) (board.MediaID, error)) (b board.Board, err error) {
	b = board.Board{Title: d.Title, Step: d.Step, Grid: d.Grid, NextID: d.NextID}
	if b.Rate, err = parseRate(d.Rate); err != nil {
		return b, err
	}
	if s := d.Song; s != nil {
		b.Song = &board.Song{Name: s.Name, Seconds: s.Seconds, Offset: s.Offset,
			TrimIn: s.TrimIn, TrimOut: s.TrimOut, FadeIn: s.FadeIn, FadeOut: s.FadeOut, Gain: s.Gain}
		if s.File != "" {
			if b.Song.Media, err = id(s.File, true); err != nil {
				return b, err
			}
		}
	}
	for i, p := range d.Panels {
		got := p.Panel
		if got.Start, err = p.Start.of(b); err != nil {
			return b, fmt.Errorf("panel %d: %w", i+1, err)
		}
		if p.Picture != "" {
			if got.Picture, err = id(p.Picture, false); err != nil {
				return b, fmt.Errorf("panel %d: %w", i+1, err)
			}
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
	giveIDs(&b)
	return b, b.Check()
}

// giveIDs gives an id to each panel that has none, and the board its next one.
func giveIDs(b *board.Board) {
	if b.NextID == 0 {
		b.NextID = 1
		for _, p := range b.Panels {
			b.NextID = max(b.NextID, p.ID+1)
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
