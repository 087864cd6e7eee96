package ui

import (
	"context"
	"math"
	"slices"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// tuning says what sound the player has: a song and what of it is heard, or
// the click of a film without a song.
type tuning struct {
	song    board.Song  // its place is left out: the player slides
	click   *board.Beat // first beat of the grid that clicks, nil without a click
	minutes int         // length of the click of a film without a song
}

// tuningOf returns the sound of a film; click asks for a click over its song.
func tuningOf(b board.Board, click bool) (t tuning) {
	if b.Song != nil {
		t.song = *b.Song
		t.song.Offset = 0
	}
	if b.OnGrid() && (click || b.Song == nil) {
		t.click = &b.Grid.Beats[0] // grids are never changed in place
	}
	if t.click != nil && b.Song == nil {
		t.minutes = 1 + int(b.Rate.Seconds(b.Frames())/60)
	}
	return t
}

// tune gives the player the sound of the film, if it has not got it, and the
// timeline its waveform.
func (w *window) tune() {
	w.player.Slide(w.board.SongOffset())
	want := tuningOf(w.board, w.clicking)
	if want == w.tuned {
		return
	}
	w.tuned = want
	if w.waveOf != want.song.Media {
		w.waveOf = ""
		w.timeline.SetWave(nil)
	}
	switch {
	case want.song.Media != "":
		w.tuneSong(want)
	case want.click != nil:
		beats := w.board.Grid.Beats
		w.load(want, func() ([][]float32, int) {
			samples := make([]float32, 60*want.minutes*clickRate)
			addClick(samples, clickRate, beats)
			return [][]float32{samples}, clickRate
		})
	default:
		w.player.Load(nil, 0, 0)
	}
}

// tuneSong decodes the song if that was not done, and loads it.
func (w *window) tuneSong(want tuning) {
	if s := w.desk.Sound(); s != nil {
		w.loadSong(want, s)
		return
	}
	b, d := w.board, w.desk
	var sound *desk.Sound
	w.jobs.Run("Opening the song "+want.song.Name, func(ctx context.Context, p desk.Progress) (err error) {
		sound, err = d.LoadSound(ctx, b, w.ear, p)
		return err
	}, func(err error) {
		switch {
		case d != w.desk:
		case err != nil:
			w.foot.Say(sentence(err.Error()))
		default:
			d.SetSound(want.song.Media, sound)
			if want == w.tuned {
				w.loadSong(want, sound)
			}
		}
	})
}

func (w *window) loadSong(want tuning, s *desk.Sound) {
	if w.waveOf != want.song.Media {
		var wave *audio.Pyramid
		w.jobs.Run("Drawing the waveform", func(context.Context, desk.Progress) error {
			wave = audio.BuildPyramid(&audio.Clip{Rate: s.Rate, Samples: s.Samples})
			return nil
		}, func(error) {
			if want.song.Media == w.tuned.song.Media {
				w.waveOf = want.song.Media
				w.timeline.SetWave(wave)
			}
		})
	}
	beats := w.board.Grid.Beats
	w.load(want, func() ([][]float32, int) {
		samples := want.song.Shape(s.Samples, s.Rate)
		if want.click == nil {
			return samples, s.Rate
		}
		clicked := make([][]float32, len(samples))
		for c := range samples {
			clicked[c] = slices.Clone(samples[c])
			addClick(clicked[c], s.Rate, beats)
		}
		return clicked, s.Rate
	})
}

// load hands samples to the player as a job: the first time, it opens the
// sound device, which can take seconds.
func (w *window) load(want tuning, samples func() ([][]float32, int)) {
	if w.mute {
		return
	}
	start := w.board.SongOffset()
	w.jobs.Run("Preparing the sound", func(context.Context, desk.Progress) error {
		s, rate := samples()
		w.player.Load(s, rate, start)
		return nil
	}, func(error) {
		if want == w.tuned {
			w.player.Slide(w.board.SongOffset())
		}
		w.foot.Present(w.board, w.starts, w.soundWords())
	})
}

// clickRate is the sample rate of the click of a film without a song; a sound
// device's is a multiple.
const clickRate = 22050

// addClick adds a short decaying tone on each beat, higher and louder on those
// that start a bar, to samples at rate per second.
func addClick(samples []float32, rate int, beats []board.Beat) {
	for _, b := range beats {
		pitch, level := 1200.0, 0.35
		if b.Bar {
			pitch, level = 1800, 0.6
		}
		at := int(math.Round(b.Time * float64(rate)))
		for i := range rate * 3 / 100 {
			if k := at + i; k >= 0 && k < len(samples) {
				t := float64(i) / float64(rate)
				samples[k] += float32(level * math.Exp(-t*120) * math.Sin(2*math.Pi*pitch*t))
			}
		}
	}
}
