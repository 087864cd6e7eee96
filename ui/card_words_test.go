package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// wordsBoard is a film at 24 fps over beats of half a second in fours: a beat
// is 12 frames. Its panels start at the given places.
func wordsBoard(starts ...board.Start) board.Board {
	b := board.New()
	b.Rate, b.Step = board.FrameRate{Num: 24, Den: 1}, 2
	var beats, bars []float64
	for i := range 40 {
		beats = append(beats, float64(i)/2)
		if i%4 == 0 {
			bars = append(bars, float64(i)/2)
		}
	}
	b.Grid = board.NewGrid(beats, bars)
	b.Song = &board.Song{Name: "s", Media: "m", Seconds: 20}
	for i, s := range append([]board.Start{{}}, starts...) {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Start: s})
	}
	b.NextID = board.PanelID(len(b.Panels) + 1)
	b.End = board.Start{Anchor: board.Anchor{Beat: 16, Of: 1}, Time: 8}
	return b
}

func on(beat, part, of int, offset board.Frame) board.Start {
	return board.Start{Anchor: board.Anchor{Beat: beat, Part: part, Of: of, Offset: offset}}
}

func TestWordsOfStartAndHold(t *testing.T) {
	for _, c := range []struct {
		name            string
		start           board.Start
		starts, fit     string
		hold, exposures string
		against         bool
		rate            board.FrameRate
	}{
		{name: "on a beat", start: on(6, 0, 1, 0), starts: "on bar 2, beat 3 · frame 72 · 3.00 s", fit: "on the beat",
			hold: "frames · 5.00 s · 10 beats", exposures: "on twos · 60 exposures"},
		{name: "on half a beat", start: on(6, 1, 2, 0), starts: "on bar 2, beat 3 + 1/2 · frame 78 · 3.25 s", fit: "on its place between two beats",
			hold: "frames · 4.75 s · 9.5 beats", exposures: "on twos · 57 exposures"},
		{name: "ahead of its beat", start: on(6, 0, 1, -2), starts: "2 frames before bar 2, beat 3 · frame 70",
			fit: "2.0 frames (83 ms) before bar 2, beat 3", hold: "frames · 5.08 s · 10.2 beats", exposures: "on twos · 61 exposures"},
		{name: "free and late", start: board.Free(76.0 / 24), starts: "free · frame 76 · 3.17 s",
			fit: "4.0 frames (167 ms) late: fights the music", against: true,
			hold: "frames · 4.83 s · 9.67 beats", exposures: "on twos · 58 exposures"},
		{name: "off by less than half a frame", start: on(5, 0, 1, 0), rate: board.FrameRate{Num: 15, Den: 1},
			// beat 5 is at 2.5 s, which is 37.5 frames: frame 38 is at 2.533 s
			starts: "on bar 2, beat 2 · frame 38 · 2.53 s", fit: "on the beat, 0.5 frames (33 ms) late",
			hold: "frames · 5.47 s · 10.9 beats", exposures: "on twos · 41 exposures"},
	} {
		b := wordsBoard(c.start)
		if c.rate.Num > 0 {
			b.Rate = c.rate
		}
		starts, set := b.Starts(), []int{1}
		fit, against := fitWords(b, starts, set)
		for _, w := range [][2]string{
			{startWords(b, starts, set), c.starts}, {fit, c.fit}, {holdWords(b, starts, set), c.hold}, {exposureWords(b, starts, set), c.exposures}} {
			if w[0] != w[1] {
				t.Errorf("%s: %q, want %q", c.name, w[0], w[1])
			}
		}
		if against != c.against {
			t.Errorf("%s: fights the music %v", c.name, against)
		}
	}
}

func TestWordsOfSeveralPanels(t *testing.T) {
	b := wordsBoard(on(6, 0, 1, 0), board.Free(100.0/24))
	starts, set := b.Starts(), []int{0, 1, 2}
	fit, against := fitWords(b, starts, set)
	for _, w := range [][2]string{
		{startWords(b, starts, set), "1 anchored, 2 free · frames 0 to 191"},
		{fit, "panel 3 fights the music, 4.0 frames (167 ms) late"},
		{holdWords(b, starts, set), "frames each · 192 in all, 8.00 s"},
		{exposureWords(b, starts, set), "96 exposures"},
		{startWords(b, starts, []int{0}), "the film"},
	} {
		if w[0] != w[1] {
			t.Errorf("%q, want %q", w[0], w[1])
		}
	}
	if !against {
		t.Error("a panel that fights the music is not told")
	}
	b.Song, b.Grid = nil, board.Grid{}
	if fit, _ := fitWords(b, b.Starts(), set); fit != "" {
		t.Errorf("without music: %q", fit)
	}
	if got, want := startWords(b, b.Starts(), []int{2}), "free · frame 100 · 4.17 s"; got != want {
		t.Errorf("without music: %q, want %q", got, want)
	}
}

func TestCardHasTwoColumnsWhereItIsWide(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	c := w.card
	at := func(o fyne.CanvasObject) fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	}
	c.root.Resize(fyne.NewSize(wideCard-40, 500))
	if at(c.size).X != at(c.title).X || at(c.size).Y < at(c.note).Y {
		t.Errorf("narrow: the size stands at %v, the title at %v", at(c.size), at(c.title))
	}
	if h := c.scroll.Content.MinSize().Height; h <= c.scroll.Size().Height {
		t.Errorf("narrow: %g high in %g, nothing scrolls", h, c.scroll.Size().Height)
	}
	c.root.Resize(fyne.NewSize(wideCard+60, 500))
	if at(c.size).X <= at(c.title).X+c.title.Size().Width || at(c.size).Y > at(c.frames).Y {
		t.Errorf("wide: the size stands at %v, the title at %v", at(c.size), at(c.title))
	}
	if h := c.action.Size().Height; h < 60 {
		t.Errorf("wide: a long text has %g of height, the room below is empty", h)
	}
	for _, width := range []float32{330, 500, 800, 1600} {
		c.root.Resize(fyne.NewSize(width, 400))
		right := at(c.scroll).X + c.scroll.Size().Width
		for _, o := range []fyne.CanvasObject{c.title, c.camera, c.passing, c.heading, c.marks[1], c.panel} {
			if end := at(o).X + o.Size().Width; end > right+0.5 {
				t.Errorf("%g wide: %T ends at %g, the card at %g", width, o, end, right)
			}
		}
	}
}

func TestLongTextsGrow(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	f := w.card.action
	before := f.MinSize().Height
	f.SetText("one\ntwo\nthree\nfour\nfive\nsix")
	if after := f.MinSize().Height; after < before+3*13 {
		t.Errorf("six lines ask for %g of height, two for %g", after, before)
	}
}

func TestSeveralStartsOnTheMusicAreCalledExact(t *testing.T) {
	b := filmOf(t, 2, 2, 4) // at 120 BPM and 24 fps beats fall on whole frames
	if got, fights := fitWords(b, b.Starts(), []int{0, 1, 2}); got != "exact on the music" || fights {
		t.Errorf("%q, fighting %v", got, fights)
	}
}
