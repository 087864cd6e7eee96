package mp4

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The sound alone is heard as it is in the film: clicks at their times, for as
// long as the film lasts, whatever its rate. ffmpeg decodes it.
func TestWriteSound(t *testing.T) {
	for _, rate := range []int{44100, 48000, 22050} {
		film := Film{Num: 24000, Den: 1001, Frames: 96} // 4.004 s
		ch := make([]float32, 3*rate)
		at := []float64{0.002, 0.5, 2.5}
		for _, c := range at {
			ch[int(math.Round(c*float64(rate)))] = 0.9
		}
		film.Sound = &Sound{Samples: plain{rate, [][]float32{ch}}, Start: 0.75}
		data, err := WriteSound(context.Background(), film)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "sound.m4a")
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		got, coded := heard(t, path), float64(film.Sound.codedRate())
		if n := float64(len(got)); n < 4.004*coded-1 || n > 4.004*coded+aacFrame {
			t.Errorf("%d Hz: %v samples are heard, want those of 4.004 s at %v Hz", rate, n, coded)
		}
		for _, c := range at {
			want, peak := int((c+0.75)*coded), 0
			for i := want - int(coded/20); i < want+int(coded/20); i++ {
				if peak == 0 || math.Abs(got[i]) > math.Abs(got[peak]) {
					peak = i
				}
			}
			if off := float64(peak-want) / coded; math.Abs(off) > 0.001 || math.Abs(got[peak]) < 0.05 {
				t.Errorf("%d Hz: the click at %v s is heard %v s off, peak %v", rate, c+0.75, off, got[peak])
			}
		}
	}
}

func TestWriteSoundRefuses(t *testing.T) {
	for _, c := range []struct {
		film Film
		says string
	}{
		{Film{Num: 24, Den: 1, Frames: 24}, "share sound: there is no sound"},
		{Film{Num: 24, Den: 1, Sound: &Sound{Samples: plain{44100, [][]float32{{0}}}}}, "a film of 0 frames"},
		{Film{Num: 24, Den: 1, Frames: 24, Sound: &Sound{}}, "the sound has no samples"},
	} {
		if _, err := WriteSound(context.Background(), c.film); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("it says %v, want %q", err, c.says)
		}
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if _, err := WriteSound(stopped, Film{Num: 24, Den: 1, Frames: 240, Sound: &Sound{Samples: plain{44100, [][]float32{{0}}}}}); err == nil {
		t.Error("stopped, it is written all the same")
	}
}
