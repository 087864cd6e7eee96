package desk

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/file"
	"stillbeat/board/picture"
)

// TestMain keeps scratch films out of the home folder.
func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "stillbeat-desk")
	if err != nil {
		panic(err)
	}
	os.Setenv("XDG_CACHE_HOME", dir)
	code := m.Run()
	os.RemoveAll(dir)
	os.Exit(code)
}

// fakeEar hears two beats a second in whatever it is given.
type fakeEar struct {
	fails error // what Hear returns
	waits bool  // for the context to end
}

func (e fakeEar) Hear(ctx context.Context, song SongFile, wish Wish, p Progress) (*Heard, error) {
	p.report(1)
	if e.waits {
		<-ctx.Done()
		return nil, ctx.Err()
	}
	if e.fails != nil {
		return nil, e.fails
	}
	if song.Data == nil {
		var err error
		if song.Data, err = os.ReadFile(song.Path); err != nil {
			return nil, err
		}
	}
	h := &Heard{Rate: 1000, Channels: 1, Seconds: 8, Title: string(song.Data), Waveform: append([]byte("~"), song.Data...)}
	if wish.Beats {
		var beats []float64
		for t := 0.0; t < h.Seconds; t += 0.5 {
			beats = append(beats, t)
		}
		h.Grid = board.NewGrid(beats, nil)
	}
	if wish.Samples {
		h.Sound = &silence{string(song.Data)}
	}
	return h, nil
}

// silence is eight seconds of nothing, of a song of that title.
type silence struct{ title string }

func (*silence) Rate() int     { return 1000 }
func (*silence) Channels() int { return 1 }
func (*silence) Len() int      { return 8000 }
func (*silence) Read(dst [][]float32, _ int) {
	for _, ch := range dst {
		clear(ch)
	}
}

func newDeskForTest(t testing.TB) *Desk {
	t.Helper()
	d, err := New()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

func openForTest(t testing.TB, path string) *Desk {
	t.Helper()
	d, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func checkError(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func filmPath(t testing.TB) string { return filepath.Join(t.TempDir(), "kettle"+file.Ext) }

// writeFile puts a file into a fresh folder and returns its path.
func writeFile(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	must(t, os.WriteFile(path, data, 0o644))
	return path
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// pictureOf returns a PNG of one colour.
func pictureOf(t testing.TB, c uint8) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 16, 9))
	for i := range img.Pix {
		img.Pix[i] = c
	}
	var b bytes.Buffer
	must(t, png.Encode(&b, img))
	return b.Bytes()
}

func songForTest(t testing.TB, name, content string) *ReadSong {
	t.Helper()
	s, err := NewSong(context.Background(), writeFile(t, name, []byte(content)), fakeEar{}, Wish{Samples: true}, nil)
	must(t, err)
	return s
}

// checkPicture checks the grey of panel i as the cache draws it.
func checkPicture(t *testing.T, d *Desk, i int, want uint8) {
	t.Helper()
	img, err := d.Pictures.Draw(picture.PictureShot(d.Board().Panels[i].Picture, 16, 9), 16, 9)
	if err != nil {
		t.Errorf("panel %d: %v", i+1, err)
		return
	}
	if got := img.RGBAAt(8, 4); got != (color.RGBA{want, want, want, 255}) {
		t.Errorf("panel %d is %v, want grey %d", i+1, got, want)
	}
}

var errDisk = errors.New("the disk is full")
