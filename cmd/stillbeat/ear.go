package main

import (
	"context"

	"stillbeat/audio"
	"stillbeat/audio/beat"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// ear hears songs for the boards, which know nothing of sound: beats cross
// over as plain seconds.
type ear struct{}

var _ desk.Ear = ear{}

// Decode reads a song by its content.
func (ear) Decode(ctx context.Context, name string, data []byte, p desk.Progress) (*desk.Sound, error) {
	c, err := audio.Decode(ctx, name, data, p)
	if err != nil {
		return nil, err
	}
	return &desk.Sound{Rate: c.Rate, Samples: c.Samples, Title: c.Title}, nil
}

// Listen finds the onsets, beats and bars of a song.
func (ear) Listen(ctx context.Context, s *desk.Sound, p desk.Progress) (board.Grid, error) {
	c := audio.Clip{Rate: s.Rate, Samples: s.Samples}
	heard, err := beat.Analyse(ctx, c.Mono(), s.Rate, beat.Options{Progress: p})
	if err != nil {
		return board.Grid{}, err
	}
	g := board.NewGrid(heard.Beats, heard.Downbeats)
	for _, u := range heard.Unsure {
		g.Unsure = append(g.Unsure, board.Stretch{From: u.From, To: u.To})
	}
	g.Tempo, g.Confidence, g.Metre = heard.Tempo, heard.Confidence, heard.Metre
	g.Onsets = make([]board.Onset, len(heard.Onsets))
	for i, o := range heard.Onsets {
		g.Onsets[i] = board.Onset{Time: o.Time, Strength: o.Strength}
	}
	return g, nil
}
