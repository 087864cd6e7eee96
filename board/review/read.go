package review

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"unicode/utf8"

	"stillbeat/board"
)

// maxFrame is the last frame that a note can stand on.
const maxFrame = board.MaxSeconds * board.MaxRate

// Read reads a file of notes. The texts it returns are plain: see FORMAT.md.
// The error is one sentence without the file's name; it wraps ErrNotNotes or
// ErrNewer where that is what is wrong.
func Read(data []byte) (File, error) {
	if len(data) > MaxBytes {
		return File{}, fmt.Errorf("it has more than %d MB, the most notes may have", MaxBytes>>20)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return File{}, fmt.Errorf("%w: it is not text in UTF-8", ErrNotNotes)
	}
	var head struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return File{}, fmt.Errorf("%w: it is not JSON, or of another shape", ErrNotNotes)
	}
	switch {
	case head.Format != Format:
		return File{}, fmt.Errorf("%w: its format is %.40q, not %q", ErrNotNotes, head.Format, Format)
	case head.Version < 1:
		return File{}, fmt.Errorf("%w: there is no version %d", ErrNotNotes, head.Version)
	case head.Version > Version:
		return File{}, ErrNewer
	}
	f, err := body(data)
	if err == nil {
		err = f.cleaned()
	}
	if err != nil {
		return File{}, err
	}
	return f, nil
}

// body reads all of a file. Lists are refused before they are longer than they
// may be.
func body(data []byte) (File, error) {
	type plainFilm Film
	var raw struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
		Film    struct {
			plainFilm
			Prints json.RawMessage `json:"prints"`
		} `json:"film"`
		Notes json.RawMessage `json:"notes"`
	}
	if err := strict(data).Decode(&raw); err != nil {
		return File{}, plainJSON(err)
	}
	f := File{Format: raw.Format, Version: raw.Version, Film: Film(raw.Film.plainFilm)}
	if err := list(raw.Film.Prints, &f.Film.Prints, maxPrints, "print"); err != nil {
		return f, err
	}
	return f, list(raw.Notes, &f.Notes, MaxNotes, "note")
}

func strict(data []byte) *json.Decoder {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	return d
}

// list reads a list of at most limit elements.
func list[T any](data []byte, to *[]T, limit int, what string) error {
	if len(data) == 0 || string(data) == "null" {
		return nil
	}
	d := strict(data)
	if t, err := d.Token(); err != nil || t != json.Delim('[') {
		return fmt.Errorf("there is no list where the %ss should be", what)
	}
	for d.More() {
		if len(*to) == limit {
			return fmt.Errorf("there are more than %d %ss, the most there may be", limit, what)
		}
		var v T
		if err := d.Decode(&v); err != nil {
			return fmt.Errorf("%s %d: %w", what, len(*to)+1, plainJSON(err))
		}
		*to = append(*to, v)
	}
	return nil
}

// plainJSON says in plain words what is wrong with JSON.
func plainJSON(err error) error {
	var wrongType *json.UnmarshalTypeError
	if errors.As(err, &wrongType) {
		return fmt.Errorf("the field %.40q does not fit (%s)", wrongType.Field, wrongType.Value)
	}
	return fmt.Errorf("it is not as notes are: %.80s", err)
}

// cleaned makes the texts plain and returns what is wrong with the file.
func (f *File) cleaned() error {
	if _, err := parseRate(f.Film.Rate); err != nil {
		return err
	}
	if f.Film.Title = plain(f.Film.Title, true); len(f.Film.Title) > board.MaxText {
		return errors.New("the title of the film they are on is too long")
	}
	if f.Film.Frames < 0 || f.Film.Frames > maxFrame {
		return fmt.Errorf("the film they are on has %d frames", f.Film.Frames)
	}
	for _, p := range f.Film.Prints {
		if sum, err := hex.DecodeString(p); err != nil || len(sum) != printBytes {
			return fmt.Errorf("%.40q is nothing a film is known by", p)
		}
	}
	for i := range f.Notes {
		if err := f.Notes[i].cleaned(); err != nil {
			return fmt.Errorf("note %d: %w", i+1, err)
		}
	}
	return nil
}

func (n *Note) cleaned() error {
	if err := board.CheckRemarkID(n.ID); err != nil {
		return err
	}
	if n.Author, n.Text = plain(n.Author, true), plain(n.Text, false); n.Gone {
		n.Text = ""
	}
	switch {
	case n.Author == "":
		return errors.New("it does not say who wrote it")
	case len(n.Author) > board.MaxRemarkAuthor:
		return fmt.Errorf("the name of its author is longer than %d bytes", board.MaxRemarkAuthor)
	case n.Text == "" && !n.Gone:
		return errors.New("it has no words")
	case len(n.Text) > board.MaxRemarkText:
		return fmt.Errorf("it is longer than %d bytes", board.MaxRemarkText)
	case n.Written < 0 || n.Written > 1<<53:
		return errors.New("it was written at no time")
	case n.Panel < 0, n.Frame < 0 || n.Frame > maxFrame, n.In < 0 || n.In > n.Frame:
		return errors.New("it is outside the film")
	}
	return nil
}
