package ui

import (
	"context"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// tuning says what sound the player has: a song and what of it is heard, or
// the click of a film without a song.
type tuning struct {
	song  board.Song  // its place is left out: the player slides
	click *board.Beat // first beat of the grid that clicks, nil without a click
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
		w.showWave(want.song.Media, w.desk.Waveform())
	}
	switch {
	case want.song.Media != "":
		w.tuneSong(want)
	case want.click != nil:
		w.load(want, newClicked(board.Silence{}, w.board.Grid.Beats, &w.clickLevel))
	default:
		w.player.Load(nil, 0)
	}
}

// showWave shows the waveform of a song: none if the bytes are not those of
// one.
func (w *window) showWave(song board.MediaID, data []byte) {
	w.waveOf, w.wave = "", nil
	var wave audio.Pyramid
	if song != "" && wave.UnmarshalBinary(data) == nil {
		w.waveOf, w.wave = song, &wave
	}
	w.timeline.SetWave(w.wave)
}

// tuneSong decodes the song if that was not done, and loads it.
func (w *window) tuneSong(want tuning) {
	if s := w.desk.Sound(); s != nil {
		w.loadSong(want, s)
		return
	}
	b, d := w.board, w.desk
	var song *desk.Heard
	w.jobs.Run("Opening the song "+want.song.Name, func(ctx context.Context, p desk.Progress) (err error) {
		song, err = d.LoadSong(ctx, b, w.ear, desk.Wish{Samples: true}, p)
		return err
	}, func(err error) {
		switch {
		case d != w.desk:
		case err != nil:
			w.foot.Say(sentence(err.Error()))
		default:
			d.SetSong(want.song.Media, song)
			if want.song.Media == w.tuned.song.Media && w.waveOf != want.song.Media {
				w.showWave(want.song.Media, song.Waveform)
			}
			if want == w.tuned {
				w.loadSong(want, song.Sound)
			}
		}
	})
}

// loadSong gives the player the song as it is heard, and the waveform its
// samples, to be drawn close up.
func (w *window) loadSong(want tuning, s board.Sound) {
	if w.wave != nil {
		w.wave.Attach(s)
		w.timeline.Refresh()
	}
	heard := want.song.Shape(s)
	if want.click != nil {
		heard = newClicked(heard, w.board.Grid.Beats, &w.clickLevel)
	}
	w.load(want, heard)
}

// load hands a sound to the player as a job: the first time, it opens the
// sound device, which can take seconds.
func (w *window) load(want tuning, s board.Sound) {
	if w.mute {
		return
	}
	start := w.board.SongOffset()
	w.jobs.Run("Preparing the sound", func(context.Context, desk.Progress) error {
		w.player.Load(newCued(s, &w.clickLevel, &w.cue), start)
		return nil
	}, func(error) {
		if want == w.tuned {
			w.player.Slide(w.board.SongOffset())
		}
		w.foot.Present(w.board, w.starts, w.soundWords())
	})
}
