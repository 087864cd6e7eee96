package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"stillbeat/board"
)

// Limits of what is brought in, in bytes.
const (
	maxSong    = 512 << 20
	maxPicture = 256 << 20
)

// ReadSong is a song read and listened to, ready to be laid on a film.
type ReadSong struct {
	Name string
	Data []byte // nil once it is in a film
	*Heard
	in board.MediaID // under which it is in that film, "" if in none
}

// NewSong reads the song at path: its bytes, its beats and what else is wished
// for.
func NewSong(ctx context.Context, path string, ear Ear, wish Wish, p Progress) (*ReadSong, error) {
	name := nameOf(path)
	data, err := readFile(path, maxSong)
	if err != nil {
		return nil, fmt.Errorf("open song %q: %w", name, err)
	}
	p.report(0.02)
	wish.Beats = true
	heard, err := ear.Hear(ctx, SongFile{Name: name, Data: data}, wish, p.Part(0.02, 1))
	if err != nil {
		return nil, err
	}
	return &ReadSong{Name: name, Data: data, Heard: heard}, nil
}

// Listen finds the beats of the song at path and keeps neither its bytes nor
// its samples.
func Listen(ctx context.Context, path string, ear Ear, p Progress) (*ReadSong, error) {
	name := nameOf(path)
	if _, err := checkFile(path, maxSong); err != nil {
		return nil, fmt.Errorf("open song %q: %w", name, err)
	}
	heard, err := ear.Hear(ctx, SongFile{Name: name, Path: path}, Wish{Beats: true}, p)
	if err != nil {
		return nil, err
	}
	return &ReadSong{Name: name, Heard: heard}, nil
}

// nameOf returns the file name of a path as text: bytes that are not UTF-8
// are replaced, as a board takes none.
func nameOf(path string) string { return strings.ToValidUTF8(filepath.Base(path), "\uFFFD") }

// readFile reads a regular file of at most limit bytes. Its errors give the
// cause alone: the caller names the file.
func readFile(path string, limit int64) ([]byte, error) {
	size, err := checkFile(path, limit)
	if err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, cause(err)
	}
	defer f.Close()
	data := make([]byte, size)
	if _, err := io.ReadFull(f, data); err != nil {
		return nil, cause(err)
	}
	return data, nil
}

// checkFile returns the size of a regular file of 1 to limit bytes.
func checkFile(path string, limit int64) (int64, error) {
	info, err := os.Stat(path) // before it is opened: opening a pipe would wait
	switch {
	case err != nil:
		return 0, cause(err)
	case info.IsDir():
		return 0, errors.New("it is a folder, not a file")
	case !info.Mode().IsRegular():
		return 0, errors.New("it is not an ordinary file")
	case info.Size() > limit:
		return 0, fmt.Errorf("the file is %.1f MB: the most is %d MB", math.Ceil(float64(info.Size())/(1<<20)*10)/10, limit>>20)
	case info.Size() == 0:
		return 0, errors.New("the file is empty")
	}
	return info.Size(), nil
}

// cause strips the path from a file error, for sentences that name the file
// already.
func cause(err error) error {
	switch {
	case errors.Is(err, os.ErrNotExist):
		return errors.New("there is no such file")
	case errors.Is(err, os.ErrPermission):
		return errors.New("no permission to read it")
	}
	var pe *os.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
