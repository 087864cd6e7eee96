package check

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/color"
	"image/png"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// greys is a source of pictures: the id "grey 64" is a picture of that grey,
// any other is missing.
type greys struct{}

func (greys) Media(id board.MediaID) ([]byte, error) {
	var v uint8
	if _, err := fmt.Sscanf(string(id), "grey %d", &v); err != nil {
		return nil, errors.New("it is lost")
	}
	var out bytes.Buffer
	err := png.Encode(&out, filled(32, 18, color.RGBA{v, v, v, 255}))
	return out.Bytes(), err
}

func greyCache() *picture.Cache { return picture.NewCache(greys{}, 0) }

// film returns a board at 24 fps on a click of 12 frames, with panels of these
// holds, each with a picture of grey 128, anchored where they fall on a beat.
func film(t testing.TB, holds ...board.Frame) board.Board {
	t.Helper()
	b := do(t, board.New(), board.SetTempo(120, 0))
	b = do(t, b, board.Insert(0, make([]board.Panel, len(holds)), 1))
	for i, h := range holds {
		b = do(t, b, board.SetHold([]int{i}, h))
		b = do(t, b, board.SetPicture([]int{i}, "grey 128"))
	}
	return b
}

func do(t testing.TB, b board.Board, e board.Edit) board.Board {
	t.Helper()
	out, err := e.Apply(b)
	if err != nil {
		t.Fatalf("%s: %v", e.Name, err)
	}
	if err := out.Check(); err != nil {
		t.Fatalf("%s: %v", e.Name, err)
	}
	return out
}

// checked runs the check.
func checked(t testing.TB, b board.Board, o Options) []Finding {
	t.Helper()
	r, err := Run(context.Background(), b, o)
	if err != nil {
		t.Fatal(err)
	}
	return r.Findings
}

// of returns the findings of one kind.
func of(kind Kind, all []Finding) (out []Finding) {
	for _, f := range all {
		if f.Kind == kind {
			out = append(out, f)
		}
	}
	return out
}

// silence is a sound with one loud sample.
type silence struct {
	at    int
	level float32
}

func (silence) Rate() int     { return 1000 }
func (silence) Channels() int { return 2 }
func (silence) Len() int      { return 60000 }
func (s silence) Read(dst [][]float32, at int) {
	for _, ch := range dst {
		clear(ch)
	}
	if k := s.at - at; k >= 0 && k < len(dst[1]) {
		dst[1][k] = -s.level
	}
}
