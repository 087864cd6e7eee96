package main

import (
	"context"
	"io"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"stillbeat/audio"
	"stillbeat/board/beside"
	"stillbeat/board/desk"
	"stillbeat/board/share/printed"
)

// pageOptions say how a board is printed.
type pageOptions struct {
	perPage   int
	paper     string
	landscape bool
}

var usualPages = pageOptions{perPage: printed.UsualPerPage, paper: "a4"}

// pageFlags adds the flags of printed boards.
func pageFlags(cmd *cobra.Command, o *pageOptions) {
	f := cmd.Flags()
	f.Var(wholeFlag(&o.perPage, 1, printed.MostPerPage), "per-page", "panels of a page of a .pdf")
	f.Var(choiceFlag(&o.paper, "PAPER", "a4", "letter"), "paper", "a4 or letter")
	f.BoolVar(&o.landscape, "landscape", false, "pages lie on their long side")
}

// writePDF writes the printed board, with progress.
func (a *app) writePDF(ctx context.Context, d *desk.Desk, o shareOptions) error {
	if len(d.Board().Panels) == 0 {
		return printed.ErrEmpty
	}
	m := a.meter()
	defer m.close()
	wave, err := a.peaks(ctx, d, o.silent, m)
	if err != nil {
		return err
	}
	opts := printed.Options{
		PerPage: o.pages.perPage, Paper: o.pages.paper, Landscape: o.pages.landscape, Made: time.Now(),
		Wave: wave, Progress: m.stage("writing %s", filepath.Base(o.to)),
	}
	return beside.Save(o.to, func(w io.Writer) error { return printed.Board(ctx, w, d.Board(), d.Pictures, opts) })
}

// peaks returns the waveform of the film's song for paper, nil if there is none
// or it is left out. A film from a folder has no waveform yet: the song is read.
func (a *app) peaks(ctx context.Context, d *desk.Desk, silent bool, m *meter) (func(from, to float64, n int) []printed.Peak, error) {
	b, data := d.Board(), d.Waveform()
	if silent || b.Song == nil {
		return nil, nil
	}
	if len(data) == 0 {
		song, err := d.LoadSong(ctx, b, a.ear, desk.Wish{}, m.stage("reading %s", b.Song.Name))
		switch {
		case ctx.Err() != nil:
			return nil, err
		case err != nil: // the board is worth printing without it
			a.note([]string{"the board has no waveform: " + err.Error()})
			return nil, nil
		}
		data = song.Waveform
	}
	var wave audio.Pyramid
	if wave.UnmarshalBinary(data) != nil {
		return nil, nil
	}
	return func(from, to float64, n int) []printed.Peak {
		out := make([]printed.Peak, n)
		for i, c := range wave.Columns(make([]audio.Column, n), from, to) {
			out[i] = printed.Peak{Min: c.Min, Max: c.Max}
		}
		return out
	}, nil
}
