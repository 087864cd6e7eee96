package lists

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestSubtitlesGolden(t *testing.T) {
	b := teaFilm(t)
	srt, err := SubRip(b)
	must(t, err)
	golden(t, "tea.srt", srt)
	vtt, err := WebVTT(b)
	must(t, err)
	golden(t, "tea.vtt", vtt)
}

func TestSubtitlesOfASilentFilm(t *testing.T) {
	b := filmOf(fps(24), 0, 10)
	b.Panels[0].Sound = " \r\n\t"
	for name, write := range map[string]func(board.Board) ([]byte, error){"SubRip": SubRip, "WebVTT": WebVTT} {
		if out, err := write(b); !errors.Is(err, ErrNoWords) || len(out) > 0 {
			t.Errorf("%s: %v and %q", name, err, out)
		}
	}
}

// Each time is that of its frame to the nearest millisecond, halves upwards.
// Seconds of the frames from trade.md 1.2 [C], frame lengths from 1.1 [C].
func TestSubtitleTimes(t *testing.T) {
	ntsc, film := board.FrameRate{Num: 30000, Den: 1001}, board.FrameRate{Num: 24000, Den: 1001}
	tests := []struct {
		rate board.FrameRate
		f    board.Frame
		want string
	}{
		{ntsc, 1799, "00:01:00,027"}, // 60.026633
		{ntsc, 1800, "00:01:00,060"},
		{ntsc, 17982, "00:09:59,999"},    // 599.9994
		{ntsc, 107892, "00:59:59,996"},   // 3599.9964
		{ntsc, 1084319, "10:03:00,111"},  // 36180.110633
		{film, 1, "00:00:00,042"},        // 41.708333 ms
		{fps(24), 1, "00:00:00,042"},     // 41.6667 ms
		{fps(12), 1, "00:00:00,083"},     // 83.3333 ms
		{fps(15), 2, "00:00:00,133"},     // 2 x 66.6667 ms
		{fps(16), 1, "00:00:00,063"},     // 62.5 ms
		{fps(120), 1, "00:00:00,008"},    // 8.3333 ms
		{fps(24), 86400, "01:00:00,000"}, // an hour
	}
	for _, tt := range tests {
		if got := clock(tt.rate, tt.f, ','); got != tt.want {
			t.Errorf("frame %d at %s: %s, want %s", tt.f, tt.rate, got, tt.want)
		}
	}
}

// FFmpeg reads both forms to the same words at the same times, and shows the
// signs that are commands in them.
func TestSubtitlesAsFFmpegReadsThem(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Fatal("ffmpeg is needed to check what was written: make test installs it")
	}
	b := teaFilm(t)
	want := []string{
		"0:00:00.00,0:00:02.00|Anyone?\\NNo one.",
		"0:00:02.00,0:00:05.00|<clink> & --> {\\an8}",
		"0:00:07.00,0:00:10.00|おしまい",
	}
	for ext, write := range map[string]func(board.Board) ([]byte, error){"srt": SubRip, "vtt": WebVTT} {
		text, err := write(b)
		must(t, err)
		path := filepath.Join(t.TempDir(), "tea."+ext)
		must(t, os.WriteFile(path, text, 0o644))
		out, err := exec.Command("ffmpeg", "-v", "error", "-i", path, "-f", "ass", "-").CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v: %s", ext, err, out)
		}
		var got []string
		for line := range strings.Lines(string(out)) {
			if fields := strings.SplitN(strings.TrimRight(line, "\r\n"), ",", 10); len(fields) == 10 && strings.HasPrefix(line, "Dialogue:") {
				words := strings.ReplaceAll(fields[9], zero, "")
				words = strings.NewReplacer(`\{`, "{", `\}`, "}").Replace(words) // as that form writes braces
				got = append(got, fields[1]+","+fields[2]+"|"+words)
			}
		}
		if strings.Join(got, "\n") != strings.Join(want, "\n") {
			t.Errorf("%s is read as\n%s\nwant\n%s", ext, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
}
