package board

import (
	"bytes"
	"errors"
	"image/color"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"stillbeat/board/figure"
)

// scrawl is a sketch with a stroke of every kind.
func scrawl() Sketch {
	ink := color.NRGBA{0x20, 0x1c, 0x18, 0xff}
	return Sketch{Paper: color.NRGBA{0xf4, 0xee, 0xe1, 0xff}, Strokes: []Stroke{
		{Layer: Below, Smooth: true, Ink: ink, Width: 80, Dots: []Dot{{-4000, 200, 10}, {-3900, 190, 128}, {3000, -2500, 255}}},
		{Layer: Middle, Closed: true, Filled: true, Ink: color.NRGBA{0xc0, 0x39, 0x2b, 0x80}, Dots: []Dot{{0, 0, 255}, {1000, 0, 255}, {1000, 1000, 255}}},
		{Layer: Above, Smooth: true, Erases: true, Width: 400, Dots: []Dot{{-maxSketchFar, maxSketchFar, 255}, {maxSketchFar, -maxSketchFar, 0}}},
		{Layer: Above, Ink: ink, Width: 60, Dots: []Dot{{5, 5, 255}}},
	}}
}

// posed is a sketch with figures.
func posed() Sketch {
	s := scrawl()
	one := Figure{Layer: Above, Ink: color.NRGBA{1, 2, 3, 255}, Pose: figure.New(-300, 5000, 9000)}
	two := one
	two.Layer, two.Pose = Below, one.Flipped().InHeads(350)
	two.Pinned, two.Turns[figure.NearThigh] = [2]bool{false, true}, 90*figure.Degree
	s.Figures = []Figure{one, two}
	return s
}

func TestSketchReadsBack(t *testing.T) {
	for name, s := range map[string]Sketch{"empty": {}, "figures": posed(), "figures alone": {Figures: posed().Figures}, "paper": {Paper: color.NRGBA{1, 2, 3, 255}}, "scrawl": scrawl()} {
		data, err := EncodeSketch(s)
		if err != nil {
			t.Fatal(err)
		}
		got, err := DecodeSketch(data)
		if err != nil || !reflect.DeepEqual(got, s) {
			t.Errorf("%s reads back as %+v, %v", name, got, err)
		}
	}
}

// The bytes of a small sketch, written by hand from the format.
func TestSketchBytes(t *testing.T) {
	s := Sketch{Paper: color.NRGBA{1, 2, 3, 255}, Strokes: []Stroke{
		{Layer: Middle, Smooth: true, Ink: color.NRGBA{9, 8, 7, 255}, Width: 300, Dots: []Dot{{1, -1, 255}, {66, -1, 128}}}}}
	want := []byte("StlbSk\x01" + "\x01\x02\x03\xff" + "\x01" + // one stroke
		"\x05" + "\x09\x08\x07\xff" + "\xac\x02" + "\x02" + // 300 = 0xac 0x02
		"\x02\x01\xff" + "\x82\x01\x00\x80") // +1 -1, then +65 +0
	if got, err := EncodeSketch(s); err != nil || !bytes.Equal(got, want) {
		t.Errorf("written as % x, %v, want % x", got, err, want)
	}
}

func TestSketchRefuses(t *testing.T) {
	good, err := EncodeSketch(scrawl())
	if err != nil {
		t.Fatal(err)
	}
	head := "StlbSk\x01\x00\x00\x00\x00"
	for name, data := range map[string][]byte{
		"nothing":             nil,
		"a photograph":        []byte("\x89PNG\r\n\x1a\n"),
		"a later version":     append([]byte("StlbSk\x02"), good[7:]...),
		"cut short":           good[:len(good)-1],
		"something after it":  append(bytes.Clone(good), 0),
		"half a paper":        []byte("StlbSk\x01\x01\x02\x03\x80\x00"),
		"a count too large":   []byte(head + "\xff\xff\x7f"),
		"a count too long":    []byte(head + "\x80\x00"),
		"an endless count":    []byte(head + strings.Repeat("\xff", 20)),
		"no such layer":       []byte(head + "\x01\x03\x00\x00\x00\xff\x01\x01\x00\x00\xff"),
		"no such flag":        []byte(head + "\x01\x40\x00\x00\x00\xff\x01\x01\x00\x00\xff"),
		"no dots":             []byte(head + "\x01\x00\x00\x00\x00\xff\x01\x00\x00\x00\xff"),
		"too wide":            []byte(head + "\x01\x00\x00\x00\x00\xff\xff\xff\x7f\x01\x00\x00\xff"),
		"too far":             []byte(head + "\x01\x00\x00\x00\x00\xff\x01\x01\xff\xff\xff\x0f\x00\xff"),
		"an eraser with ink":  []byte(head + "\x01\x20\x01\x00\x00\xff\x01\x01\x00\x00\xff"),
		"dots beyond the end": []byte(head + "\x01\x00\x00\x00\x00\xff\x01\x7f\x00\x00\xff"),
	} {
		if got, err := DecodeSketch(data); !errors.Is(err, ErrSketch) || !reflect.DeepEqual(got, Sketch{}) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
	figured, err := EncodeSketch(posed())
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"a version 1 with figures":  append([]byte("StlbSk\x01"), figured[7:]...),
		"a version 2 without any":   append(append([]byte("StlbSk\x02"), good[7:]...), 0),
		"a version 3":               append([]byte("StlbSk\x03"), figured[7:]...),
		"a figure cut short":        figured[:len(figured)-1],
		"more figures than may be":  append(append([]byte("StlbSk\x02"), good[7:]...), append([]byte{65}, make([]byte, 65*leastFigure)...)...),
		"a figure of no size":       append(append([]byte("StlbSk\x02"), good[7:]...), append([]byte{1}, make([]byte, leastFigure)...)...),
		"a figure with other flags": append(append([]byte("StlbSk\x02"), good[7:]...), append([]byte{1, 0x20}, make([]byte, leastFigure)...)...),
	} {
		if got, err := DecodeSketch(data); !errors.Is(err, ErrSketch) || !reflect.DeepEqual(got, Sketch{}) {
			t.Errorf("%s: %d figures, %v", name, len(got.Figures), err)
		}
	}
	for name, spoil := range map[string]func(*Figure){
		"no layer":    func(f *Figure) { f.Layer = 3 },
		"over-bent":   func(f *Figure) { f.Turns[figure.NearShin] = 140 * figure.Degree },
		"all head":    func(f *Figure) { f.Heads = 100 },
		"out of view": func(f *Figure) { f.Y = maxSketchFar + 1 },
	} {
		s := posed()
		spoil(&s.Figures[1])
		if _, err := EncodeSketch(s); err == nil || !strings.Contains(err.Error(), "figure 2") {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, spoil := range map[string]func(*Stroke){
		"no dots":    func(k *Stroke) { k.Dots = nil },
		"too far":    func(k *Stroke) { k.Dots = []Dot{{maxSketchFar + 1, 0, 1}} },
		"too wide":   func(k *Stroke) { k.Width = maxSketchWide + 1 },
		"no layer":   func(k *Stroke) { k.Layer = 3 },
		"eraser ink": func(k *Stroke) { k.Erases = true },
	} {
		s := scrawl()
		spoil(&s.Strokes[0])
		if _, err := EncodeSketch(s); err == nil || !strings.Contains(err.Error(), "stroke 1") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := EncodeSketch(Sketch{Strokes: make([]Stroke, MaxStrokes+1)}); err == nil {
		t.Error("too many strokes pass")
	}
}

// A small file cannot ask for much memory, nor a long one for more than a
// small multiple of its length.
func TestSketchMemory(t *testing.T) {
	// As many of the smallest strokes as there may be.
	many := Sketch{Strokes: make([]Stroke, MaxStrokes)}
	for i := range many.Strokes {
		many.Strokes[i].Dots = []Dot{{}}
	}
	long, err := EncodeSketch(many)
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"many strokes": long,
		"a claim":      []byte("StlbSk\x01\x00\x00\x00\x00\xa0\x9c\x01" + strings.Repeat("\x00", 30)),
	} {
		before := totalAlloc()
		DecodeSketch(data)
		if got := totalAlloc() - before; got > uint64(16*len(data)+4096) {
			t.Errorf("%s: %d bytes allocated for %d", name, got, len(data))
		}
	}
}

func totalAlloc() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}

func FuzzSketch(f *testing.F) {
	for _, s := range []Sketch{{}, scrawl(), posed()} {
		data, err := EncodeSketch(s)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := DecodeSketch(data)
		if err != nil {
			return
		}
		again, err := EncodeSketch(s)
		if err != nil || !bytes.Equal(again, data) {
			t.Fatalf("% x is written back as % x, %v", data, again, err)
		}
	})
}
