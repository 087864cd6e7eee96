package gif

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	stdgif "image/gif"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// plain returns a film whose picture at each cut has one colour of its own.
func plain(num, den, frames int64, cuts ...int64) Film {
	return Film{Num: num, Den: den, Frames: frames, Width: 8, Height: 6, Cuts: cuts,
		Picture: func(_ context.Context, n int64) (*image.RGBA, error) {
			img := image.NewRGBA(image.Rect(0, 0, 8, 6))
			draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{byte(n * 37), byte(n * 11), byte(255 - n), 255}), image.Point{}, draw.Src)
			return img, nil
		}}
}

func each(n int64) (cuts []int64) {
	for i := range n {
		cuts = append(cuts, i)
	}
	return cuts
}

// encode writes a film and reads it back with image/gif.
func encode(t testing.TB, f Film, o Options) *stdgif.GIF {
	t.Helper()
	var out bytes.Buffer
	if err := Write(context.Background(), &out, f, o); err != nil {
		t.Fatal(err)
	}
	g, err := stdgif.DecodeAll(&out)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func total(delays []int) (n int) {
	for _, d := range delays {
		n += d
	}
	return n
}

// The delays of a second that changes on every frame: round(100 n/fps) of the
// ends, as trade.md, section 8, lists them.
func TestDelaysOfASecond(t *testing.T) {
	tests := []struct {
		num, den int64
		want     []int // repeated
	}{
		{8, 1, []int{13, 12}}, {12, 1, []int{8, 9, 8}}, {15, 1, []int{7, 6, 7}}, {24, 1, []int{4, 4, 5, 4, 4, 4}}, {25, 1, []int{4}}, {30, 1, []int{3, 4, 3}},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprint(tt.num), func(t *testing.T) {
			g := encode(t, plain(tt.num, tt.den, tt.num, each(tt.num)...), Options{})
			for i, d := range g.Delay {
				if d != tt.want[i%len(tt.want)] {
					t.Fatalf("delays %v, want %v over and over", g.Delay, tt.want)
				}
			}
			if len(g.Delay) != int(tt.num) || total(g.Delay) != 100 {
				t.Errorf("%d pictures in %d hundredths, want %d in 100", len(g.Delay), total(g.Delay), tt.num)
			}
		})
	}
}

func TestTimetable(t *testing.T) {
	tests := []struct {
		name string
		film Film
		want []shown
	}{
		{"a film of one picture", plain(24, 1, 48, 0), []shown{{0, 200}}},
		{"holds end where the film says, not where they add up", plain(24, 1, 240, 0, 7, 14, 21), []shown{{0, 29}, {7, 58}, {14, 88}, {21, 1000}}},
		{"at 60 a second a picture of a hundredth gives way to the next", plain(60, 1, 6, each(6)...), []shown{{0, 2}, {2, 5}, {3, 7}, {5, 10}}},
		{"a picture too short before a long one gives it its place", plain(60, 1, 120, 0, 1, 2), []shown{{0, 2}, {2, 200}}},
		{"a last frame too short takes the place of the one before", plain(100, 1, 5, 0, 2, 4), []shown{{0, 2}, {4, 5}}},
		{"23.976 for ten minutes", plain(24000, 1001, 14386, 0, 7193), []shown{{0, 30001}, {7193, 60002}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.film.timetable(); !slices.Equal(got, tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

// Whatever the rate and the cuts, the file is as long as the film to half a
// hundredth, every picture is up for the least delay, and the last one is the
// film's last.
func TestTimetableKeepsTheLength(t *testing.T) {
	for _, rate := range [][2]int64{{8, 1}, {12, 1}, {24000, 1001}, {24, 1}, {25, 1}, {30000, 1001}, {48, 1}, {60, 1}, {120, 1}, {240, 1}} {
		for frames := int64(5); frames < 400; frames += 7 {
			f := plain(rate[0], rate[1], frames, each(frames)...)
			table := f.timetable()
			long := float64(frames) * 100 * float64(rate[1]) / float64(rate[0])
			if end := float64(table[len(table)-1].end); end > least && math.Abs(end-long) > 0.5 {
				t.Fatalf("%v fps, %d frames: ends at %g, want %.2f", rate, frames, end, long)
			}
			start := int64(0)
			for _, s := range table {
				if s.end-start < least {
					t.Fatalf("%v fps, %d frames: a picture is up for %d", rate, frames, s.end-start)
				}
				start = s.end
			}
			if last := table[len(table)-1].frame; last != frames-1 {
				t.Fatalf("%v fps: ends with frame %d of %d", rate, last, frames)
			}
		}
	}
}

func TestLongHoldIsSeveralPictures(t *testing.T) {
	g := encode(t, plain(8, 1, 8*700, 0, 8*690), Options{Once: true})
	if want := []int{65535, 69000 - 65535, 1000}; !slices.Equal(g.Delay, want) {
		t.Errorf("delays %v, want %v", g.Delay, want)
	}
	if g.LoopCount != -1 {
		t.Errorf("loop count %d, want to be played once", g.LoopCount)
	}
	if again := encode(t, plain(8, 1, 16, 0), Options{}); again.LoopCount != 0 {
		t.Errorf("loop count %d, want for ever", again.LoopCount)
	}
}

// moving draws a film with a ground of many colours over which a bar moves.
func moving(w, h int, frames int64) Film {
	return Film{Num: 24, Den: 1, Frames: frames, Width: w, Height: h, Cuts: each(frames),
		Picture: func(_ context.Context, n int64) (*image.RGBA, error) {
			img := image.NewRGBA(image.Rect(0, 0, w, h))
			for y := range h {
				for x := range w {
					img.SetRGBA(x, y, color.RGBA{byte(200 - x*160/w), byte(60 + y*160/h), byte(90 + (x+y)%64), 255})
				}
			}
			at := int(n) * w / int(frames)
			draw.Draw(img, image.Rect(at, h/3, at+w/8, h/2), image.NewUniform(color.RGBA{168, 65, 47, 255}), image.Point{}, draw.Src)
			return img, nil
		}}
}

// ffmpeg shows each picture of the file as it was drawn, but for the colours
// that 256 cannot hold.
func TestPicturesAsFFmpegShowsThem(t *testing.T) {
	const w, h, frames = 96, 54, 12
	film := moving(w, h, frames)
	var out bytes.Buffer
	if err := Write(context.Background(), &out, film, Options{}); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "a film.gif")
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	raw, err := exec.Command("ffmpeg", "-v", "error", "-i", path, "-fps_mode", "passthrough", "-f", "rawvideo", "-pix_fmt", "rgba", "-").Output()
	if err != nil {
		t.Fatalf("ffmpeg: %v", err)
	}
	if len(raw) != frames*w*h*4 {
		t.Fatalf("ffmpeg shows %d pictures and %d bytes, want %d", len(raw)/(w*h*4), len(raw)%(w*h*4), frames)
	}
	for n := range int64(frames) {
		want, _ := film.Picture(context.Background(), n)
		worst, sum := 0, 0
		for i, v := range raw[int(n)*w*h*4:][:w*h*4] {
			d := int(v) - int(want.Pix[i])
			worst, sum = max(worst, d, -d), sum+max(d, -d)
		}
		if mean := float64(sum) / (w * h * 3); mean > 6 || worst > 48 {
			t.Errorf("frame %d is off by %.1f on average, %d at worst", n, mean, worst)
		}
	}
	length, err := exec.Command("ffprobe", "-v", "error", "-show_entries", "format=duration", "-of", "csv=p=0", path).Output()
	if got := strings.TrimSpace(string(length)); err != nil || got != "0.500000" {
		t.Errorf("ffprobe says %q long (%v), want 0.500000", got, err)
	}
}

func TestOnlyWhatChangesIsWritten(t *testing.T) {
	g := encode(t, moving(96, 54, 12), Options{})
	if g.Image[0].Rect != image.Rect(0, 0, 96, 54) {
		t.Errorf("the first picture covers %v", g.Image[0].Rect)
	}
	for i, m := range g.Image[1:] {
		if m.Rect.Min.Y != 18 || m.Rect.Max.Y != 27 || m.Rect.Dx() > 24 {
			t.Errorf("picture %d covers %v, where only the bar moved", i+1, m.Rect)
		}
	}
}

func TestWhatCannotBeWritten(t *testing.T) {
	good := plain(24, 1, 10, 0, 5)
	change := func(do func(*Film)) Film { f := good; do(&f); return f }
	tests := []struct {
		name string
		film Film
		want string
	}{
		{"no rate", change(func(f *Film) { f.Num = 0 }), "no frame rate"},
		{"no frames", change(func(f *Film) { f.Frames = 0 }), "no picture"},
		{"cuts out of order", change(func(f *Film) { f.Cuts = []int64{0, 5, 5} }), "out of order"},
		{"a cut past the end", change(func(f *Film) { f.Cuts = []int64{0, 10} }), "out of order"},
		{"too wide", change(func(f *Film) { f.Width = 70000 }), "no size of a GIF"},
		{"a picture of another size", change(func(f *Film) { f.Width = 9 }), "measures 8x6, not 9x6"},
		{"a picture that fails", change(func(f *Film) {
			f.Picture = func(context.Context, int64) (*image.RGBA, error) { return nil, errors.New("the lamp went out") }
		}), "frame 0: the lamp went out"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := Write(context.Background(), &bytes.Buffer{}, tt.film, Options{}); err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v, want one with %q", err, tt.want)
			}
		})
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := Write(ctx, &bytes.Buffer{}, good, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

func BenchmarkWrite(b *testing.B) {
	film := moving(640, 360, 24)
	for b.Loop() {
		if err := Write(context.Background(), &bytes.Buffer{}, film, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
