package mp3

import (
	"context"
	"errors"
	"slices"
	"testing"

	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/soundtest"
)

// TestSegmentsAreExact decodes in one go and in segments of odd sizes; the
// results must be the same to the bit.
func TestSegmentsAreExact(t *testing.T) {
	cases := []struct {
		name     string
		rate     int
		channels int
		args     []string
	}{
		{"CBR 64 joint stereo, deep reservoir", 44100, 2, []string{"-b", "64"}},
		{"CBR 320", 44100, 2, []string{"-b", "320"}},
		{"VBR", 48000, 2, []string{"-V", "5"}},
		{"MPEG-2 mono", 22050, 1, []string{"-b", "32"}},
		{"MPEG-2 160", 22050, 2, []string{"-b", "160"}},
		{"MPEG-2.5", 12000, 1, []string{"-b", "24"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s, err := open(lame(t, soundtest.Song(c.rate, c.channels, 1.5), c.args...))
			if err != nil {
				t.Fatal(err)
			}
			decode := func(step int) [][]float32 {
				out := make([][]float32, s.channels)
				for ch := range out {
					out[ch] = make([]float32, s.length)
				}
				meter := guard.NewMeter(context.Background(), 1, nil)
				damage := newDamage(0)
				for from := 0; from < len(s.frames); from += step {
					if err := s.decodeSegment(out, from, min(from+step, len(s.frames)), meter, damage); err != nil {
						t.Fatal(err)
					}
				}
				return out
			}
			want := decode(len(s.frames))
			for _, step := range []int{3, 25} {
				for ch, samples := range decode(step) {
					if !slices.Equal(samples, want[ch]) {
						t.Errorf("segments of %d frames differ in channel %d", step, ch)
					}
				}
			}
		})
	}
}

func TestProgressRisesToOne(t *testing.T) {
	data := lame(t, soundtest.Song(22050, 1, 15), "-b", "32")
	var calls []float64
	if _, err := Decode(context.Background(), data, func(done float64) { calls = append(calls, done) }); err != nil {
		t.Fatal(err)
	}
	if len(calls) < 10 || !slices.IsSorted(calls) || calls[len(calls)-1] != 1 {
		t.Errorf("progress = %v, want at least ten values, rising to 1", calls)
	}
}

func TestCancelStopsDecoding(t *testing.T) {
	data := lame(t, soundtest.Song(22050, 1, 15), "-b", "32")
	ctx, cancel := context.WithCancel(context.Background())
	after := 0
	got, err := Decode(ctx, data, func(done float64) {
		cancel()
		after++
	})
	if !errors.Is(err, context.Canceled) || got != nil {
		t.Fatalf("Decode = %v, %v, want context.Canceled", got, err)
	}
	if after > 20 {
		t.Errorf("progress was reported %d times after cancelling", after)
	}
}

func BenchmarkDecode(b *testing.B) {
	data := lame(b, soundtest.Song(44100, 2, 180), "-b", "128")
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Decode(context.Background(), data, nil); err != nil {
			b.Fatal(err)
		}
	}
}
