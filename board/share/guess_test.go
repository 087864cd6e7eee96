package share

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/guess"
)

// bytesAt returns the bytes of a file, or of all in a folder.
func bytesAt(t *testing.T, path string) (sum int64) {
	t.Helper()
	err := filepath.WalkDir(path, func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			sum += info.Size()
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

// TestEstimatesAgainstTheFiles holds what is told before against what is
// written. Of these films most pictures are not looked at before.
func TestEstimatesAgainstTheFiles(t *testing.T) {
	pics := picture.NewCache(cards{}, 0)
	lively := lively(t, board.Aspect{})
	held := minute()
	still := picture.NewCache(cards{}, 0)
	for _, tt := range []struct {
		name string
		b    board.Board
		pics *picture.Cache
		opts Options
	}{
		{"moves and passages", lively, pics, Options{Height: 90}},
		{"a part of it", lively, pics, Options{Height: 90, From: 5, To: 40}},
		{"held panels", held, still, Options{Height: 90}},
		{"held panels with a timecode", held, still, Options{Height: 180, Burn: Burn{Words: board.BurnIn{Timecode: true}}}},
	} {
		for format, f := range map[string]struct {
			guess func(context.Context, board.Board, *picture.Cache, Options) (guess.Size, error)
			write func(path string) error
		}{
			"gif": {EstimateGIF, func(path string) error { return GIF(t.Context(), path, tt.b, tt.pics, tt.opts) }},
			"panels": {EstimatePanels, func(path string) error {
				return Panels(t.Context(), path, tt.b, tt.pics, tt.opts, false)
			}},
			"frames": {EstimateFrames, func(path string) error {
				return Frames(t.Context(), path, tt.b, tt.pics, tt.opts, false)
			}},
		} {
			g, err := f.guess(t.Context(), tt.b, tt.pics, tt.opts)
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(t.TempDir(), format)
			if err := f.write(path); err != nil {
				t.Fatal(err)
			}
			size := bytesAt(t, path)
			if off := size - g.Bytes; off > g.Within || -off > g.Within {
				t.Errorf("%s, %s: %d bytes, guessed %d within %d", tt.name, format, size, g.Bytes, g.Within)
			}
			if g.Within > g.Bytes/2 {
				t.Errorf("%s, %s: a guess of %d within %d says little", tt.name, format, g.Bytes, g.Within)
			}
		}
	}
}

func TestSizeOfWAV(t *testing.T) {
	b := withSong(boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2), 0.5)
	for _, opts := range []Options{{}, {From: 7, To: 30}} {
		path := filepath.Join(t.TempDir(), "film.wav")
		if err := WAV(t.Context(), path, b, click(), opts); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		known, err := SizeOfWAV(b, click(), opts)
		if err != nil || known != (guess.Size{Bytes: info.Size()}) {
			t.Errorf("%d bytes, told %+v before, %v", info.Size(), known, err)
		}
		unread, err := SizeOfWAV(b, nil, opts)
		if off := info.Size() - unread.Bytes; err != nil || max(off, -off) > unread.Within {
			t.Errorf("%d bytes, told %+v before the song was read, %v", info.Size(), unread, err)
		}
	}
	if _, err := SizeOfWAV(b, nil, Options{Silent: true}); err != ErrNoSound {
		t.Errorf("without a sound: %v", err)
	}
}
