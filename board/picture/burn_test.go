package picture

import (
	"image"
	"image/color"
	"testing"

	"stillbeat/board"
)

// changed returns the box of all pixels that differ from a flat ground.
func changed(img *image.RGBA, ground color.RGBA) image.Rectangle {
	var box image.Rectangle
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y) != ground {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}

// Burnt-in words stay within the part of the frame that is safe for titles, in
// every shape, with bars beside the frame or without, however long they are.
func TestBurntWordsAreSafe(t *testing.T) {
	ground := color.RGBA{90, 120, 90, 255}
	long := "a very long title of a panel that goes on and on, with its spoon and its cup and its teapot"
	for _, tt := range []struct {
		name   string
		burn   Burn
		aspect board.Aspect
		w, h   int
	}{
		{"a timecode", Burn{Place: "00:00:01:12"}, board.Aspect{}, 640, 360},
		{"all of them", Burn{Panel: "panel 3", Place: "frame 20", Note: "slowly", Mark: "draft"}, board.Aspect{}, 640, 360},
		{"long words in an upright frame", Burn{Panel: long, Place: long, Note: long, Mark: long}, board.Aspect{W: 9, H: 16}, 360, 640},
		{"a word without spaces", Burn{Panel: "teapotteapotteapotteapotteapotteapotteapotteapotteapot"}, board.Aspect{W: 9, H: 16}, 180, 320},
		{"wide, in bars", Burn{Panel: "panel 3", Mark: "draft"}, board.Aspect{W: 239, H: 100}, 640, 360},
		{"Arabic and Chinese", Burn{Panel: "إبريق الشاي", Note: "茶壶慢慢转", Mark: "टीपॉट"}, board.Aspect{}, 640, 360},
		{"tiny", Burn{Panel: "panel 3", Place: "frame 20", Mark: "draft"}, board.Aspect{}, 32, 18},
	} {
		img := filled(tt.w, tt.h, ground)
		tt.burn.Paint(img, tt.aspect)
		at := frameIn(tt.aspect, tt.w, tt.h)
		frame := Box{float64(at.Min.X), float64(at.Min.Y), float64(at.Dx()), float64(at.Dy())}.Share(SafeTitle)
		safe := image.Rect(int(frame.X)-1, int(frame.Y)-1, int(frame.X+frame.W)+2, int(frame.Y+frame.H)+2)
		got := changed(img, ground)
		if got.Empty() || !got.In(safe) {
			t.Errorf("%s: the words are in %v, want them in %v", tt.name, got, safe)
		}
	}
}

func TestNothingBurntIn(t *testing.T) {
	ground := color.RGBA{90, 120, 90, 255}
	img := filled(64, 36, ground)
	Burn{Panel: " ", Note: "\n"}.Paint(img, board.Aspect{})
	if box := changed(img, ground); !box.Empty() {
		t.Errorf("it paints %v", box)
	}
}

func TestBurntLinesEnd(t *testing.T) {
	b := set("one\ntwo\nthree\nfour\nfive\nsix", 20)
	if cut := b.cut(4); cut.lines != 4 || len(cut.glyphs) != len("onetwothreefour") {
		t.Errorf("%d lines of %d letters", cut.lines, len(cut.glyphs))
	}
}

func TestBurnGolden(t *testing.T) {
	b := Burn{Panel: "panel 12B · Чайник", Place: "00:00:01:12 · frame 36 · bar 2, beat 3", Note: "the lid stays on", Mark: "draft 2", Safe: true}
	for name, tt := range map[string]struct {
		aspect board.Aspect
		w, h   int
	}{"golden/burn": {board.Aspect{}, 640, 360}, "golden/burn-upright": {board.Aspect{W: 9, H: 16}, 270, 480}} {
		img := quartered(tt.w, tt.h)
		b.Paint(img, tt.aspect)
		golden(t, name, img)
	}
}

func BenchmarkBurn(b *testing.B) {
	img := filled(Width, Height, Blank)
	burn := Burn{Panel: "panel 12", Place: "00:00:01:12 · frame 36", Mark: "draft 2"}
	b.ReportAllocs()
	for b.Loop() {
		burn.Paint(img, board.Aspect{})
	}
}
