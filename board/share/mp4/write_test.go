package mp4

import (
	"bytes"
	"context"
	"errors"
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// alone fails unless the folder holds the named files and nothing else.
func alone(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(names, " ") {
		t.Errorf("the folder holds %v, want %v", got, names)
	}
}

// TestCancel stops an export half way: nothing new is left, an old file stays.
func TestCancel(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "film.mp4")
	if err := os.WriteFile(path, []byte("the old film"), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	film := flatFilm(64, 48, 24, 1, 2400)
	film.Cuts = everyNth(2400, 24)
	film.Sound = &Sound{Samples: plain{44100, noise(1, 44100*20)}}
	draw, calls := film.Picture, 0
	film.Picture = func(ctx context.Context, n int64) (*image.RGBA, error) {
		if calls++; calls == 50 {
			cancel()
		}
		return draw(ctx, n)
	}
	err := Write(ctx, path, film, Options{})
	if !errors.Is(err, context.Canceled) || !strings.Contains(err.Error(), path) {
		t.Errorf("error %v, want one of %v that names %s", err, context.Canceled, path)
	}
	if calls != 50 {
		t.Errorf("%d pictures were drawn, want 50", calls)
	}
	alone(t, dir, "film.mp4")
	if b, _ := os.ReadFile(path); string(b) != "the old film" {
		t.Errorf("the old file now holds %q", b)
	}
	if err := Write(ctx, path, film, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("an export begun too late: error %v", err)
	}
	alone(t, dir, "film.mp4")
}

// TestReplace: a second export takes the place of the first.
func TestReplace(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "der Film 映画.mp4")
	for _, frames := range []int64{24, 48} {
		if err := Write(t.Context(), path, flatFilm(64, 48, 24, 1, frames), Options{}); err != nil {
			t.Fatal(err)
		}
	}
	alone(t, dir, "der Film 映画.mp4")
	if got := probe(t, path).Streams[0].NbFrames; got != "48" {
		t.Errorf("%s frames, want 48", got)
	}
}

// TestBadPath: a path that cannot be written gives one clear sentence.
func TestBadPath(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ name, path, want string }{
		{"no such folder", filepath.Join(dir, "none", "film.mp4"), "no such file or directory"},
		{"path is a folder", dir, "it is a folder"},
		{"folder is a file", filepath.Join(file, "film.mp4"), "not a directory"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			err := Write(t.Context(), tt.path, flatFilm(64, 48, 24, 1, 24), Options{})
			if want := "share mp4: cannot write " + tt.path + ": " + tt.want; err == nil || err.Error() != want {
				t.Errorf("got  %v\nwant %s", err, want)
			}
			alone(t, dir, "file")
		})
	}
}

// TestBadFilm: a film that makes no sense is refused before a file is made.
func TestBadFilm(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(*Film)
		want  string
	}{
		{"no frames", func(f *Film) { f.Frames = 0 }, "a film of 0 frames has nothing to write"},
		{"no rate", func(f *Film) { f.Num = 0 }, "a rate of 0/1 is not between 1 and 240 frames per second"},
		{"negative rate", func(f *Film) { f.Num, f.Den = -24, -1 }, "a rate of -24/-1 is not"},
		{"slow", func(f *Film) { f.Num, f.Den = 1, 2 }, "a rate of 1/2 is not"},
		{"fast", func(f *Film) { f.Num, f.Den = 24001, 100 }, "a rate of 24001/100 is not"},
		{"endless", func(f *Film) { f.Frames = math.MaxInt64 }, "are too long for one file"},
		{"a day", func(f *Film) { f.Frames = 24 * 3600 * 24 }, "2073600 frames at 24/1 are too long for one file"},
		{"fine clock", func(f *Film) { f.Num, f.Den = 4e9+1, 1e9 }, "are too long for one file"},
		{"tiny", func(f *Film) { f.Width = 15 }, "a picture of 15x48 is too small; 16 is the least"},
		{"huge", func(f *Film) { f.Width, f.Height = 8000, 8000 }, "8000x8000 at 24 frames per second is more than players decode"},
		{"overflowing", func(f *Film) { f.Width, f.Height = math.MaxInt, math.MaxInt }, "more than players decode"},
		{"no cuts", func(f *Film) { f.Cuts = nil }, "the first picture must stand at frame 0"},
		{"late first cut", func(f *Film) { f.Cuts = []int64{1} }, "the first picture must stand at frame 0"},
		{"cuts out of order", func(f *Film) { f.Cuts = []int64{0, 9, 9} }, "the cut at frame 9 does not follow the one at 9"},
		{"cut after the end", func(f *Film) { f.Cuts = []int64{0, 24} }, "the cut at frame 24 lies after the film's last frame, 23"},
		{"no picture", func(f *Film) { f.Picture = nil }, "there is no picture to draw"},
		{"sound without channels", func(f *Film) { f.Sound = &Sound{Samples: plain{48000, nil}} }, "a sound of 0 channels is not between 1 and 8"},
		{"sound without rate", func(f *Film) { f.Sound = &Sound{Samples: plain{0, noise(1, 9)}} }, "a sound of 0 Hz is not between 1000 and 192000"},
		{"sound without samples", func(f *Film) { f.Sound = &Sound{} }, "the sound has no samples"},
		{"sound at no time", func(f *Film) { f.Sound = &Sound{Samples: plain{48000, noise(1, 9)}, Start: math.NaN()} }, "the sound starts at no time"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			film := flatFilm(64, 48, 24, 1, 24)
			tt.spoil(&film)
			err := Write(t.Context(), filepath.Join(dir, "film.mp4"), film, Options{})
			if err == nil || !strings.HasPrefix(err.Error(), "share mp4: ") || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("got  %v\nwant %s", err, tt.want)
			}
			alone(t, dir)
		})
	}
	if err := Write(t.Context(), "x", flatFilm(64, 48, 24, 1, 24), Options{Quality: 9}); err == nil {
		t.Error("quality 9 was taken")
	}
}

// TestBadPicture: what goes wrong while drawing stops the export.
func TestBadPicture(t *testing.T) {
	broken := errors.New("the picture file is broken")
	tests := []struct {
		name string
		draw func() (*image.RGBA, error)
		want string
	}{
		{"error", func() (*image.RGBA, error) { return nil, broken }, "picture of frame 12: the picture file is broken"},
		{"nothing", func() (*image.RGBA, error) { return nil, nil }, "picture of frame 12: there is none"},
		{"wrong size", func() (*image.RGBA, error) { return image.NewRGBA(image.Rect(0, 0, 48, 64)), nil }, "picture of frame 12: it measures 48x64, not 64x48"},
		{"panic", func() (*image.RGBA, error) { panic("out of paint") }, "internal error: out of paint"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			film := flatFilm(64, 48, 24, 1, 24)
			film.Cuts = []int64{0, 12}
			film.Sound = &Sound{Samples: plain{48000, noise(1, 48000)}}
			good := film.Picture
			film.Picture = func(ctx context.Context, n int64) (*image.RGBA, error) {
				if n == 12 {
					return tt.draw()
				}
				return good(ctx, n)
			}
			path := filepath.Join(dir, "film.mp4")
			err := Write(t.Context(), path, film, Options{})
			if want := "share mp4: cannot write " + path + ": " + tt.want; err == nil || err.Error() != want {
				t.Errorf("got  %v\nwant %s", err, want)
			}
			if tt.name == "error" && !errors.Is(err, broken) {
				t.Error("the error does not wrap its cause")
			}
			alone(t, dir)
		})
	}
}

// TestTogether writes four films at once; each is the same, byte for byte, as
// when it was written alone.
func TestTogether(t *testing.T) {
	films := make([]Film, 4)
	alone := make([][]byte, len(films))
	for i := range films {
		films[i] = flatFilm(64+32*i, 48, 24, 1, 60)
		films[i].Cuts = everyNth(60, int64(7+i))
		films[i].Sound = &Sound{Start: float64(i) / 10, Samples: plain{48000, noise(1+i, 100000)}}
		b, err := os.ReadFile(written(t, films[i], Options{}))
		if err != nil {
			t.Fatal(err)
		}
		alone[i] = b
	}
	dir := t.TempDir()
	var wg sync.WaitGroup
	for i, film := range films {
		wg.Go(func() {
			path := filepath.Join(dir, string(rune('a'+i)))
			if err := Write(t.Context(), path, film, Options{}); err != nil {
				t.Error(err)
				return
			}
			if b, err := os.ReadFile(path); err != nil || !bytes.Equal(b, alone[i]) {
				t.Errorf("film %d differs from the one written alone (%v)", i, err)
			}
		})
	}
	wg.Wait()
}

// TestProgress: what is told ascends and ends at 1.
func TestProgress(t *testing.T) {
	var told []float64
	written(t, flatFilm(64, 48, 24, 1, 240), Options{Progress: func(done float64) { told = append(told, done) }})
	for i, done := range told {
		if done < 0 || done > 1 || i > 0 && done <= told[i-1] {
			t.Fatalf("told %v", told)
		}
	}
	if len(told) < 10 || told[len(told)-1] != 1 {
		t.Errorf("told %v, want at least ten steps that end at 1", told)
	}
}
