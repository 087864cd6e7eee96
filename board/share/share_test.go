package share

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// greys is a source of flat pictures: the id "g080" is grey level 80.
type greys struct{}

func (greys) Media(id board.MediaID) ([]byte, error) {
	var level uint8
	if _, err := fmt.Sscanf(string(id), "g%d", &level); err != nil {
		return nil, fs.ErrNotExist
	}
	img := image.NewGray(image.Rect(0, 0, 64, 36))
	draw.Draw(img, img.Bounds(), image.NewUniform(color.Gray{Y: level}), image.Point{}, draw.Src)
	var out bytes.Buffer
	err := png.Encode(&out, img)
	return out.Bytes(), err
}

// level is the grey of panel i: neighbours lie far apart.
func level(i int) int { return 30 + i*70%200 }

func grey(i int) board.MediaID { return board.MediaID(fmt.Sprintf("g%03d", level(i))) }

// boardOf returns a board whose panels start at the given seconds and which
// ends at the last one.
func boardOf(rate board.FrameRate, seconds ...float64) board.Board {
	b := board.New()
	b.Rate = rate
	for i, t := range seconds[:len(seconds)-1] {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Start: board.Free(t), Picture: grey(i)})
	}
	b.End = board.Free(seconds[len(seconds)-1])
	b.NextID = board.PanelID(len(seconds))
	return b
}

func withSong(b board.Board, offset float64) board.Board {
	b.Song = &board.Song{Name: "click.wav", Seconds: 1, Offset: offset}
	return b
}

// mono is a sound of one channel at 44.1 kHz.
type mono []float32

func (m mono) Rate() int     { return 44100 }
func (m mono) Channels() int { return 1 }
func (m mono) Len() int      { return len(m) }
func (m mono) Read(dst [][]float32, at int) {
	clear(dst[0])
	if at < 0 && -at < len(dst[0]) {
		copy(dst[0][-at:], m)
	} else if at >= 0 && at < len(m) {
		copy(dst[0], m[at:])
	}
}

// click is a second of silence with one click at its start.
func click() board.Sound {
	s := make([]float32, 44100)
	for i := range 441 {
		s[i] = float32(0.8 * math.Sin(2*math.Pi*1000*float64(i)/44100))
	}
	return mono(s)
}

func tool(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is needed to check what was written: make test installs it", name)
	}
	var complaint bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, &complaint)
	}
	return out
}

func TestMP4ShowsAtEachFrameThePanelThatIsUp(t *testing.T) {
	tests := []struct {
		name string
		b    board.Board
	}{
		{"whole rate", boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 0.5, 0.6, 1.25, 2)},
		{"broadcast rate", boardOf(board.FrameRate{Num: 24000, Den: 1001}, 0, 0.33, 0.9, 1.5)},
		{"holds of a frame", boardOf(board.FrameRate{Num: 8, Den: 1}, 0, 0.125, 0.25, 0.375, 0.5)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film.mp4")
			err := MP4(t.Context(), path, tt.b, picture.NewCache(greys{}, 0), nil, Options{Width: 64, Height: 36})
			if err != nil {
				t.Fatal(err)
			}
			// One mean grey level for each frame, as ffmpeg decodes it.
			levels := tool(t, "ffmpeg", "-v", "error", "-i", path, "-vf", "scale=1:1:flags=area,format=gray",
				"-fps_mode", "passthrough", "-f", "rawvideo", "-")
			if got, want := len(levels), int(tt.b.Frames()); got != want {
				t.Fatalf("%d frames, want %d", got, want)
			}
			starts := tt.b.Starts()
			for f, got := range levels {
				want := level(board.PanelAt(starts, board.Frame(f)))
				if math.Abs(float64(got)-float64(want)) > 6 {
					t.Errorf("frame %d has grey level %d, want %d", f, got, want)
				}
			}
		})
	}
}

func TestMP4Tracks(t *testing.T) {
	film := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2)
	tests := []struct {
		name   string
		b      board.Board
		sound  board.Sound
		silent bool
		want   string // kinds of the tracks
	}{
		{"a film without a song is silent", film, nil, false, "video"},
		{"the song is heard", withSong(film, 0), click(), false, "video audio"},
		{"silent leaves the song out", withSong(film, 0), click(), true, "video"},
		{"silent needs no decoded song", withSong(film, 0), nil, true, "video"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film.mp4")
			opts := Options{Silent: tt.silent, Width: 64, Height: 36}
			if err := MP4(t.Context(), path, tt.b, picture.NewCache(greys{}, 0), tt.sound, opts); err != nil {
				t.Fatal(err)
			}
			var probe struct {
				Streams []struct {
					Kind string `json:"codec_type"`
				}
				Format struct {
					Duration float64 `json:"duration,string"`
				}
			}
			if err := json.Unmarshal(tool(t, "ffprobe", "-v", "error", "-show_streams", "-show_format", "-of", "json", path), &probe); err != nil {
				t.Fatal(err)
			}
			var kinds []string
			for _, s := range probe.Streams {
				kinds = append(kinds, s.Kind)
			}
			if got := strings.Join(kinds, " "); got != tt.want {
				t.Errorf("tracks %q, want %q", got, tt.want)
			}
			if math.Abs(probe.Format.Duration-2) > 0.001 {
				t.Errorf("it lasts %.4f s, want 2", probe.Format.Duration)
			}
		})
	}
}

// A click at the start of the song is heard where the song lies in the film.
func TestMP4PutsTheSongAtItsOffset(t *testing.T) {
	for _, offset := range []float64{0, 0.75, -0.004} {
		t.Run(fmt.Sprint(offset), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film.mp4")
			b := withSong(boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2), offset)
			if err := MP4(t.Context(), path, b, picture.NewCache(greys{}, 0), click(), Options{Width: 64, Height: 36}); err != nil {
				t.Fatal(err)
			}
			pcm := tool(t, "ffmpeg", "-v", "error", "-i", path, "-ac", "1", "-ar", "44100", "-f", "s16le", "-")
			first := -1
			for i := 0; i+1 < len(pcm) && first < 0; i += 2 {
				if v := int16(uint16(pcm[i]) | uint16(pcm[i+1])<<8); v > 6000 || v < -6000 {
					first = i / 2
				}
			}
			// AAC spreads the attack by a few milliseconds.
			if got, want := float64(first)/44100, max(0, offset); first < 0 || math.Abs(got-want) > 0.005 {
				t.Errorf("the click is at %.4f s, want %.4f", got, want)
			}
		})
	}
}

func TestMP4Refuses(t *testing.T) {
	film := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2)
	lost := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2)
	lost.Panels[1].Picture = "lost"
	tests := []struct {
		name string
		b    board.Board
		is   error
		says string
	}{
		{"an empty film", board.New(), ErrEmpty, "no panels"},
		{"a song that is not loaded", withSong(film, 0), ErrNoSong, "not loaded"},
		{"a picture that is gone", lost, fs.ErrNotExist, "panel 2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			err := MP4(t.Context(), filepath.Join(dir, "film.mp4"), tt.b, picture.NewCache(greys{}, 0), nil, Options{Width: 64, Height: 36})
			if !errors.Is(err, tt.is) || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("error %v, want %v with %q", err, tt.is, tt.says)
			}
			if left, _ := os.ReadDir(dir); len(left) > 0 {
				t.Errorf("it left %v behind", left)
			}
		})
	}
}

func TestMP4Cancelled(t *testing.T) {
	dir := t.TempDir()
	ctx, cancel := context.WithCancel(t.Context())
	b := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 1, 2, 3, 4)
	opts := Options{Width: 64, Height: 36, Progress: func(float64) { cancel() }}
	err := MP4(ctx, filepath.Join(dir, "film.mp4"), b, picture.NewCache(greys{}, 0), nil, opts)
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want that it was cancelled", err)
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("it left %v behind", left)
	}
}

func TestCuts(t *testing.T) {
	b := boardOf(board.FrameRate{Num: 24, Den: 1}, 0, 0.5, 1, 1.5, 2)
	b.Panels[2].Picture = b.Panels[1].Picture
	got, want := picture.NewFilm(picture.NewCache(greys{}, 0), b).Changes(), []board.Frame{0, 12, 36}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("cuts %v, want %v: panels 2 and 3 share a picture", got, want)
	}
}

func ExampleMP4() {
	dir, _ := os.MkdirTemp("", "share")
	defer os.RemoveAll(dir)

	film := boardOf(board.FrameRate{Num: 12, Den: 1}, 0, 1, 2)
	path := filepath.Join(dir, "film.mp4")
	err := MP4(context.Background(), path, film, picture.NewCache(greys{}, 0), nil, Options{Width: 320, Height: 180})
	info, _ := os.Stat(path)
	fmt.Println(err, info.Size() > 1000)
	// Output: <nil> true
}
