package share

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/draw"
	stdgif "image/gif"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/picture"
	"stillbeat/board/share/lists"
	"stillbeat/board/share/mp4"
)

// composed draws the pictures of a GIF as they are seen.
func composed(g *stdgif.GIF) []*image.RGBA {
	canvas := image.NewRGBA(image.Rect(0, 0, g.Config.Width, g.Config.Height))
	var out []*image.RGBA
	for _, p := range g.Image {
		draw.Draw(canvas, p.Rect, p, p.Rect.Min, draw.Over)
		seen := image.NewRGBA(canvas.Rect)
		copy(seen.Pix, canvas.Pix)
		out = append(out, seen)
	}
	return out
}

func pngAt(t *testing.T, path string) *image.RGBA {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, image.Point{}, draw.Src)
	return out
}

func listed(t *testing.T, dir string) (names []string) {
	t.Helper()
	held, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range held {
		names = append(names, e.Name())
	}
	return names
}

func TestPanels(t *testing.T) {
	b, pics := lively(t, board.Aspect{W: 9, H: 16}), picture.NewCache(cards{}, 0)
	dir := filepath.Join(t.TempDir(), "чашки и ложки")
	if err := Panels(t.Context(), dir, b, pics, Options{Height: 96, From: 13}, false); err != nil {
		t.Fatal(err)
	}
	names := lists.PictureNames(b)[1:]
	if got := listed(t, dir); !slices.Equal(got, names) {
		t.Fatalf("the folder holds %q, want %q", got, names)
	}
	for k, name := range names {
		want, err := picture.NewFilm(pics, b).Panel(k+1, 0, 54, 96)
		if err != nil {
			t.Fatal(err)
		}
		if d := apart(pngAt(t, filepath.Join(dir, name)), want); d != 0 {
			t.Errorf("%s is %.2f levels off", name, d)
		}
	}
}

func TestFrames(t *testing.T) {
	b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
	dir := filepath.Join(t.TempDir(), "frames")
	opts := Options{Height: 36, From: 8, To: 40, Burn: Burn{Note: true}}
	if err := Frames(t.Context(), dir, b, pics, opts, false); err != nil {
		t.Fatal(err)
	}
	if got := listed(t, dir); len(got) != 32 || got[0] != "00008.png" || got[31] != "00039.png" {
		t.Fatalf("the folder holds %q", got)
	}
	for n := opts.From; n < opts.To; n++ {
		note := ""
		switch { // panel 2 is up from frame 12, panel 3 from 24, panel 4 from 36
		case n < 12, n >= 24 && n < 36:
			note = "the lid stays on"
		case n >= 15 && n < 24:
			note = "steam"
		}
		want := seen(t, b, pics, n, 64, 36, picture.Burn{Note: note})
		if d := apart(pngAt(t, filepath.Join(dir, fmt.Sprintf("%05d.png", n))), want); d != 0 {
			t.Errorf("frame %d is %.2f levels off", n, d)
		}
	}
}

// A folder is replaced when that is asked for, but never what else is in it.
func TestFolderThatIsThere(t *testing.T) {
	b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
	parent := t.TempDir()
	dir := filepath.Join(parent, "panels")
	write := func(replace bool) error { return Panels(t.Context(), dir, b, pics, Options{Height: 36}, replace) }
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	old := filepath.Join(dir, "099.png")
	if err := os.WriteFile(old, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := write(false); !errors.Is(err, beside.ErrThere) {
		t.Errorf("error %v, want %v", err, beside.ErrThere)
	}
	if err := write(true); err != nil {
		t.Fatal(err)
	}
	if got := listed(t, dir); !slices.Equal(got, lists.PictureNames(b)) {
		t.Errorf("the folder holds %q", got)
	}
	if err := os.WriteFile(filepath.Join(dir, "letter.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := write(true); err == nil || !strings.Contains(err.Error(), `"letter.txt"`) {
		t.Errorf("error %v, want one about the letter", err)
	}
	if got := listed(t, parent); !slices.Equal(got, []string{"panels"}) {
		t.Errorf("beside it there are %q", got)
	}
	if err := Panels(t.Context(), filepath.Join(dir, "letter.txt"), b, pics, Options{Height: 36}, true); err == nil || !strings.Contains(err.Error(), "not a folder") {
		t.Errorf("a file in the place of the folder: error %v", err)
	}
}

// A picture that is gone half way leaves no folder.
func TestPanelsFailing(t *testing.T) {
	b := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2)
	b.Panels[1].Picture = "lost"
	parent := t.TempDir()
	for name, err := range map[string]error{
		"panels": Panels(t.Context(), parent+"/a", b, picture.NewCache(greys{}, 0), Options{Height: 36}, false),
		"frames": Frames(t.Context(), parent+"/a", b, picture.NewCache(greys{}, 0), Options{Height: 36}, false),
		"gif":    GIF(t.Context(), parent+"/a.gif", b, picture.NewCache(greys{}, 0), Options{Height: 36}),
	} {
		if err == nil || !strings.Contains(err.Error(), "panel 2") {
			t.Errorf("%s: error %v, want one about panel 2", name, err)
		}
	}
	if left := listed(t, parent); len(left) > 0 {
		t.Errorf("left behind: %q", left)
	}
}

// samplesOf reads the samples of a WAV file of 16 bits, left and right in turn.
func samplesOf(t *testing.T, path string) (rate int, samples []int16) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	raw := tool(t, "ffmpeg", "-v", "error", "-i", path, "-f", "s16le", "-")
	if !bytes.Equal(raw, data[44:]) {
		t.Errorf("ffmpeg reads %d bytes of sound, the file has %d", len(raw), len(data)-44)
	}
	samples = make([]int16, len(raw)/2)
	for i := range samples {
		samples[i] = int16(binary.LittleEndian.Uint16(raw[2*i:]))
	}
	return int(binary.LittleEndian.Uint32(data[24:])), samples
}

// The file is what is heard under the film: offset, trims, fades and gain, as
// long as the film or the part of it, and what MP4 codes.
func TestWAV(t *testing.T) {
	const rate = 44100
	ramp := make(mono, rate)
	for i := range ramp {
		ramp[i] = float32(i%1000)/1000 - 0.5
	}
	b := withSong(boardOf(board.FrameRate{Num: 24000, Den: 1001}, 0, 0.5, 1.5), 0.25)
	b = edited(t, b, board.TrimSong(0.1, 0.2), board.FadeSong(0.1, 0.1), board.SetGain(-6))
	for _, part := range []board.Span{{}, {Start: 7, End: 30}, {Start: 33}} {
		path := filepath.Join(t.TempDir(), "film.wav")
		opts := Options{From: part.Start, To: part.End}
		if err := WAV(t.Context(), path, b, ramp, opts); err != nil {
			t.Fatal(err)
		}
		span, err := opts.span(b)
		if err != nil {
			t.Fatal(err)
		}
		got, samples := samplesOf(t, path)
		long := (int64(span.Len())*1001*rate + 23999) / 24000
		if got != rate || int64(len(samples)) != 2*long {
			t.Fatalf("%d samples at %d Hz, want %d at %d", len(samples)/2, got, long, rate)
		}
		for k := range int(long) {
			// The second of the film, and so of the song.
			at := float64(k)/rate + b.Rate.Seconds(span.Start) - 0.25
			song := int(at*rate+1000.5) - 1000
			want := 0.0
			if song >= 0 && song < rate {
				want = float64(ramp[song]) * b.Song.Level(float64(song)/rate)
			}
			for ch := range 2 {
				if off := float64(samples[2*k+ch]) - 32767*want; off > 1 || off < -1 {
					t.Fatalf("sample %d of %v is %d, want %.1f", k, part, samples[2*k+ch], 32767*want)
				}
			}
		}
		sound, err := opts.sound(b, ramp, span)
		if err != nil {
			t.Fatal(err)
		}
		pcm, err := mp4.NewPCM(mp4.Film{Num: 24000, Den: 1001, Frames: int64(span.Len()), Sound: sound})
		if err != nil {
			t.Fatal(err)
		}
		same := make([]int16, len(samples))
		pcm.Read(same, 0)
		if !slices.Equal(samples, same) {
			t.Errorf("%v: it is not what the MP4 codes", part)
		}
	}
}

// Clicks are on the beats, in the song's place in the film, with the song and
// without it; nobody hears them unasked.
func TestClicks(t *testing.T) {
	b := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2)
	b = withSong(b, 0.5)
	b.Grid.Beats = []board.Beat{{Time: 0.25, Bar: true}, {Time: 0.75}}
	loud := func(opts Options) (at []int) { // hundredths of a second that begin a sound
		path := filepath.Join(t.TempDir(), "film.wav")
		if err := WAV(t.Context(), path, b, mono(make([]float32, 44100)), opts); err != nil {
			t.Fatal(err)
		}
		rate, samples := samplesOf(t, path)
		last := -rate
		for k := 0; k < len(samples); k += 2 {
			if v := samples[k]; v > 3000 || v < -3000 {
				if k/2-last > rate/10 {
					at = append(at, (100*k/2+rate/2)/rate)
				}
				last = k / 2
			}
		}
		return at
	}
	for _, tt := range []struct {
		name string
		opts Options
		want []int
	}{
		{"not asked for", Options{}, nil},
		{"with the song", Options{Click: true}, []int{75, 125}},
		{"alone", Options{Click: true, Silent: true}, []int{75, 125}},
		{"in a part", Options{Click: true, From: 24}, []int{25}},
	} {
		if got := loud(tt.opts); !slices.Equal(got, tt.want) {
			t.Errorf("%s: clicks at %v, want %v", tt.name, got, tt.want)
		}
	}
	path := filepath.Join(t.TempDir(), "film.wav")
	if err := WAV(t.Context(), path, withSong(boardOf(b.Rate, 0, 1), 0), click(), Options{Click: true}); !errors.Is(err, ErrNoBeats) {
		t.Errorf("without beats: error %v", err)
	}
	if err := WAV(t.Context(), path, boardOf(b.Rate, 0, 1), nil, Options{}); !errors.Is(err, ErrNoSound) {
		t.Errorf("without a sound: error %v", err)
	}
}
