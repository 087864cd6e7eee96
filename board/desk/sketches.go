package desk

import (
	"crypto/sha256"
	"encoding/hex"
	"sync"

	"stillbeat/board"
	"stillbeat/board/file"
)

// sketches are those that are in the film but not on disk yet: whoever draws
// does not wait for the disk after each stroke.
type sketches struct {
	mu    sync.Mutex
	order []board.MediaID
	data  map[board.MediaID]file.Media
}

// KeepSketch puts a sketch into the film, for an edit that shows it. It is on
// disk before that edit is. from is the sketch it was made of, "" for none: the
// two take little more room than one. The empty sketch has the empty id.
func (d *Desk) KeepSketch(s board.Sketch, from board.MediaID) (board.MediaID, error) {
	if err := d.ReadOnly(); err != nil {
		return "", err
	}
	if s.Empty() {
		return "", nil
	}
	data, err := board.EncodeSketch(s)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(data)
	id := board.MediaID(hex.EncodeToString(sum[:]))
	d.unsaved.add(id, file.Media{Name: "sketch", Data: data, Base: from})
	return id, nil
}

// Sketch returns a sketch of the film; the empty id is an empty one.
func (d *Desk) Sketch(id board.MediaID) (board.Sketch, error) {
	if id == "" {
		return board.Sketch{}, nil
	}
	data, err := d.Media(id)
	if err != nil {
		return board.Sketch{}, err
	}
	return board.DecodeSketch(data)
}

func (s *sketches) add(id board.MediaID, m file.Media) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.data == nil {
		s.data = map[board.MediaID]file.Media{}
	}
	if s.data[id].Data == nil {
		s.order, s.data[id] = append(s.order, id), m
	}
}

// of returns a sketch that is not on disk, nil for others.
func (s *sketches) of(id board.MediaID) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.data[id].Data
}

// all returns those there are, in the order they were drawn in.
func (s *sketches) all() []file.Media {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []file.Media
	for _, id := range s.order {
		out = append(out, s.data[id])
	}
	return out
}

// written drops the first so many.
func (s *sketches) written(n int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, id := range s.order[:n] {
		delete(s.data, id)
	}
	s.order = s.order[n:]
}

// sketchSaver writes sketches before the board that shows them.
type sketchSaver struct {
	*file.File
	unsaved *sketches
}

// Save writes the sketches that are not on disk, and then the film.
func (s sketchSaver) Save(p board.Past) error {
	n, err := s.saveSketches()
	if err != nil {
		return err
	}
	s.unsaved.written(n)
	return s.File.Save(p)
}

func (s sketchSaver) saveSketches() (int, error) {
	all := s.unsaved.all()
	if len(all) == 0 {
		return 0, nil
	}
	_, err := s.AddMedia(file.Sketch, all...)
	return len(all), err
}
