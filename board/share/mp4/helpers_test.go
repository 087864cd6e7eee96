package mp4

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"testing"
)

// drawing returns a picture of its own for each number: a gradient of two
// colours, strokes one to three pixels wide as letters have them, and the
// number as a row of 16 black and white squares.
func drawing(w, h int, number int64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	hue := float64(number) * 2.4
	for y := range h {
		for x := range w {
			fx, fy := float64(x)/float64(w), float64(y)/float64(h)
			c := color.RGBA{
				R: uint8(128 + 90*math.Sin(hue+2*fx)),
				G: uint8(128 + 90*math.Sin(hue+2+2*fy)),
				B: uint8(128 + 90*math.Sin(hue+4+fx+fy)),
				A: 255,
			}
			if y > h/2 && y < h*3/4 && x > w/8 && x < w*7/8 {
				c = color.RGBA{245, 240, 228, 255} // paper with strokes
				if (x+y/3)%23 < 1+y%3 || y%31 < 2 && x%17 < 11 {
					c = color.RGBA{30, 28, 34, 255}
				}
			}
			img.SetRGBA(x, y, c)
		}
	}
	side := max(1, min(w/20, h/8))
	for bit := range 16 {
		v := uint8(0)
		if number>>bit&1 == 1 {
			v = 255
		}
		for y := side; y < 2*side; y++ {
			for x := side * (bit + 2); x < side*(bit+3); x++ {
				img.SetRGBA(x, y, color.RGBA{v, v, v, 255})
			}
		}
	}
	return img
}

// drawnFilm is a silent film of one cut whose pictures are the drawings of
// their frames, each of which is drawn once and kept.
func drawnFilm(w, h int, num, den, frames int64) Film {
	kept := map[int64]*image.RGBA{}
	return Film{
		Num: num, Den: den, Frames: frames, Width: w, Height: h, Cuts: []int64{0},
		Picture: func(_ context.Context, frame int64) (*image.RGBA, error) {
			if kept[frame] == nil {
				kept[frame] = drawing(w, h, frame)
			}
			return kept[frame], nil
		},
	}
}

// flat is a picture of one colour.
func flat(w, h int, c color.RGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := 0; i < 4*w; i += 4 {
		copy(img.Pix[i:], []uint8{c.R, c.G, c.B, c.A})
	}
	for y := 1; y < h; y++ {
		copy(img.Pix[y*img.Stride:], img.Pix[:4*w])
	}
	return img
}

// flatColour is the colour of frame n in a flat film.
func flatColour(n int64) color.RGBA {
	return color.RGBA{uint8(40 + n*37%180), uint8(200 - n*53%170), uint8(90 + n*91%120), 255}
}

// flatFilm is a silent film of one cut whose pictures are flat.
func flatFilm(w, h int, num, den, frames int64) Film {
	film := Film{Num: num, Den: den, Frames: frames, Width: w, Height: h, Cuts: []int64{0}}
	film.Picture = func(_ context.Context, frame int64) (*image.RGBA, error) {
		return flat(w, h, flatColour(frame)), nil
	}
	return film
}

// distance is the largest difference of the three values.
func distance(got []byte, want color.RGBA) int {
	d := 0
	for i, v := range []uint8{want.R, want.G, want.B} {
		d = max(d, int(got[i])-int(v), int(v)-int(got[i]))
	}
	return d
}

// everyNth lists each nth frame.
func everyNth(frames, n int64) (cuts []int64) {
	for f := int64(0); f < frames; f += n {
		cuts = append(cuts, f)
	}
	return cuts
}

// noise returns soft noise that is the same each time.
// plain is a sound in memory.
type plain struct {
	rate    int
	samples [][]float32
}

func (p plain) Rate() int     { return p.rate }
func (p plain) Channels() int { return len(p.samples) }
func (p plain) Read(dst [][]float32, at int) {
	for ch, out := range dst {
		for i := range out {
			out[i] = 0
			if k := at + i; k >= 0 && k < len(p.samples[ch]) {
				out[i] = p.samples[ch][k]
			}
		}
	}
}

func noise(channels, n int) [][]float32 {
	rnd := rand.New(rand.NewPCG(1, 2))
	out := make([][]float32, channels)
	for c := range out {
		out[c] = make([]float32, n)
		for i := range out[c] {
			out[c][i] = 0.2 * (2*rnd.Float32() - 1)
		}
	}
	return out
}

func newPicture(w, h int) *image.YCbCr {
	return image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
}

// written writes the film into a folder of its own and returns the file's path.
func written(t testing.TB, film Film, opts Options) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "film.mp4")
	if err := Write(t.Context(), path, film, opts); err != nil {
		t.Fatal(err)
	}
	return path
}

// tool runs ffmpeg or ffprobe and returns its output. Both must be silent on
// standard error: a warning about our file is a failure.
func tool(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("this test compares with %s, which is not installed: install ffmpeg", name)
	}
	cmd := exec.Command(name, append([]string{"-v", "warning"}, args...)...)
	var out, complaints bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil || complaints.Len() > 0 {
		t.Fatalf("%s %v: %v\n%s", name, args, err, &complaints)
	}
	return out.Bytes()
}

// probed is what ffprobe says of a file.
type probed struct {
	Streams []stream
	Format  struct {
		Duration  string
		StartTime string `json:"start_time"`
	}
}

type stream struct {
	CodecName      string `json:"codec_name"`
	Profile        string
	Level          int
	Width, Height  int
	PixFmt         string `json:"pix_fmt"`
	ColorRange     string `json:"color_range"`
	ColorSpace     string `json:"color_space"`
	ColorTransfer  string `json:"color_transfer"`
	ColorPrimaries string `json:"color_primaries"`
	AspectRatio    string `json:"sample_aspect_ratio"`
	RFrameRate     string `json:"r_frame_rate"`
	AvgFrameRate   string `json:"avg_frame_rate"`
	NbFrames       string `json:"nb_frames"`
	TimeBase       string `json:"time_base"`
	StartTime      string `json:"start_time"`
	Duration       string
	DurationTS     int64  `json:"duration_ts"`
	SampleRate     string `json:"sample_rate"`
	Channels       int
}

func probe(t testing.TB, path string) probed {
	t.Helper()
	var p probed
	out := tool(t, "ffprobe", "-show_streams", "-show_format", "-of", "json", path)
	if err := json.Unmarshal(out, &p); err != nil {
		t.Fatal(err)
	}
	return p
}

// decode decodes every frame to RGB, 3 bytes a pixel, by the file's own
// colour tags.
func decode(t testing.TB, path string, w, h int) [][]byte {
	t.Helper()
	out := tool(t, "ffmpeg", "-i", path, "-map", "0:v", "-fps_mode", "passthrough",
		"-sws_flags", "bicubic+accurate_rnd+full_chroma_int", "-f", "rawvideo", "-pix_fmt", "rgb24", "-")
	size := 3 * w * h
	if len(out)%size != 0 {
		t.Fatalf("%d bytes are no whole number of frames of %d", len(out), size)
	}
	var all [][]byte
	for ; len(out) > 0; out = out[size:] {
		all = append(all, out[:size])
	}
	return all
}

// heard decodes the sound to left samples, -1..1, as a player hears it from
// time 0 on.
func heard(t testing.TB, path string) []float64 {
	t.Helper()
	out := tool(t, "ffmpeg", "-i", path, "-map", "0:a", "-f", "s16le", "-")
	samples := make([]float64, len(out)/4)
	for i := range samples {
		samples[i] = float64(int16(uint16(out[4*i])|uint16(out[4*i+1])<<8)) / 32768
	}
	return samples
}

// psnr compares a decoded frame with the picture it was made of, in decibels.
func psnr(got []byte, want *image.RGBA) float64 {
	sum := 0.0
	for i, v := range got {
		d := float64(v) - float64(want.Pix[i/3*4+i%3])
		sum += d * d
	}
	return 10 * math.Log10(255*255*float64(len(got))/max(sum, 1e-9))
}

// drawnNumber reads the number that drawing put into a frame.
func drawnNumber(frame []byte, w, h int) (number int64) {
	side := max(1, min(w/20, h/8))
	for bit := range 16 {
		x, y := side*(bit+2)+side/2, side+side/2
		if frame[3*(y*w+x)+1] > 127 {
			number |= 1 << bit
		}
	}
	return number
}
