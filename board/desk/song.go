package desk

import (
	"bytes"
	"context"
	"slices"

	"stillbeat/board"
	"stillbeat/board/file"
)

// maxSongs is how many decoded songs are kept: each takes some 11 MB a minute
// (44.1 kHz, stereo).
const maxSongs = 3

// LaySong puts a song under the film with its beats.
func (d *Desk) LaySong(s *ReadSong) error {
	if err := d.KeepSong(context.Background(), s); err != nil {
		return err
	}
	song := &board.Song{Name: s.Name, Media: s.in, Seconds: s.Seconds}
	if err := d.history.Do(board.SetSong(song, s.Grid)); err != nil {
		return err
	}
	if s.Sound != nil {
		d.SetSong(s.in, s.Heard)
	}
	d.changed()
	return nil
}

// KeepSong puts the bytes of a song into the film, so that laying it takes no
// time. It may run on any goroutine; on an error it is not in the film.
func (d *Desk) KeepSong(ctx context.Context, s *ReadSong) error {
	if s.in != "" {
		return nil
	}
	d.moving.RLock()
	ids, err := d.store.AddAll(ctx, file.Song, []file.Media{{Name: s.Name, Data: s.Data}}, nil)
	d.moving.RUnlock()
	if err != nil {
		return err
	}
	s.in, s.Data = ids[0], nil
	d.keepWaveform(s.in, s.Heard)
	return nil
}

// Sound returns the decoded song, nil if there is none or it is not loaded
// yet: see LoadSong.
func (d *Desk) Sound() board.Sound {
	if s := d.song(); s != nil {
		return s.Sound
	}
	return nil
}

// song returns what was heard in the film's song, nil if it is not loaded.
func (d *Desk) song() *Heard {
	b := d.Board()
	if b.Song == nil {
		return nil
	}
	return d.songs[b.Song.Media]
}

// SetSong hands over a song decoded by LoadSong.
func (d *Desk) SetSong(id board.MediaID, s *Heard) {
	d.songs[id] = s
	d.recent = append(slices.DeleteFunc(d.recent, func(old board.MediaID) bool { return old == id }), id)
	if len(d.recent) > maxSongs {
		delete(d.songs, d.recent[0])
		d.recent = d.recent[1:]
	}
}

// Waveform returns that of the film's song, as the ear wrote it, nil if the
// film has none. It is there at once, before the song is loaded.
func (d *Desk) Waveform() []byte {
	if s := d.song(); s != nil {
		return s.Waveform
	}
	b := d.Board()
	if b.Song == nil {
		return nil
	}
	data, _ := d.store.Waveform(b.Song.Media) // none is no loss: LoadSong makes it
	return data
}

// LoadSong hears the film's song once more; nil without a song. It may run on
// any goroutine: the board is handed in.
func (d *Desk) LoadSong(ctx context.Context, b board.Board, ear Ear, wish Wish, p Progress) (*Heard, error) {
	if b.Song == nil {
		return nil, nil
	}
	data, err := d.Media(b.Song.Media)
	if err != nil {
		return nil, err
	}
	heard, err := ear.Hear(ctx, SongFile{Name: b.Song.Name, Data: data}, wish, p)
	if err != nil {
		return nil, err
	}
	d.keepWaveform(b.Song.Media, heard)
	return heard, nil
}

// keepWaveform keeps a waveform in the film if it holds another or none; it is
// no loss if that fails.
func (d *Desk) keepWaveform(id board.MediaID, s *Heard) {
	d.moving.RLock()
	defer d.moving.RUnlock()
	if old, err := d.store.Waveform(id); err == nil && !bytes.Equal(old, s.Waveform) {
		_ = d.store.SaveWaveform(id, s.Waveform)
	}
}
