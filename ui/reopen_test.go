package ui

import (
	"context"
	"errors"
	"testing"

	"stillbeat/board/desk"
)

// deafEar hears nothing: what a film shows must come from the film.
type deafEar struct{}

func (deafEar) Hear(context.Context, desk.SongFile, desk.Wish, desk.Progress) (*desk.Heard, error) {
	return nil, errors.New("the song was decoded")
}

// TestWaveformIsThereOnReopening: a film shows its waveform before the song is
// unpacked, and without it.
func TestWaveformIsThereOnReopening(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	settle(t, w)
	path := t.TempDir() + "/film.stillbeat"
	if err := w.desk.SaveCopy(path); err != nil {
		t.Fatal(err)
	}
	w.ear = deafEar{}
	w.openFilm(path)
	if w.timeline.view.wave == nil {
		t.Error("there is no waveform on reopening")
	}
	settle(t, w)
	if w.timeline.view.wave == nil || w.desk.Sound() != nil {
		t.Error("the waveform went when the song could not be decoded")
	}
}
