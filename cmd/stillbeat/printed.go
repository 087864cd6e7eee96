package main

import (
	"bytes"
	"context"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"stillbeat/audio"
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
	m := a.meter()
	defer m.close()
	var out bytes.Buffer
	err := printed.Board(ctx, &out, d.Board(), d.Pictures, printed.Options{
		PerPage: o.pages.perPage, Paper: o.pages.paper, Landscape: o.pages.landscape, Made: time.Now(),
		Wave: peaks(d, o.silent), Progress: m.stage("writing %s", filepath.Base(o.to)),
	})
	if err != nil {
		return err
	}
	return writeFile(o.to, out.Bytes())
}

// peaks returns the waveform of the film's song for paper, nil if there is none
// that can be read or it is left out.
func peaks(d *desk.Desk, silent bool) func(from, to float64, n int) []printed.Peak {
	var wave audio.Pyramid
	if silent || wave.UnmarshalBinary(d.Waveform()) != nil {
		return nil
	}
	return func(from, to float64, n int) []printed.Peak {
		out := make([]printed.Peak, n)
		for i, c := range wave.Columns(make([]audio.Column, n), from, to) {
			out[i] = printed.Peak{Min: c.Min, Max: c.Max}
		}
		return out
	}
}
