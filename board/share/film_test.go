package share

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image/gif"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/mp4"
)

// Each frame of the file is the film's frame at its time: whole films and
// parts, upright and wide, with moves, passages and words burnt in.
func TestMP4IsTheFilm(t *testing.T) {
	tests := []struct {
		name   string
		aspect board.Aspect
		opts   Options
		w, h   int
		over   func(n board.Frame) picture.Burn
	}{
		{"whole", board.Aspect{}, Options{Height: 108}, 192, 108, nil},
		{"a part", board.Aspect{}, Options{Height: 108, From: 14, To: 43}, 192, 108, nil},
		{"upright", board.Aspect{W: 9, H: 16}, Options{Height: 192, From: 3}, 108, 192, nil},
		{"wide in bars", board.Aspect{W: 239, H: 100}, Options{Width: 192, Height: 108, To: 20}, 192, 108, nil},
		{"words over a part", board.Aspect{}, Options{Height: 360, From: 10, To: 32, Burn: Burn{Words: board.BurnIn{Timecode: true, Number: true}, Mark: "черновик", Safe: true}}, 640, 360,
			func(n board.Frame) picture.Burn {
				return picture.Burn{Panel: fmt.Sprintf("panel %d", n/12+1), Place: fmt.Sprintf("00:00:%02d:%02d", n/24, n%24), Mark: "черновик", Safe: true}
			}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			b, pics := lively(t, tt.aspect), picture.NewCache(cards{}, 0)
			path := filepath.Join(t.TempDir(), "film.mp4")
			opts := tt.opts
			opts.Quality = mp4.Fine
			if err := MP4(t.Context(), path, b, pics, nil, opts); err != nil {
				t.Fatal(err)
			}
			to := opts.To
			if to == 0 {
				to = b.Frames()
			}
			frames := decodedFrames(t, path, tt.w, tt.h)
			if len(frames) != int(to-opts.From) {
				t.Fatalf("%d frames, want %d", len(frames), to-opts.From)
			}
			for k, got := range frames {
				n := opts.From + board.Frame(k)
				var over picture.Burn
				if tt.over != nil {
					over = tt.over(n)
				}
				want := seen(t, b, pics, n, tt.w, tt.h, over)
				d, light := apart(got, want), lightApart(got, want)
				if d > 6 || light > 2.5 { // colour has half the resolution
					t.Errorf("frame %d is %.1f levels off, %.1f in light", n, d, light)
				}
				if tt.over != nil && lightApart(got, seen(t, b, pics, n, tt.w, tt.h, tt.over(n+1))) <= light {
					t.Errorf("frame %d has words of another", n)
				}
			}
		})
	}
}

// A wrong picture is seen by the measure of the test above.
func TestApartTellsFramesApart(t *testing.T) {
	b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
	whole := seen(t, b, pics, 3, 640, 360, picture.Burn{})
	for name, d := range map[string]float64{
		"the next panel": lightApart(whole, seen(t, b, pics, 13, 640, 360, picture.Burn{})),
		"a mark":         lightApart(whole, seen(t, b, pics, 3, 640, 360, picture.Burn{Mark: "черновик"})),
		"a timecode":     lightApart(whole, seen(t, b, pics, 3, 640, 360, picture.Burn{Place: "00:00:00:03"})),
	} {
		if d <= 4 { // the test above allows 2.5
			t.Errorf("%s is only %.1f levels off", name, d)
		}
	}
}

// Every size is what players expect: even sides of the film's shape, its level,
// BT.709, one picture each frame, the index first, sound and picture from 0 on.
func TestMP4Sizes(t *testing.T) {
	upright, scope := board.Aspect{W: 9, H: 16}, board.Aspect{W: 239, H: 100}
	tests := []struct {
		aspect      board.Aspect
		height      int
		w, h, level int // levels: ISO/IEC 14496-10, table A-1
	}{
		{board.Aspect{}, 480, 854, 480, 30}, {board.Aspect{}, 720, 1280, 720, 31}, {board.Aspect{}, 1080, 1920, 1080, 40},
		{board.Aspect{}, 1440, 2560, 1440, 50}, {board.Aspect{}, 2160, 3840, 2160, 51},
		{upright, 1080, 608, 1080, 31}, {scope, 1080, 1920, 804, 40}, {upright, 0, 720, 1280, 31}, {board.Aspect{}, 0, 1280, 720, 31},
		{board.Aspect{W: 4, H: 3}, 1080, 1440, 1080, 40}, {board.Aspect{W: 1, H: 1}, 1080, 1080, 1080, 32},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprintf("%s at %d", tt.aspect, tt.height), func(t *testing.T) {
			b := withSong(lively(t, tt.aspect), 0)
			path := filepath.Join(t.TempDir(), "film.mp4")
			if err := MP4(t.Context(), path, b, picture.NewCache(cards{}, 0), click(), Options{Height: tt.height, From: 20, To: 23}); err != nil {
				t.Fatal(err)
			}
			var p struct {
				Streams []struct {
					Kind     string `json:"codec_type"`
					W        int    `json:"width"`
					H        int    `json:"height"`
					Level    int
					Space    string `json:"color_space"`
					Transfer string `json:"color_transfer"`
					Primary  string `json:"color_primaries"`
					Range    string `json:"color_range"`
					Rate     string `json:"r_frame_rate"`
					Average  string `json:"avg_frame_rate"`
					Frames   string `json:"nb_frames"`
					Start    string `json:"start_time"`
				}
				Format struct{ Duration string }
			}
			if err := json.Unmarshal(tool(t, "ffprobe", "-v", "error", "-show_streams", "-show_format", "-of", "json", path), &p); err != nil {
				t.Fatal(err)
			}
			if len(p.Streams) != 2 || p.Format.Duration != "0.125000" {
				t.Fatalf("%d tracks in %s s, want 2 in 0.125", len(p.Streams), p.Format.Duration)
			}
			got := fmt.Sprint(p.Streams[0])
			want := fmt.Sprintf("{video %d %d %d bt709 bt709 bt709 tv 24/1 24/1 3 0.000000}", tt.w, tt.h, tt.level)
			if got != want {
				t.Errorf("the picture track is %s, want %s", got, want)
			}
			if s := p.Streams[1]; s.Kind != "audio" || s.Start != "0.000000" {
				t.Errorf("the sound track is %+v, want it from 0 on", s)
			}
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if index, media := bytes.Index(data, []byte("moov")), bytes.Index(data, []byte("mdat")); index < 0 || index > media {
				t.Errorf("the index is at %d, the media at %d", index, media)
			}
		})
	}
}

// At the time of each frame the GIF shows what the film shows then, within what
// 256 colours allow, and it ends when the film does.
func TestGIFIsTheFilm(t *testing.T) {
	for _, rate := range []board.FrameRate{{Num: 24, Den: 1}, {Num: 30000, Den: 1001}, {Num: 12, Den: 1}} {
		for _, part := range []board.Span{{}, {Start: 7, End: 20}} {
			b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
			b = edited(t, b, board.SetRate(rate))
			path := filepath.Join(t.TempDir(), "film.gif")
			if err := GIF(t.Context(), path, b, pics, Options{Width: 128, From: part.Start, To: part.End, Silent: true}); err != nil {
				t.Fatal(err)
			}
			f, err := os.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			g, err := gif.DecodeAll(f)
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			if part.End == 0 {
				part.End = b.Frames()
			}
			shown := composed(g)
			whole := 0
			for _, d := range g.Delay {
				whole += d
			}
			if want := int(math.Round(100 * rate.Seconds(part.Len()))); whole != want {
				t.Errorf("%s fps: it lasts %d hundredths, want %d", rate, whole, want)
			}
			for n := part.Start; n < part.End; n++ {
				// The middle of the frame, where both are steady.
				at := 100 * (rate.Seconds(n-part.Start) + rate.Seconds(1)/2)
				k, end := 0, g.Delay[0]
				for float64(end) <= at {
					k++
					end += g.Delay[k]
				}
				if d := apart(shown[k], seen(t, b, pics, n, 128, 72, picture.Burn{})); d > 4 {
					t.Errorf("%s fps, frame %d is %.1f levels off", rate, n, d)
				}
			}
		}
	}
}

// Sizes of GIFs where none is asked for.
func TestGIFSize(t *testing.T) {
	for aspect, want := range map[board.Aspect]string{{}: "640x360", {W: 9, H: 16}: "360x640", {W: 1, H: 1}: "640x640"} {
		b := lively(t, aspect)
		path := filepath.Join(t.TempDir(), "film.gif")
		if err := GIF(t.Context(), path, b, picture.NewCache(cards{}, 0), Options{To: 2}); err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		c, err := gif.DecodeConfig(bytes.NewReader(data))
		if got := fmt.Sprintf("%dx%d", c.Width, c.Height); err != nil || got != want {
			t.Errorf("a film of %s is %s, %v; want %s", aspect, got, err, want)
		}
	}
}

// What is guessed for a film is what it takes.
func TestEstimateIsNearTheFile(t *testing.T) {
	b, pics := withSong(lively(t, board.Aspect{}), 0), picture.NewCache(cards{}, 0)
	for _, opts := range []Options{{Height: 180}, {Height: 360, Quality: mp4.Fine}, {Height: 180, Silent: true, From: 12, Burn: Burn{Words: board.BurnIn{Frame: true}}}} {
		g, err := Estimate(t.Context(), b, pics, nil, opts)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "film.mp4")
		if err := MP4(t.Context(), path, b, pics, click(), opts); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		// A song of a second under two seconds of film: silence takes less.
		if off := math.Abs(float64(info.Size() - g.Bytes)); off > float64(g.Within)+20000 {
			t.Errorf("%+v: %d bytes, guessed %d within %d", opts, info.Size(), g.Bytes, g.Within)
		}
	}
}

func TestSizeOf(t *testing.T) {
	// Sizes at height 1080 and width 1920 are arithmetic on the shape, to the
	// nearest even number.
	for _, tt := range []struct {
		aspect       board.Aspect
		height, w, h int
	}{
		{board.Aspect{}, 480, 854, 480}, {board.Aspect{}, 2160, 3840, 2160}, {board.Aspect{}, 481, 856, 482},
		{board.Aspect{W: 4, H: 3}, 1080, 1440, 1080}, {board.Aspect{W: 9, H: 16}, 1080, 608, 1080},
		{board.Aspect{W: 185, H: 100}, 1080, 1920, 1038}, {board.Aspect{W: 239, H: 100}, 1080, 1920, 804},
	} {
		if w, h := SizeOf(tt.aspect, tt.height); w != tt.w || h != tt.h {
			t.Errorf("%s at %d is %dx%d, want %dx%d", tt.aspect, tt.height, w, h, tt.w, tt.h)
		}
	}
}

// Parts that are not there are refused, and leave nothing.
func TestPartsOutsideTheFilm(t *testing.T) {
	b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
	dir := t.TempDir()
	for _, part := range []board.Span{{Start: -1, End: 4}, {Start: 4, End: 4}, {Start: 9, End: 4}, {Start: 0, End: 49}, {Start: 48}} {
		opts := Options{From: part.Start, To: part.End, Height: 36}
		for name, err := range map[string]error{
			"mp4":    MP4(t.Context(), dir+"/a.mp4", b, pics, nil, opts),
			"gif":    GIF(t.Context(), dir+"/a.gif", b, pics, opts),
			"panels": Panels(t.Context(), dir+"/a", b, pics, opts, false),
			"wav":    WAV(t.Context(), dir+"/a.wav", withSong(b, 0), click(), opts),
		} {
			if err == nil || !strings.Contains(err.Error(), "the film has 48") {
				t.Errorf("%s of %v: error %v", name, part, err)
			}
		}
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// Every export can be stopped, and leaves nothing then.
func TestStoppedExports(t *testing.T) {
	b, pics := withSong(lively(t, board.Aspect{}), 0), picture.NewCache(cards{}, 0)
	dir := t.TempDir()
	for name, write := range map[string]func(context.Context, Options) error{
		"mp4": func(ctx context.Context, o Options) error { return MP4(ctx, dir+"/a.mp4", b, pics, click(), o) },
		"under": func(ctx context.Context, o Options) error {
			o.Under = 40000
			return MP4(ctx, dir+"/a.mp4", b, pics, click(), o)
		},
		"gif":    func(ctx context.Context, o Options) error { return GIF(ctx, dir+"/a.gif", b, pics, o) },
		"panels": func(ctx context.Context, o Options) error { return Panels(ctx, dir+"/a", b, pics, o, false) },
		"frames": func(ctx context.Context, o Options) error { return Frames(ctx, dir+"/a", b, pics, o, false) },
		"wav":    func(ctx context.Context, o Options) error { return WAV(ctx, dir+"/a.wav", b, click(), o) },
	} {
		ctx, cancel := context.WithCancel(t.Context())
		err := write(ctx, Options{Height: 36, Progress: func(float64) { cancel() }})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%s: error %v, want that it was stopped", name, err)
		}
		if left, _ := os.ReadDir(dir); len(left) > 0 {
			t.Errorf("%s left %v behind", name, left)
		}
	}
}

func TestLeft(t *testing.T) {
	for _, tt := range []struct {
		done  float64
		after time.Duration
		want  time.Duration // 0: it cannot be told
	}{
		{0.25, 10 * time.Second, 30 * time.Second}, {0.5, 2 * time.Second, 2 * time.Second},
		{0.01, time.Minute, 0}, {0.5, time.Second / 2, 0}, {1, time.Minute, 0}, {math.NaN(), time.Minute, 0},
	} {
		if got, known := Left(tt.done, tt.after); got != tt.want || known != (tt.want > 0) {
			t.Errorf("%.2f done after %v: %v left, %v; want %v", tt.done, tt.after, got, known, tt.want)
		}
	}
}
