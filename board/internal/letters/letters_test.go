package letters

import (
	"io/fs"
	"slices"
	"testing"

	"github.com/go-text/typesetting/di"

	"stillbeat/assets/fonts"
)

func TestEveryFontIsRead(t *testing.T) {
	names, err := fs.Glob(fonts.Files, "*.ttf")
	if err != nil {
		t.Fatal(err)
	}
	used := append([]string{fonts.Usual}, fonts.Others...)
	slices.Sort(used)
	if !slices.Equal(names, used) {
		t.Errorf("embedded are %v, used %v", names, used)
	}
	for _, name := range names {
		f := Load(name)
		if f.Upem() < 256 {
			t.Errorf("%s has %d units to the em", name, f.Upem())
		}
	}
}

func TestDirectionOf(t *testing.T) {
	for text, want := range map[string]di.Direction{
		"": di.DirectionLTR, "cup": di.DirectionLTR, "12": di.DirectionLTR, "(12) כוס": di.DirectionRTL,
		"الكوب cup": di.DirectionRTL, "cup الكوب": di.DirectionLTR, "\u200fcup": di.DirectionRTL,
	} {
		if got := DirectionOf([]rune(text)); got != want {
			t.Errorf("%q runs %v, want %v", text, got, want)
		}
	}
}

// Lines hold all of a paragraph's characters, in order, and are no wider than asked.
func TestLinesHoldTheParagraph(t *testing.T) {
	for _, text := range []string{"the cup turns slowly and looks at the spoon", "הכוס מסתובבת לאט cup and spoon", "茶壶慢慢转茶壶慢慢转", "teapotteapotteapotteapot"} {
		s := Get()
		runes := []rune(text)
		lines := s.Lines(runes, 6)
		if len(lines) < 2 {
			t.Errorf("%q is %d lines", text, len(lines))
		}
		at := 0
		for _, l := range lines {
			from, to := len(runes), 0
			for _, run := range LeftToRight(l) {
				from, to = min(from, run.Runes.Offset), max(to, run.Runes.Offset+run.Runes.Count)
			}
			if from != at {
				t.Errorf("%q: a line begins at character %d, want %d", text, from, at)
			}
			if at = to; Wide(l) > 6.3 { // a space at its end may hang out
				t.Errorf("%q: a line is %.2f ems wide, want 6", text, Wide(l))
			}
		}
		if at != len(runes) {
			t.Errorf("%q: the lines end at character %d of %d", text, at, len(runes))
		}
		s.Put()
	}
}
