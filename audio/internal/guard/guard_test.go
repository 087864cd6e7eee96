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
	info := clip.Info{Rate: 8000, Channels: 2}
	cases := []struct {
		name   string
		decode func(out *Feed) error
		want   error
	}{
		{"sound", func(out *Feed) error {
			return errors.Join(out.Begin(info), out.Add([][]float32{{1}, {2}}))
		}, nil},
		{"error after a sample", func(out *Feed) error {
			return errors.Join(out.Begin(info), out.Add([][]float32{{1}, {2}}), errOwn)
		}, errOwn},
		{"panic", func(*Feed) error { panic("index out of range") }, clip.ErrDamaged},
		{"no samples", func(out *Feed) error { return out.Begin(info) }, clip.ErrEmpty},
		{"no beginning", func(*Feed) error { return nil }, clip.ErrEmpty},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var got clip.Clip
			told, err := Decode("MP3", &got, c.decode)
			if !errors.Is(err, c.want) || (told == clip.Info{}) != (c.want != nil) {
				t.Errorf("Decode = %+v, %v, want error %v", told, err, c.want)
			}
			if c.want == nil && (got.Len() != 1 || got.Samples[1][0] != 2 || told.Len != 1) {
				t.Errorf("fed %+v, told %+v", got, told)
			}
		})
	}
}

// TestFeedKeepsOrder feeds samples in runs of many lengths, each way there is.
func TestFeedKeepsOrder(t *testing.T) {
	const total = 3*blockLen + 77
	var got clip.Clip
	info, err := Decode("test", &got, func(out *Feed) error {
		if err := out.Begin(clip.Info{Rate: 8000, Channels: 2, Len: 5, Title: "early"}); err != nil {
			return err
		}
		for at, run := 0, 1; at < total; run = run*5%9973 + 1 {
			n := min(run, total-at)
			if run%2 == 0 {
				one, two := make([]float32, n), make([]float32, n)
				for i := range n {
					one[i], two[i] = float32(at+i), -float32(at+i)
				}
				if err := out.Add([][]float32{one, two}); err != nil {
					return err
				}
				at += n
				continue
			}
			room := out.Room()
			n = min(n, len(room[0]))
			for i := range n {
				room[0][i], room[1][i] = float32(at+i), -float32(at+i)
			}
			if err := out.Filled(n); err != nil {
				return err
			}
			at += n
		}
		out.Title("late")
		return nil
	})
	if err != nil || info != (clip.Info{Rate: 8000, Channels: 2, Len: total, Title: "late"}) || got.Len() != total {
		t.Fatalf("%+v, %v, %d samples, want %d", info, err, got.Len(), total)
	}
	for i, v := range got.Samples[0] {
		if v != float32(i) || got.Samples[1][i] != -v {
			t.Fatalf("sample %d is %v and %v", i, v, got.Samples[1][i])
		}
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
