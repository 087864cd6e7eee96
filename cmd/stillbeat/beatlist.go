package main

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strconv"

	"stillbeat/board"
)

// beatList writes beats and onsets as CSV, in order of time; the help of
// listen explains the columns.
func beatList(g board.Grid) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Write([]string{"time_s", "kind", "bar", "beat"})
	row := func(t float64, kind, bar, beat string) {
		w.Write([]string{strconv.FormatFloat(t, 'f', 6, 64), kind, bar, beat})
	}
	onsets := g.Onsets
	flush := func(until float64) {
		for len(onsets) > 0 && onsets[0].Time < until {
			row(onsets[0].Time, "onset", "", "")
			onsets = onsets[1:]
		}
	}
	count := newBarCount(g)
	for _, b := range g.Beats {
		flush(b.Time)
		kind := "beat"
		if b.Bar {
			kind = "downbeat"
		}
		bar, beat := count.next(b)
		row(b.Time, kind, bar, beat)
	}
	flush(math.Inf(1))
	w.Flush() // a buffer takes everything
	return out.Bytes()
}

// barCount counts bars and the beats in them along a grid.
type barCount struct {
	known            bool
	metre, bar, beat int
}

// newBarCount starts the count so that the upbeat ends on a bar's last beat.
func newBarCount(g board.Grid) barCount {
	upbeat := slices.IndexFunc(g.Beats, func(b board.Beat) bool { return b.Bar })
	c := barCount{known: upbeat >= 0, metre: g.Metre}
	if c.known && c.metre > 0 {
		c.beat = (c.metre - upbeat%c.metre) % c.metre
	}
	return c
}

func (c *barCount) next(b board.Beat) (bar, beat string) {
	switch {
	case !c.known:
		return "", ""
	case b.Bar:
		c.bar, c.beat = c.bar+1, 0
	case c.bar == 0 && c.beat == c.metre:
		c.beat = 0
	}
	c.beat++
	return strconv.Itoa(c.bar), strconv.Itoa(c.beat)
}
