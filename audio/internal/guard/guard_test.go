package guard

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"stillbeat/audio/clip"
)

func TestDecode(t *testing.T) {
	errOwn := errors.New("own")
	sound := &clip.Clip{Rate: 8000, Samples: [][]float32{{1}}}
	cases := []struct {
		name   string
		decode func() (*clip.Clip, error)
		want   error
	}{
		{"sound", func() (*clip.Clip, error) { return sound, nil }, nil},
		{"error", func() (*clip.Clip, error) { return sound, errOwn }, errOwn},
		{"panic", func() (*clip.Clip, error) { panic("index out of range") }, clip.ErrDamaged},
		{"no samples", func() (*clip.Clip, error) { return &clip.Clip{Rate: 8000}, nil }, clip.ErrEmpty},
		{"no clip", func() (*clip.Clip, error) { return nil, nil }, clip.ErrEmpty},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := Decode("MP3", c.decode)
			if !errors.Is(err, c.want) || (got == sound) != (c.want == nil) {
				t.Errorf("Decode = %v, %v, want error %v", got, err, c.want)
			}
		})
	}
}

func TestMeter(t *testing.T) {
	cases := []struct {
		name string
		add  []int
		want []float64
	}{
		{"counts up", []int{1, 1, 2}, []float64{0.25, 0.5, 1}},
		{"finish reports what is left", []int{1}, []float64{0.25, 1}},
		{"finish alone", nil, []float64{1}},
		{"too much stays at 1", []int{3, 9}, []float64{0.75, 1}},
		{"nothing new is not reported", []int{2, 0}, []float64{0.5, 1}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got []float64
			m := NewMeter(context.Background(), 4, func(done float64) { got = append(got, done) })
			for _, n := range c.add {
				if err := m.Add(n); err != nil {
					t.Fatal(err)
				}
			}
			m.Finish()
			if !slices.Equal(got, c.want) {
				t.Errorf("reports %v, want %v", got, c.want)
			}
		})
	}
}

func TestMeterStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	m := NewMeter(ctx, 10, nil)
	if err := m.Add(1); err != nil {
		t.Fatal(err)
	}
	cancel()
	if err := m.Add(1); !errors.Is(err, context.Canceled) {
		t.Errorf("Add = %v, want context.Canceled", err)
	}
}

func TestTame(t *testing.T) {
	for in, want := range map[float64]float32{
		0.5: 0.5, -1.5: -1.5, 1e9: 256, math.Inf(-1): -256, math.Inf(1): 256,
	} {
		if got := Tame(in); got != want {
			t.Errorf("Tame(%v) = %v, want %v", in, got, want)
		}
	}
	if got := Tame(math.NaN()); got != 0 {
		t.Errorf("Tame(NaN) = %v, want 0", got)
	}
}
