package mp4

import (
	"context"
	"path/filepath"
	"testing"
)

// BenchmarkMinute writes a minute of 40 panels at 1280x720 and 24 frames per
// second with sound.
func BenchmarkMinute(b *testing.B) {
	film := drawnFilm(1280, 720, 24, 1, 60*24)
	film.Cuts = everyNth(film.Frames, 36)
	drawAll(film)
	film.Sound = &Sound{Samples: plain{44100, noise(2, 60*44100)}}
	path := filepath.Join(b.TempDir(), "film.mp4")
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(b.Context(), path, film, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(60/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
}

// BenchmarkMoving writes ten seconds in which every frame differs.
func BenchmarkMoving(b *testing.B) {
	film := drawnFilm(1280, 720, 24, 1, 240)
	film.Cuts = everyNth(film.Frames, 1)
	drawAll(film)
	path := filepath.Join(b.TempDir(), "film.mp4")
	for b.Loop() {
		if err := Write(b.Context(), path, film, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(10/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
}

func BenchmarkToYCbCr(b *testing.B) {
	src := drawing(1280, 720, 3)
	dst := newPicture(1280, 720)
	b.SetBytes(1280 * 720 * 4)
	for b.Loop() {
		toYCbCr(dst, src, nil)
	}
}

func BenchmarkResample(b *testing.B) {
	sound := &Sound{Samples: plain{22050, noise(2, 22050)}}
	dst := make([]int16, 2*48000)
	b.SetBytes(int64(len(dst)) * 2)
	for b.Loop() {
		newSoundtrack(sound, 48000).read(dst, 0)
	}
}

// drawAll draws the pictures beforehand, so that drawing is not measured.
func drawAll(film Film) {
	for _, cut := range film.Cuts {
		film.Picture(context.Background(), cut)
	}
}
