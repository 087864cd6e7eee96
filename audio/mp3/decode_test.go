package mp3

import (
	"context"
	"errors"
	"slices"
	"testing"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/soundtest"
)

// decode decodes data into a clip.
func decode(t testing.TB, ctx context.Context, data []byte, progress func(float64)) (*clip.Clip, error) {
	t.Helper()
	return soundtest.Collect(t, func(s clip.Sink) (clip.Info, error) {
		return Decode(ctx, data, s, progress)
	})
}

func TestProgressRisesToOne(t *testing.T) {
	data := lame(t, soundtest.Song(22050, 1, 15), "-b", "32")
	var calls []float64
	if _, err := decode(t, context.Background(), data, func(done float64) { calls = append(calls, done) }); err != nil {
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
	got, err := decode(t, ctx, data, func(done float64) {
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
		if _, err := decode(b, context.Background(), data, nil); err != nil {
			b.Fatal(err)
		}
	}
}
