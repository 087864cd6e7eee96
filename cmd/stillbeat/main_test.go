package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/assets/demo"
	"stillbeat/audio/clip"
	"stillbeat/audio/wav"
	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/ui"
)

var update = flag.Bool("update", false, "rewrite golden files")

// result is what one command line did.
type result struct {
	code     int
	out, err string
	opened   []string // films the window was opened on
}

// runner runs command lines in a folder of its own.
type runner struct {
	ear      desk.Ear
	story    *story // nil: a short one
	display  bool
	inWindow func(ui.Options) // what the user does there
	out      io.Writer        // in place of the collected standard output
	ctx      context.Context
}

// inTemp moves the test into an empty folder, with an empty cache, so that
// names in messages and goldens are short and scratch films can be counted.
func inTemp(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	cache := t.TempDir()
	t.Setenv("XDG_CACHE_HOME", cache)
	t.Setenv("HOME", cache)
	t.Cleanup(func() {
		left, _ := filepath.Glob(filepath.Join(cache, "stillbeat", "*"))
		if len(left) > 0 {
			t.Errorf("scratch files are left behind: %v", left)
		}
	})
}

func (r runner) run(t *testing.T, args ...string) result {
	t.Helper()
	var out, errOut bytes.Buffer
	var res result
	a := &app{
		out: &out, errOut: &errOut, ear: r.ear, story: shortStory(),
		display: func() bool { return r.display },
		window: func(o ui.Options) error {
			res.opened = append(res.opened, o.Film)
			if r.inWindow != nil {
				r.inWindow(o)
			}
			return nil
		},
	}
	if r.story != nil {
		a.story = *r.story
	}
	if r.ear == nil {
		a.ear = ear{}
	}
	if r.out != nil {
		a.out = r.out
	}
	if r.ctx == nil {
		r.ctx = t.Context()
	}
	res.code = run(r.ctx, a, args)
	res.out, res.err = out.String(), errOut.String()
	return res
}

// must runs a command line that is to succeed without a complaint and returns
// its standard output.
func must(t *testing.T, args ...string) string {
	t.Helper()
	return runner{}.must(t, args...)
}

func (r runner) must(t *testing.T, args ...string) string {
	t.Helper()
	res := r.run(t, args...)
	if res.code != exitDone || res.err != "" {
		t.Fatalf("stillbeat %s: exit status %d, %s", strings.Join(args, " "), res.code, res.err)
	}
	return res.out
}

// golden compares got with testdata/name of the package's folder.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(packageDir, "testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs (go test -update rewrites it)\ngot:\n%s\nwant:\n%s", name, got, want)
	}
}

// packageDir is where the tests were started.
var packageDir, _ = os.Getwd()

// writeSong writes a WAV of clicks at the given seconds, louder where a bar
// starts, lasting until the given second.
func writeSong(t *testing.T, name string, length float64, clicks, downbeats []float64) {
	t.Helper()
	const rate = 44100
	samples := make([]float32, int(length*rate))
	bar := make(map[float64]bool)
	for _, d := range downbeats {
		bar[d] = true
	}
	for _, at := range clicks {
		pitch, gain := 800.0, 0.4
		if bar[at] {
			pitch, gain = 1600, 0.9
		}
		for i := range 2205 {
			if k := int(math.Round(at*rate)) + i; k < len(samples) {
				samples[k] += float32(gain * math.Exp(-float64(i)/400) * math.Sin(2*math.Pi*pitch*float64(i)/rate))
			}
		}
	}
	var out bytes.Buffer
	if err := wav.Encode(&out, &clip.Clip{Rate: rate, Samples: [][]float32{samples}}); err != nil {
		t.Fatal(err)
	}
	write(t, name, out.Bytes())
}

// clicks returns n times, one each period seconds from first on.
func clicks(first, period float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = first + float64(i)*period
	}
	return out
}

// everyNth returns each n-th of times, from the first on.
func everyNth(times []float64, n int) []float64 {
	var out []float64
	for i := 0; i < len(times); i += n {
		out = append(out, times[i])
	}
	return out
}

// shortStory stands in for the demo film, whose pictures take seconds to draw
// and have tests of their own.
func shortStory() story {
	return story{
		panels: []demo.Panel{{Title: "One", Beats: 2}, {Title: "Two", Start: 2, Beats: 2}},
		beats:  clicks(0.25, 0.5, 5),
		draw:   flat,
		tune:   func() ([][]float32, int) { return [][]float32{make([]float32, 8000)}, 8000 },
	}
}

func flat(panel int) *image.RGBA { return filled(color.Gray{Y: uint8(40 + 10*panel)}) }

func filled(c color.Color) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 160, 90))
	draw.Draw(img, img.Bounds(), image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

// writePicture writes a flat PNG picture.
func writePicture(t *testing.T, name string, c color.Color) {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, filled(c)); err != nil {
		t.Fatal(err)
	}
	write(t, name, out.Bytes())
}

func write(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// names lists the current folder.
func names(t *testing.T) []string {
	t.Helper()
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// tool runs ffmpeg or ffprobe and returns what it prints.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is needed to check what was written: make test installs it", name)
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return string(out)
}

// knownEar hears the same song in every file: 12 seconds of stereo at 120
// beats a minute in three, after an upbeat of a beat.
type knownEar struct{}

func (knownEar) Hear(_ context.Context, song desk.SongFile, _ desk.Wish, _ desk.Progress) (*desk.Heard, error) {
	if song.Data == nil {
		var err error
		if song.Data, err = os.ReadFile(song.Path); err != nil {
			return nil, err
		}
	}
	if bytes.HasPrefix(song.Data, []byte("noise")) {
		return nil, fmt.Errorf("open song %q: not a sound", song.Name)
	}
	beats := clicks(0.25, 0.5, 23)
	g := board.NewGrid(beats, everyNth(beats[1:], 3))
	g.Tempo, g.Confidence, g.Metre = 120, 0.875, 3
	g.Onsets = []board.Onset{{Time: 0.1234567, Strength: 0.5}, {Time: 0.25, Strength: 1}, {Time: 3.5, Strength: 0.5}, {Time: 7.2, Strength: 0.5}, {Time: 11.9, Strength: 0.25}}
	return &desk.Heard{Rate: 8000, Channels: 2, Seconds: 12, Title: "Kettle\x1b[31m Waltz", Waveform: []byte("~"), Grid: g, Sound: silence{}}, nil
}

// silence is twelve seconds of stereo in which there is nothing.
type silence struct{}

func (silence) Rate() int     { return 8000 }
func (silence) Channels() int { return 2 }
func (silence) Len() int      { return 12 * 8000 }
func (silence) Read(dst [][]float32, _ int) {
	for _, ch := range dst {
		clear(ch)
	}
}

// probed is what ffprobe tells of a video.
type probed struct {
	Streams []struct {
		Kind   string `json:"codec_type"`
		Rate   string `json:"r_frame_rate"`
		Frames int64  `json:"nb_read_frames,string"`
		Width  int    `json:"width"`
		Height int    `json:"height"`
	} `json:"streams"`
	Format struct {
		Duration float64 `json:"duration,string"`
	} `json:"format"`
}

func (p probed) kinds() []string {
	var out []string
	for _, s := range p.Streams {
		out = append(out, s.Kind)
	}
	return out
}

// probe has ffprobe decode a video and count its frames.
func probe(t *testing.T, path string) probed {
	t.Helper()
	var p probed
	out := tool(t, "ffprobe", "-v", "error", "-count_frames", "-show_streams", "-show_format", "-of", "json", path)
	if err := json.Unmarshal([]byte(out), &p); err != nil {
		t.Fatal(err)
	}
	if len(p.Streams) == 0 {
		t.Fatalf("%s holds nothing", path)
	}
	return p
}
