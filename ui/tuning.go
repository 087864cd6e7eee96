package ui

import (
	"context"
	"math"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// tuning says what sound the player has: a song and what of it is heard, or
// the click of a film without a song.
type tuning struct {
	song    board.Song  // its place is left out: the player slides
	click   *board.Beat // first beat of the grid that clicks
	minutes int         // length of the click
}

func tuningOf(b board.Board) (t tuning) {
	switch {
	case b.Song != nil:
		t.song = *b.Song
		t.song.Offset = 0
	case b.OnGrid():
		t.click = &b.Grid.Beats[0] // grids are never changed in place
		t.minutes = 1 + int(b.Rate.Seconds(b.Frames())/60)
	}
	return t
}

// tune gives the player the sound of the film, if it has not got it, and the
// timeline its waveform.
func (w *window) tune() {
	w.player.Slide(w.board.SongOffset())
	want := tuningOf(w.board)
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
		samples := clickTrack(w.board.Grid.Beats, float64(60*want.minutes))
		w.load(want, func() ([][]float32, int) { return [][]float32{samples}, clickRate })
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
	w.load(want, func() ([][]float32, int) { return want.song.Shape(s.Samples, s.Rate), s.Rate })
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

// clickRate is the sample rate of the click; a sound device's is a multiple.
const clickRate = 22050

// clickTrack makes a short decaying tone on each beat, higher and louder on
// those that start a bar, for so many seconds.
func clickTrack(beats []board.Beat, seconds float64) []float32 {
	out := make([]float32, int(seconds*clickRate))
	for _, b := range beats {
		pitch, level := 1200.0, 0.4
		if b.Bar {
			pitch, level = 1800, 0.7
		}
		at := int(math.Round(b.Time * clickRate))
		for i := range clickRate * 3 / 100 {
			if k := at + i; k >= 0 && k < len(out) {
				t := float64(i) / clickRate
				out[k] += float32(level * math.Exp(-t*120) * math.Sin(2*math.Pi*pitch*t))
			}
		}
	}
	return out
}
