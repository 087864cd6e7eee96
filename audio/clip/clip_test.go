package clip

import (
	"errors"
	"slices"
	"testing"
)

func TestClip(t *testing.T) {
	var none *Clip
	mono := &Clip{Rate: 4, Samples: [][]float32{{1, 0, -1}}}
	stereo := &Clip{Rate: 4, Samples: [][]float32{{1, 0, -1}, {0, 0.5, -1}}}
	cases := []struct {
		name    string
		clip    *Clip
		len     int
		seconds float64
	}{
		{"nil", none, 0, 0},
		{"empty", &Clip{}, 0, 0},
		{"no rate", &Clip{Samples: [][]float32{{1}}}, 1, 0},
		{"mono", mono, 3, 0.75},
		{"stereo", stereo, 3, 0.75},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if c.clip.Len() != c.len || c.clip.Seconds() != c.seconds {
				t.Errorf("Len %d, Seconds %v, want %d, %v", c.clip.Len(), c.clip.Seconds(), c.len, c.seconds)
			}
		})
	}
}

func TestClipCollects(t *testing.T) {
	var c Clip
	for range 2 { // the second sound replaces the first
		if err := c.Begin(Info{Rate: 4, Channels: 2, Title: "Waltz"}); err != nil {
			t.Fatal(err)
		}
		for _, block := range [][][]float32{{{1, 2}, {3, 4}}, {{5}, {6}}} {
			if err := c.Add(block); err != nil {
				t.Fatal(err)
			}
			block[0][0] = 9 // the block is used again
		}
	}
	if c.Rate != 4 || c.Title != "Waltz" || !slices.Equal(c.Samples[0], []float32{1, 2, 5}) || !slices.Equal(c.Samples[1], []float32{3, 4, 6}) {
		t.Errorf("collected %+v", c)
	}
}

func TestLimits(t *testing.T) {
	const hour = 3600
	formats := []struct {
		rate, channels int
		want           error
	}{
		{MinRate, 1, nil}, {MaxRate, MaxChannels, nil},
		{MinRate - 1, 1, ErrFormat}, {MaxRate + 1, 1, ErrFormat},
		{44100, 0, ErrFormat}, {44100, MaxChannels + 1, ErrFormat},
	}
	for _, c := range formats {
		if err := CheckFormat(c.rate, c.channels); !errors.Is(err, c.want) {
			t.Errorf("CheckFormat(%d, %d) = %v, want %v", c.rate, c.channels, err, c.want)
		}
	}
	sizes := []struct {
		name                              string
		rate, channels, samples, fileSize int
		want                              error
	}{
		{"a song in FLAC", 44100, 2, 300 * 44100, 30 << 20, nil},
		{"five minutes of digital silence", 44100, 2, 300 * 44100, 20 << 10, nil},
		{"three hours of MP3 at 32 kbit/s", 44100, 2, 3 * hour * 44100, 3 * hour * 4000, nil},
		{"a sample more than three hours", 44100, 2, 3*hour*44100 + 1, 2 << 30, ErrTooLong},
		{"two hours from a few bytes", 44100, 2, 2 * hour * 44100, 100, ErrTooBig},
	}
	for _, c := range sizes {
		if err := CheckSize(c.rate, c.channels, c.samples, c.fileSize); !errors.Is(err, c.want) {
			t.Errorf("%s: CheckSize = %v, want %v", c.name, err, c.want)
		}
	}
}
