package board

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

// Holds of subtitles at 24 fps: 160 and 180 words a minute (BBC), and 42
// characters at 17 a second, 2.471 s.
func TestReadingFrames(t *testing.T) {
	slow, fast := Reading{Words: 160, Characters: 1e6}, Reading{Words: 180, Characters: 1e6}
	for _, c := range []struct {
		words      int
		slow, fast Frame
	}{{3, 27, 24}, {8, 72, 64}, {12, 108, 96}, {20, 180, 160}} {
		text := strings.Repeat("a ", c.words)
		if got, also := slow.Frames(text, frameRate24), fast.Frames(text, frameRate24); got != c.slow || also != c.fast {
			t.Errorf("%d words take %d and %d frames, want %d and %d", c.words, got, also, c.slow, c.fast)
		}
	}
	line := strings.Repeat("x", 42)
	r := Reading{Characters: 17}
	if s := r.Seconds(line); math.Abs(s-2.471) > 0.0005 {
		t.Errorf("42 characters take %.4f s", s)
	}
	if n := r.Frames(line, frameRate24); n != 60 {
		t.Errorf("42 characters take %d frames, want 60", n)
	}
}

func TestCountOfText(t *testing.T) {
	for _, c := range []struct {
		text string
		want string // characters words ideographs
	}{
		{"", "0 0 0"},
		{"  \n ", "0 0 0"},
		{"Where is\nthe  salt?", "18 4 0"},
		{"Où est le sel\u0301?", "14 4 0"},
		{"塩はどこ", "0 0 4"},
		{"소금 tea", "3 1 2"},
	} {
		a, b, d := count(c.text)
		if got := fmt.Sprint(a, b, d); got != c.want {
			t.Errorf("%q counts %s, want %s", c.text, got, c.want)
		}
	}
}

func TestTooShortToRead(t *testing.T) {
	caption := NewLetter(CaptionCard, strings.Repeat("x", 30), Aspect{}) // 2 s: 48 frames
	title := NewLetter(TitleCard, "Salt", Aspect{})                      // twice 0.35 s, but 2 s at least
	b := atFrames(0, 48, 95, 143, 190, 200)
	b.Panels[0].Drawn = &Drawn{Lettering: []Letter{caption}}
	b.Panels[1].Drawn = &Drawn{Lettering: []Letter{caption}}
	b.Panels[2].Drawn = &Drawn{Lettering: []Letter{title}}
	b.Panels[3].Drawn = &Drawn{Lettering: []Letter{title, NewLetter(Arrow, "", Aspect{})}}
	if got := b.TooShortToRead(Reading{}); !slices.Equal(got, []int{1, 3}) {
		t.Errorf("too short to read: %v, want panels 1 and 3", got)
	}
	if n := b.ReadingTime(4, Reading{}); n != 0 {
		t.Errorf("a panel without words takes %d frames", n)
	}
	if n := b.ReadingTime(0, Reading{Characters: 30, Words: 1e6}); n != 24 {
		t.Errorf("twice as fast it takes %d frames, want 24", n)
	}
	fast := atFrames(0, 48)
	fast.Rate = FrameRate{12, 1}
	fast.Panels[0].Drawn = &Drawn{Lettering: []Letter{caption}}
	if n := fast.ReadingTime(0, Reading{}); n != 24 {
		t.Errorf("at 12 fps it takes %d frames, want 24", n)
	}
}
