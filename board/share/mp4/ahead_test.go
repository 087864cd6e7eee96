package mp4

import (
	"context"
	"errors"
	"image"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
)

// Pictures are drawn one at a time and in order while others are coded, and
// none once Write is back, whatever ended it.
func TestPicturesDrawnAhead(t *testing.T) {
	spilt := errors.New("spilt")
	for name, tt := range map[string]struct {
		at    func(n int64, cancel func()) error // what happens when a frame is drawn
		wants string                             // in the error; "": there is none
	}{
		"all goes well":  {func(int64, func()) error { return nil }, ""},
		"one fails":      {func(n int64, _ func()) error { return map[bool]error{true: spilt}[n == 30] }, "picture of frame 30: spilt"},
		"the last fails": {func(n int64, _ func()) error { return map[bool]error{true: spilt}[n == 59] }, "picture of frame 59: spilt"},
		"it is stopped": {func(n int64, cancel func()) error {
			if n == 30 {
				cancel()
			}
			return nil
		}, "canceled"},
		"the drawer fails": {func(n int64, _ func()) error {
			if n == 30 {
				panic("a bug")
			}
			return nil
		}, "a bug"},
	} {
		ctx, cancel := context.WithCancel(t.Context())
		film := flatFilm(64, 48, 24, 1, 60)
		film.Cuts = everyNth(60, 1)
		draw, last := film.Picture, int64(-1)
		var busy, over atomic.Bool
		film.Picture = func(ctx context.Context, n int64) (*image.RGBA, error) {
			if !busy.CompareAndSwap(false, true) || over.Load() {
				t.Errorf("%s: frame %d is drawn beside another or too late", name, n)
			}
			defer busy.Store(false)
			if n != last+1 {
				t.Errorf("%s: frame %d is drawn after %d", name, n, last)
			}
			last = n
			if err := tt.at(n, cancel); err != nil {
				return nil, err
			}
			return draw(ctx, n)
		}
		dir := t.TempDir()
		err := Write(ctx, filepath.Join(dir, "film.mp4"), film, Options{})
		over.Store(true)
		if busy.Load() {
			t.Errorf("%s: a picture is still drawn", name)
		}
		left, _ := os.ReadDir(dir)
		if tt.wants == "" {
			if err != nil || len(left) != 1 || last != 59 {
				t.Errorf("%s: %v, %d files, frame %d is the last", name, err, len(left), last)
			}
		} else if err == nil || !strings.Contains(err.Error(), tt.wants) || len(left) != 0 {
			t.Errorf("%s: %v, %d files; want %q and none", name, err, len(left), tt.wants)
		}
		cancel()
	}
}
