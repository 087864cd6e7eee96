package share

import (
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// minute is a film of 60 s and 40 panels at 24 fps with a song.
func minute() board.Board {
	var at []float64
	for i := range 41 {
		at = append(at, 1.5*float64(i))
	}
	b := withSong(boardOf(board.FrameRate{Num: 24, Den: 1}, at...), 0)
	for i := range b.Panels {
		b.Panels[i].Picture = board.MediaID("c" + string(rune('1'+i%9)))
	}
	b.Song.Seconds = 60
	return b
}

// BenchmarkMinute writes a minute of film at 1280x720 from pictures that are
// not drawn yet.
func BenchmarkMinute(b *testing.B) {
	film, dir := minute(), b.TempDir()
	song := mono(make([]float32, 60*44100))
	for name, opts := range map[string]Options{
		"plain": {}, "numbers": {Burn: Burn{Words: board.BurnIn{Number: true}}}, "timecode": {Burn: Burn{Words: board.BurnIn{Timecode: true}}},
		"under 1 MB": {Under: 1e6},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := MP4(b.Context(), filepath.Join(dir, "film.mp4"), film, picture.NewCache(cards{}, 0), song, opts); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(60/(b.Elapsed().Seconds()/float64(b.N)), "x-real-time")
		})
	}
}

func BenchmarkEstimate(b *testing.B) {
	film, pics := minute(), picture.NewCache(cards{}, 0)
	for b.Loop() {
		if _, err := Estimate(b.Context(), film, pics, nil, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
