// Package soundtest makes and compares sounds for the tests of the readers.
// FFmpeg is the oracle: what it decodes, at which sample, is what other
// players play.
package soundtest

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"stillbeat/audio/clip"
)

// Run runs a program and returns its standard output. The test fails if the
// program is missing or fails.
func Run(t testing.TB, stdin []byte, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("this test needs the program %s: install it (make test does)", name)
	}
	cmd := exec.Command(path, args...)
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8") // titles are UTF-8, whatever the locale
	cmd.Stdin = bytes.NewReader(stdin)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, errs.Bytes())
	}
	return out.Bytes()
}

// Song returns a sound with what makes readers differ: a chord, noise, and
// clicks at ClickTimes, different in each channel.
func Song(rate, channels int, seconds float64) *clip.Clip {
	rng := rand.New(rand.NewPCG(7, uint64(rate)))
	c := &clip.Clip{Rate: rate, Samples: make([][]float32, channels)}
	for ch := range c.Samples {
		s := make([]float32, int(seconds*float64(rate)))
		for i := range s {
			at := float64(i) / float64(rate)
			v := 0.1*math.Sin(2*math.Pi*(220+55*float64(ch))*at) + 0.1*math.Sin(2*math.Pi*554.4*at)
			s[i] = float32(v + 0.02*rng.NormFloat64())
		}
		for _, at := range ClickTimes(seconds) {
			for i := range rate / 200 {
				if k := int(at*float64(rate)) + i; k < len(s) {
					s[k] += float32(0.6 * math.Exp(-float64(i)/float64(rate)*1500))
				}
			}
		}
		c.Samples[ch] = s
	}
	return c
}

// ClickTimes returns the times of the clicks in a Song, in seconds.
func ClickTimes(seconds float64) (times []float64) {
	for at := 0.25; at < seconds; at += 0.37 {
		times = append(times, at)
	}
	return times
}

// Encode writes c with FFmpeg into a new file called name, whose extension
// tells the format, and returns its path. args come before the output.
func Encode(t testing.TB, c *clip.Clip, name string, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	in := []string{"-v", "error", "-f", "f32le", "-ar", strconv.Itoa(c.Rate), "-ac", strconv.Itoa(c.Channels()), "-i", "pipe:0"}
	Run(t, interleave(c), "ffmpeg", append(append(in, args...), path)...)
	return path
}

// Collect returns what decode feeds into a sink, nil on an error. It checks
// what every reader promises of its blocks.
func Collect(t testing.TB, decode func(clip.Sink) (clip.Info, error)) (*clip.Clip, error) {
	t.Helper()
	var s collector
	info, err := decode(&s)
	switch {
	case s.fault != "":
		t.Fatal(s.fault)
	case err != nil && info != clip.Info{}:
		t.Fatalf("%+v comes with the error %v", info, err)
	case err != nil:
		return nil, err
	case info.Rate != s.Rate || info.Channels != s.Channels() || info.Len != s.Len():
		t.Fatalf("%+v is told of %d channels of %d samples at %d Hz", info, s.Channels(), s.Len(), s.Rate)
	}
	s.Title = info.Title
	return &s.Clip, nil
}

// collector is a clip that checks what comes.
type collector struct {
	clip.Clip
	begun bool
	fault string
}

func (s *collector) Begin(info clip.Info) error {
	if s.begun {
		s.fault = "a sound begins twice"
	}
	s.begun = true
	return s.Clip.Begin(info)
}

func (s *collector) Add(block [][]float32) error {
	const most = 1 << 16
	if !s.begun || len(block) != s.Channels() || len(block[0]) == 0 || len(block[0]) > most {
		s.fault = "a block comes before the beginning or is of the wrong size"
		return errors.New(s.fault)
	}
	for _, ch := range block {
		if len(ch) != len(block[0]) {
			s.fault = "the channels of a block differ in length"
		}
	}
	return s.Clip.Add(block)
}

// Read returns the content of a file.
func Read(t testing.TB, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Oracle returns what FFmpeg decodes from a file with so many channels.
func Oracle(t testing.TB, data []byte, channels int) [][]float32 {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sound")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	raw := Run(t, nil, "ffmpeg", "-v", "quiet", "-i", path, "-map", "0:a:0", "-f", "f32le", "-c:a", "pcm_f32le", "pipe:1")
	return deinterleave(raw, channels)
}

func interleave(c *clip.Clip) []byte {
	var raw []byte
	for i := range c.Len() {
		for _, ch := range c.Samples {
			raw = binary.LittleEndian.AppendUint32(raw, math.Float32bits(ch[i]))
		}
	}
	return raw
}

func deinterleave(raw []byte, channels int) [][]float32 {
	out := make([][]float32, channels)
	for i := 0; i+4*channels <= len(raw); i += 4 * channels {
		for ch := range out {
			out[ch] = append(out[ch], math.Float32frombits(binary.LittleEndian.Uint32(raw[i+4*ch:])))
		}
	}
	return out
}

// Difference returns the largest and the root mean square difference of two
// sounds over the length they share.
func Difference(a, b [][]float32) (worst, rms float64) {
	sum, n := 0.0, 0
	for ch := range min(len(a), len(b)) {
		for i := range min(len(a[ch]), len(b[ch])) {
			d := math.Abs(float64(a[ch][i]) - float64(b[ch][i]))
			worst, sum, n = max(worst, d), sum+d*d, n+1
		}
	}
	return worst, math.Sqrt(sum / float64(max(n, 1)))
}

// Lag returns by how many samples a is later than b, at most reach either way:
// the shift with the greatest cross-correlation around the first click of a
// Song.
func Lag(a, b []float32, rate, reach int) int {
	const window = 3000
	start := int(ClickTimes(1)[0]*float64(rate)) - window/4
	best, at := math.Inf(-1), 0
	for lag := -reach; lag <= reach; lag++ {
		sum := 0.0
		for i := start; i < min(start+window, len(b), len(a)-lag); i++ {
			if i+lag >= 0 {
				sum += float64(a[i+lag]) * float64(b[i])
			}
		}
		if sum > best {
			best, at = sum, lag
		}
	}
	return at
}
