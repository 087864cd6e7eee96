package file

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestWaveform(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kettle.stillbeat")
	f, err := Create(path, board.New())
	if err != nil {
		t.Fatal(err)
	}
	ids, err := f.AddMedia(Song, Media{Name: "waltz.mp3", Data: []byte("la")}, Media{Name: "polka.mp3", Data: []byte("la la")})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := f.Waveform(ids[0]); got != nil || err != nil {
		t.Errorf("before it is kept: %q, %v", got, err)
	}
	for _, data := range []string{"hills", "higher hills"} { // the second replaces the first
		if err := f.SaveWaveform(ids[0], []byte(data)); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if f, _, err = Open(path); err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got, err := f.Waveform(ids[0]); string(got) != "higher hills" || err != nil {
		t.Errorf("opened again: %q, %v", got, err)
	}
	if got, err := f.Waveform(ids[1]); got != nil || err != nil {
		t.Errorf("of another song: %q, %v", got, err)
	}
	for name, c := range map[string]struct {
		song board.MediaID
		data []byte
	}{
		"nothing":           {ids[1], nil},
		"too large":         {ids[1], bytes.Repeat([]byte("x"), MaxWaveform+1)},
		"of no song stored": {"0123", []byte("x")},
	} {
		if err := f.SaveWaveform(c.song, c.data); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: error %v, want a sentence", name, err)
		}
	}
}
