package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"stillbeat/assets/demo"
	"stillbeat/audio/clip"
	"stillbeat/audio/wav"
	"stillbeat/board/desk"
)

// BenchmarkImport measures the whole way from a song of three minutes on disk
// to its beats and its waveform. Where aubio, a general-purpose tracker, is
// installed, the ratio to its wall time on the same file is printed too.
func BenchmarkImport(b *testing.B) {
	song := threeMinutes(b)
	for _, format := range []string{"wav", "flac", "mp3", "ogg"} {
		b.Run(format, func(b *testing.B) {
			path := converted(b, song, format)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := desk.NewSong(context.Background(), path, ear{}, desk.Wish{}, nil); err != nil {
					b.Fatal(err)
				}
			}
			if aubio := aubioSeconds(b, path); aubio > 0 {
				b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/aubio, "x-aubio")
			}
		})
	}
}

// threeMinutes writes the demo's tune over and over as a WAV file.
func threeMinutes(b *testing.B) string {
	tune, rate := demo.Tune()
	c := &clip.Clip{Rate: rate, Samples: make([][]float32, len(tune))}
	for i, ch := range tune {
		for len(c.Samples[i]) < 180*rate {
			c.Samples[i] = append(c.Samples[i], ch...)
		}
		c.Samples[i] = c.Samples[i][:180*rate]
	}
	path := filepath.Join(b.TempDir(), "song.wav")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	if err := wav.Encode(f, c); err != nil {
		b.Fatal(err)
	}
	return path
}

func converted(b *testing.B, song, format string) string {
	if format == "wav" {
		return song
	}
	path := filepath.Join(b.TempDir(), "song."+format)
	if out, err := exec.Command("ffmpeg", "-loglevel", "error", "-i", song, path).CombinedOutput(); err != nil {
		b.Fatalf("ffmpeg, which make test installs: %v: %s", err, out)
	}
	return path
}

// aubioSeconds returns the wall time of "aubio tempo" on a file, the best of
// three, and 0 where it is not installed.
func aubioSeconds(b *testing.B, path string) float64 {
	if _, err := exec.LookPath("aubio"); err != nil {
		return 0
	}
	best := 0.0
	for range 3 {
		start := time.Now()
		if err := exec.Command("aubio", "tempo", path).Run(); err != nil {
			return 0
		}
		if s := time.Since(start).Seconds(); best == 0 || s < best {
			best = s
		}
	}
	return best
}
