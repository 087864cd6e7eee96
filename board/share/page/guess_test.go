package page

import (
	"image/color"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// TestEstimateAgainstThePage holds what is told before against the page.
func TestEstimateAgainstThePage(t *testing.T) {
	long := danceFilm(board.FrameRate{Num: 24, Den: 1})
	colours := []color.RGBA{{R: 200}, {G: 90}, {B: 160}}
	for i := range 60 { // more pictures than are looked at
		c := colours[i%3]
		id := board.MediaID("c" + hex(c.R+uint8(i)) + hex(c.G) + hex(c.B))
		long.Panels = append(long.Panels, board.Panel{ID: long.NextID, Start: board.Free(8.75 + float64(i)/2), Picture: id, Words: board.Words{Action: strings.Repeat("steam ", i)}})
		long.NextID++
	}
	long.End = board.Free(8.75 + 30)
	for name, tt := range map[string]struct {
		b    board.Board
		opts Options
	}{
		"a few panels": {danceFilm(board.FrameRate{Num: 24, Den: 1}), Options{}},
		"many":         {long, Options{Height: 180}},
		"silent":       {long, Options{Height: 180, Silent: true}},
	} {
		g, err := Estimate(t.Context(), tt.b, picture.NewCache(flats{}, 0), tt.opts)
		if err != nil {
			t.Fatal(err)
		}
		_, made := written(t, tt.b, clicks{}, tt.opts)
		if off := made.Bytes - g.Bytes; max(off, -off) > g.Within {
			t.Errorf("%s: %d bytes, guessed %d within %d", name, made.Bytes, g.Bytes, g.Within)
		}
		if g.Within > g.Bytes/4 {
			t.Errorf("%s: a guess of %d within %d says little", name, g.Bytes, g.Within)
		}
	}
}

func hex(v uint8) string {
	const digits = "0123456789abcdef"
	return string([]byte{digits[v>>4], digits[v&15]})
}

// A film that a page cannot hold is told before it is written.
func TestEstimateOfTooManyPictures(t *testing.T) {
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	b.Panels, b.End = b.Panels[:1], board.Free(200)
	b.Panels[0].Drawn = &board.Drawn{Travel: board.CameraMove{To: board.Framing{Width: 0.5}}}
	_, err := Estimate(t.Context(), b, picture.NewCache(flats{}, 0), Options{})
	if err == nil || !strings.Contains(err.Error(), "the most are 3000") {
		t.Errorf("of %d frames that all move: %v", b.Frames(), err)
	}
}
