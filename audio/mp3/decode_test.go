package mp3

import (
	"context"
	"errors"
	"slices"
	"testing"

	"stillbeat/audio/internal/soundtest"
)

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
