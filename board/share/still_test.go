package share

import (
	"bytes"
	"context"
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// TestStillIsTheFrameThatIsWritten holds it against the files of Frames.
func TestStillIsTheFrameThatIsWritten(t *testing.T) {
	b, pics := lively(t, board.Aspect{W: 16, H: 9}), picture.NewCache(cards{}, 0)
	opts := Options{Height: 90, From: 10, To: 30, Burn: Burn{Mark: "draft", Words: board.BurnIn{Timecode: true, Title: true}, Note: true}}
	folder := filepath.Join(t.TempDir(), "frames")
	if err := Frames(context.Background(), folder, b, pics, opts, false); err != nil {
		t.Fatal(err)
	}
	for n, name := range map[board.Frame]string{10: "00010.png", 15: "00015.png", 29: "00029.png"} {
		img, err := Still(b, pics, n, opts)
		if err != nil {
			t.Fatal(err)
		}
		var coded bytes.Buffer
		coder := png.Encoder{CompressionLevel: png.BestSpeed}
		if err := coder.Encode(&coded, img); err != nil {
			t.Fatal(err)
		}
		written, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil || !bytes.Equal(written, coded.Bytes()) {
			t.Errorf("frame %d is not what Frames wrote as %s (%v)", n, name, err)
		}
	}
	for _, n := range []board.Frame{-1, 9, 30, 999} {
		if _, err := Still(b, pics, n, opts); err == nil {
			t.Errorf("frame %d, which is not written, is drawn", n)
		}
	}
	if _, err := Still(board.New(), pics, 0, Options{}); !errors.Is(err, ErrEmpty) {
		t.Errorf("a film without panels: %v", err)
	}
}
