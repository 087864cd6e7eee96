package board

import (
	"image/color"
	"slices"
	"testing"
)

func TestLetteringEdits(t *testing.T) {
	tea, salt := NewLetter(Speech, "Tea?", Aspect{}), NewLetter(CaptionCard, "Salt.", Aspect{})
	b := do(t, atFrames(0, 8, 16), AddLetter(upTo(0, 2), tea))
	b = do(t, b, AddLetter(one(0), salt))
	if !slices.Equal(b.Panels[0].Drawing().Lettering, []Letter{tea, salt}) || !slices.Equal(b.Panels[1].Drawing().Lettering, []Letter{tea}) {
		t.Errorf("lettering %v and %v", b.Panels[0].Drawing().Lettering, b.Panels[1].Drawing().Lettering)
	}
	louder := tea
	louder.Bold = true
	b = do(t, b, SetLetter(0, 0, louder))
	if !slices.Equal(b.Panels[0].Drawing().Lettering, []Letter{louder, salt}) || b.Panels[1].Drawing().Lettering[0] != tea {
		t.Errorf("changed to %v and %v", b.Panels[0].Drawing().Lettering, b.Panels[1].Drawing().Lettering)
	}
	if raised := do(t, b, RaiseLetter(0, 0)); !slices.Equal(raised.Panels[0].Drawing().Lettering, []Letter{salt, louder}) {
		t.Errorf("the first on top: %v", raised.Panels[0].Drawing().Lettering)
	}
	refused(t, b, RaiseLetter(0, 2), "no such lettering")
	b = do(t, do(t, b, RemoveLetter(0, 0)), RemoveLetter(1, 0))
	if !slices.Equal(b.Panels[0].Drawing().Lettering, []Letter{salt}) || b.Panels[1].Drawn != nil {
		t.Errorf("left %v and %v", b.Panels[0].Drawing().Lettering, b.Panels[1].Drawing().Lettering)
	}
	refused(t, b, RemoveLetter(0, 1), "no such lettering")
	refused(t, b, SetLetter(0, -1, tea), "no such lettering")
	refused(t, b, SetLetter(2, 0, tea), ErrNoPanel.Error())
	refused(t, b, AddLetter(one(0), Letter{}), "no kind of lettering")
}

// A drag of lettering is one step to undo, of two pieces two.
func TestLetteringMerges(t *testing.T) {
	h := NewHistory(do(t, atFrames(0, 8), AddLetter(one(0), NewLetter(Label, "cup", Aspect{}))))
	if err := h.Do(AddLetter(one(0), NewLetter(Label, "spoon", Aspect{}))); err != nil {
		t.Fatal(err)
	}
	for _, k := range []int{0, 0, 0, 1, 1} {
		l := h.Board().Panels[0].Drawing().Lettering[k]
		l.At.X += 0.01
		if err := h.Do(SetLetter(0, k, l)); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(h.Past().Steps); n != 4 {
		t.Errorf("%d steps, want 4", n)
	}
}

func TestColour(t *testing.T) {
	usual := color.RGBA{1, 2, 3, 255}
	for c, want := range map[Colour]color.RGBA{"": usual, "c0392b": {0xc0, 0x39, 0x2b, 255}, "red": usual, "+12345": usual} {
		if got := c.RGBA(usual); got != want {
			t.Errorf("%q is %v, want %v", c, got, want)
		}
	}
	for _, c := range []Colour{"red", "C0392B", "+12345", "c0392", "c0392bff", "#c0392"} {
		if c.check() == nil {
			t.Errorf("%q passes", c)
		}
	}
}

func TestPictureEdits(t *testing.T) {
	b := atFrames(0, 8, 16, 24)
	by := Placement{Fit: ByHand, At: Point{0.1, 0.2}, Scale: 2, Turn: 90}
	b = do(t, do(t, b, Place(upTo(1, 3), by)), SetSketch(one(1), "aa"))
	if b.Panels[0].Drawn != nil || b.Panels[1].Drawing().Placed != by || b.Panels[2].Drawing().Placed != by || b.Panels[1].Drawing().Sketch != "aa" {
		t.Errorf("panels %+v", b.Panels)
	}
	refused(t, b, Place(one(0), Placement{Fit: Filled, Turn: 1}), "by hand alone")
	if by.Times() != 2 || (Placement{}).Times() != 1 {
		t.Error("Times")
	}
	b = do(t, b, SetPicture(one(2), "bb"))
	b.Song = &Song{Media: "cc"}
	if got := b.Media(); !slices.Equal(got, []MediaID{"aa", "bb", "cc"}) {
		t.Errorf("Media = %v", got)
	}
}

func TestJoinKeepsPictureSketchAndLettering(t *testing.T) {
	b := atFrames(0, 8, 16, 24)
	b = do(t, b, AddLetter(one(0), NewLetter(Label, "cup", Aspect{})))
	b = do(t, do(t, b, SetSketch(one(1), "aa")), SetMove(one(1), CameraMove{To: Framing{Width: 0.5}}))
	b = do(t, do(t, b, SetPicture(one(2), "bb")), AddLetter(one(2), NewLetter(Label, "spoon", Aspect{})))
	p := do(t, b, Join(upTo(0, 3))).Panels[0]
	if d := p.Drawing(); d.Sketch != "aa" || p.Picture != "" || d.Travel.To.Width != 0.5 || len(d.Lettering) != 2 || d.Lettering[1].Text != "spoon" {
		t.Errorf("joined into %+v", p)
	}
}
