package page

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// flats is a source of pictures of one colour: the id "c0a141e" is 0a141e.
type flats struct{}

func (flats) Media(id board.MediaID) ([]byte, error) {
	var c color.RGBA
	if _, err := fmt.Sscanf(string(id), "c%02x%02x%02x", &c.R, &c.G, &c.B); err != nil {
		return nil, fs.ErrNotExist
	}
	c.A = 255
	img := image.NewRGBA(image.Rect(0, 0, 64, 36))
	draw.Draw(img, img.Bounds(), image.NewUniform(c), image.Point{}, draw.Src)
	var out bytes.Buffer
	err := png.Encode(&out, img)
	return out.Bytes(), err
}

// hostile are texts that must be shown as they are and do nothing.
var hostile = []string{
	`<script>window.hurt=1</script>`, `</script><img src=x onerror="window.hurt=1">`, `"><b onmouseover='window.hurt=1'>&amp;`,
	"קומקום על הכיריים", "お茶と砂糖 👩\u200d🚀", `{{title}} ${1} \u003c`, "<!-- <script>",
}

// danceFilm returns a film at a rate whose panels, a second and a bit each,
// start on the beats of a song and off them, one dissolving into the next.
func danceFilm(rate board.FrameRate) board.Board {
	b := board.New()
	b.Title, b.Rate = hostile[1], rate
	colours := []board.MediaID{"cc83228", "c28a03c", "c2846be", "cf0ebdc", "c28a03c", "c8c28a0", "c141414"}
	for i, c := range colours {
		p := board.Panel{ID: b.NextID, Start: board.Free(float64(i) * 1.25), Picture: c}
		p.Title, p.Action = hostile[i%len(hostile)], hostile[(i+1)%len(hostile)]
		if i == 3 {
			p.Into = board.Transition{Kind: board.Dissolve, Frames: 10}
		}
		b.Panels = append(b.Panels, p)
		b.NextID++
	}
	b.End = board.Free(float64(len(colours)) * 1.25)
	var beats, bars []float64
	for k := range 18 {
		beats = append(beats, float64(k)/2)
		if k%4 == 0 {
			bars = append(bars, float64(k)/2)
		}
	}
	b.Grid = board.NewGrid(beats, bars)
	b.Song = &board.Song{Name: "tune.wav", Seconds: 9}
	return b
}

// clicks is a mono sound at 44.1 kHz with a click each half second.
type clicks struct{}

func (clicks) Rate() int     { return 44100 }
func (clicks) Channels() int { return 1 }
func (clicks) Len() int      { return 9 * 44100 }
func (clicks) Read(dst [][]float32, at int) {
	for i := range dst[0] {
		dst[0][i] = 0
		if n := at + i; n >= 0 && n < 9*44100 && n%22050 < 400 {
			dst[0][i] = float32(0.8 * math.Exp(-float64(n%22050)/80) * math.Sin(float64(n%22050)/5))
		}
	}
}

// written writes the page of a film and returns its path.
func written(t testing.TB, b board.Board, sound board.Sound, opts Options) (string, Made) {
	t.Helper()
	var out bytes.Buffer
	made, err := Write(context.Background(), &out, b, picture.NewCache(flats{}, 0), sound, opts)
	if err != nil {
		t.Fatal(err)
	}
	if made.Bytes != int64(out.Len()) {
		t.Errorf("it is said to have %d bytes and has %d", made.Bytes, out.Len())
	}
	path := filepath.Join(t.TempDir(), "film.html")
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path, made
}
