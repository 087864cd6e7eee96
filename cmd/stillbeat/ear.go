package main

import (
	"context"
	"fmt"

	"stillbeat/audio"
	"stillbeat/audio/beat"
	"stillbeat/audio/clip"
	"stillbeat/audio/onset"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// ear hears songs for the boards, which know nothing of sound: beats cross
// over as plain seconds.
type ear struct{}

var _ desk.Ear = ear{}

// decoded is the part of hearing a song that decoding it takes.
const decoded = 0.6

// Hear decodes a song once and passes it on to all that is made of it.
func (ear) Hear(ctx context.Context, song desk.SongFile, wish desk.Wish, p desk.Progress) (*desk.Heard, error) {
	var (
		wave    audio.Pyramid
		intake  onset.Intake
		samples clip.Packed
	)
	sinks := clip.Tee{&wave}
	if wish.Beats {
		sinks = append(sinks, &intake)
	}
	if wish.Samples {
		sinks = append(sinks, &samples)
	}
	info, err := decode(ctx, song, sinks, func(done float64) {
		if p != nil {
			p(decoded * done)
		}
	})
	if err != nil {
		return nil, err
	}
	heard := &desk.Heard{Rate: info.Rate, Channels: info.Channels, Seconds: info.Seconds(), Title: info.Title}
	if heard.Waveform, err = wave.MarshalBinary(); err != nil {
		return nil, fmt.Errorf("open song %q: %w", song.Name, err)
	}
	if wish.Samples {
		heard.Sound = &samples
	}
	if wish.Beats {
		if heard.Grid, err = listen(ctx, &intake); err != nil {
			return nil, fmt.Errorf("listen to %q: %w", song.Name, err)
		}
	}
	if p != nil {
		p(1)
	}
	return heard, nil
}

func decode(ctx context.Context, song desk.SongFile, sink clip.Sink, p func(float64)) (clip.Info, error) {
	if song.Data == nil {
		return audio.Open(ctx, song.Path, sink, p)
	}
	return audio.Decode(ctx, song.Name, song.Data, sink, p)
}

// listen finds the onsets, beats and bars of a song that was taken in.
func listen(ctx context.Context, intake *onset.Intake) (board.Grid, error) {
	envelope, err := intake.Envelope(ctx)
	if err != nil {
		return board.Grid{}, err
	}
	heard, err := beat.Track(ctx, envelope)
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
