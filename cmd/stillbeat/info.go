package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func (a *app) infoCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "info FILM [--json]",
		Short: "Tell what is on the board",
		Long: `Tell the rate and length of FILM, its song, and when each panel starts, how
many frames it holds and which beat it is anchored to. A panel without a beat
is free: it keeps its time when the music is changed.

Beats and panels are counted from 1 here. In the JSON document an anchor is
part "part" of "of" equal parts after beat "beat", counted from 0, moved by
"offset" frames; starts and holds are frames.`,
		Example: `  stillbeat info dance.stillbeat
  stillbeat info dance.stillbeat --json | jq '.panels[] | {title, start, hold}'`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(_ *cobra.Command, args []string) error {
			return viewFilm(args[0], func(d *desk.Desk) error {
				if asJSON {
					return a.printJSON(newFilmReport(args[0], d.Board()))
				}
				return a.print([]byte(filmSummary(args[0], d.Board())))
			})
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON document")
	return cmd
}

// filmReport is the document of info --json.
type filmReport struct {
	File      string           `json:"file"`
	Title     string           `json:"title"`
	FPS       board.FrameRate  `json:"fps"`
	Step      int              `json:"step"`
	Frames    board.Frame      `json:"frames"`
	Seconds   float64          `json:"seconds"`
	Exposures int64            `json:"exposures"`
	Song      *filmSongReport  `json:"song"`
	Panels    []filmPanelEntry `json:"panels"`
}

type filmSongReport struct {
	Name    string  `json:"name"`
	Seconds float64 `json:"seconds"`
	Offset  float64 `json:"offset_seconds"`
}

type filmPanelEntry struct {
	Number  string        `json:"number"`
	Title   string        `json:"title"`
	Start   board.Frame   `json:"start"`
	Hold    board.Frame   `json:"hold"`
	Anchor  *board.Anchor `json:"anchor"`
	Picture bool          `json:"picture"`
}

func newFilmReport(path string, b board.Board) filmReport {
	r := filmReport{
		File: path, Title: b.Title, FPS: b.Rate, Step: b.Step,
		Frames: b.Frames(), Seconds: micro(b.Rate.Seconds(b.Frames())), Exposures: b.Exposures(),
		Panels: []filmPanelEntry{},
	}
	if b.Song != nil {
		r.Song = &filmSongReport{Name: b.Song.Name, Seconds: micro(b.Song.Seconds), Offset: micro(b.Song.Offset)}
	}
	starts, holds := b.Starts(), b.Holds()
	for i, p := range b.Panels {
		e := filmPanelEntry{Number: b.Number(i), Title: p.Title, Start: starts[i], Hold: holds[i], Picture: p.Picture != ""}
		if p.Start.Anchored() {
			e.Anchor = &p.Start.Anchor
		}
		r.Panels = append(r.Panels, e)
	}
	return r
}

// filmSummary shows a person what is on the board.
func filmSummary(path string, b board.Board) string {
	var head table
	head.add("Film", path)
	if b.Title != "" {
		head.add("Title", b.Title)
	}
	head.add("Rate", fmt.Sprintf("%s fps, on %s", b.Rate, ones(b.Step)))
	head.add("Length", fmt.Sprintf("%d frames, %s", b.Frames(), clock(b.Rate.Seconds(b.Frames()))))
	head.add("Exposures", fmt.Sprint(b.Exposures()))
	if b.Song == nil {
		head.add("Song", "none")
	} else {
		head.add("Song", fmt.Sprintf("%s, %s, begins at %.3f s", b.Song.Name, clock(b.Song.Seconds), b.Song.Offset))
	}
	if len(b.Panels) == 0 {
		return head.String() + "\nThere are no panels yet.\n"
	}
	list := table{right: []int{0, 1, 3}}
	list.add("Panel", "Start", "Time", "Hold", "Beat", "Picture", "Title")
	starts, holds := b.Starts(), b.Holds()
	for i, p := range b.Panels {
		picture := "yes"
		if p.Picture == "" {
			picture = "no"
		}
		list.add(b.Number(i), fmt.Sprint(starts[i]), b.Rate.Timecode(starts[i]), fmt.Sprint(holds[i]),
			anchorText(p.Start), picture, p.Title)
	}
	return head.String() + "\n" + list.String()
}

// anchorText writes an anchor for people, beats counted from 1: "5 + 1/2",
// "5, 2 frames early".
func anchorText(s board.Start) string {
	if !s.Anchored() {
		return "free"
	}
	a := s.Anchor
	text := fmt.Sprint(a.Beat + 1)
	if a.Part > 0 {
		text += fmt.Sprintf(" + %d/%d", a.Part, a.Of)
	}
	switch {
	case a.Offset < 0:
		text += ", " + count(int(-a.Offset), "frame") + " early"
	case a.Offset > 0:
		text += ", " + count(int(a.Offset), "frame") + " late"
	}
	return text
}
