package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// rested collects what waits for the pointer to rest, for the test to end.
type rested struct{ waiting []func() }

func (r *rested) after(_ time.Duration, do func()) func() {
	r.waiting = append(r.waiting, do)
	return func() {}
}

// over lets the rest be over: all that waits is done, the stopped too.
func (r *rested) over() {
	all := r.waiting
	r.waiting = nil
	for _, do := range all {
		do()
	}
}

func pointAt(x, y float32) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(x, y)}}
}

func TestANoteStandsBesideThePointer(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	rest := &rested{}
	w.note.after = rest.after
	w.card.Focus(w.win.Canvas())
	had := w.win.Canvas().Focused()
	w.foot.said = time.Time{}

	w.header.snap.MouseIn(pointAt(500, 40))
	const words = "Move all starts, or those chosen, onto the beats, as little as possible: Ctrl+B"
	if w.foot.words.Text != words {
		t.Errorf("the foot says %q", w.foot.words.Text)
	}
	if w.note.slip.Visible() {
		t.Error("the note is there before the pointer rests")
	}
	w.header.snap.MouseMoved(pointAt(510, 42))
	rest.over()
	if !w.note.slip.Visible() || w.note.words.Text != words {
		t.Fatalf("after a rest the note is seen: %v, with %q", w.note.slip.Visible(), w.note.words.Text)
	}
	at, size := w.note.slip.Position(), w.note.slip.Size()
	if at.X < 500 || at.X > 530 || at.Y < 42 {
		t.Errorf("the note is at %v, the pointer at 510, 42", at)
	}
	if size.Width < w.note.words.MinSize().Width {
		t.Errorf("the note is %v for words of %v", size, w.note.words.MinSize())
	}
	if w.win.Canvas().Focused() != had || w.win.Canvas().Overlays().Top() != nil {
		t.Error("the note takes the keys")
	}
	w.header.snap.MouseOut()
	if w.note.slip.Visible() || w.foot.words.Text != "" {
		t.Error("the hint stays when the pointer is gone")
	}

	w.header.snap.MouseIn(pointAt(500, 40))
	w.header.snap.MouseOut()
	rest.over()
	if w.note.slip.Visible() {
		t.Error("a note comes after the pointer has gone")
	}
}

func TestANoteStaysInTheWindow(t *testing.T) {
	w := openWindow(t)
	rest := &rested{}
	w.note.after = rest.after
	room := w.note.root.Size()
	for _, at := range []fyne.Position{{X: 0, Y: 0}, {X: room.Width, Y: 10}, {X: 10, Y: room.Height}, {X: room.Width, Y: room.Height}} {
		w.deck.play.MouseIn(pointAt(at.X, at.Y))
		rest.over()
		pos, size := w.note.slip.Position(), w.note.slip.Size()
		if pos.X < 0 || pos.Y < 0 || pos.X+size.Width > room.Width || pos.Y+size.Height > room.Height {
			t.Errorf("with the pointer at %v the note is at %v, %v large, in a window of %v", at, pos, size, room)
		}
		w.deck.play.MouseOut()
	}
}

func TestFieldsOfTheHeaderHaveNotes(t *testing.T) {
	w := openWindow(t)
	rest := &rested{}
	w.note.after = rest.after
	for name, o := range map[string]desktop.Hoverable{"title": w.header.title, "rate": w.header.rate, "step": w.header.step} {
		o.MouseIn(pointAt(100, 100))
		o.MouseMoved(pointAt(101, 100))
		rest.over()
		if !w.note.slip.Visible() || w.note.words.Text == "" {
			t.Errorf("the field %s has no note", name)
		}
		o.MouseOut()
		if w.note.slip.Visible() {
			t.Errorf("the note of the field %s stays", name)
		}
	}
	// A field without a hint is left in peace.
	w.card.title.MouseIn(pointAt(1, 1))
	w.card.title.MouseOut()
	rest.over()
	if w.note.slip.Visible() {
		t.Error("a field without a hint has a note")
	}
}

func TestNoNoteUnderADialog(t *testing.T) {
	w := openWindow(t)
	rest := &rested{}
	w.note.after = rest.after
	dialog.ShowInformation("Dialog", "over the window", w.win)
	w.header.snap.MouseIn(pointAt(100, 100))
	rest.over()
	if w.note.slip.Visible() {
		t.Error("a note is shown under the dialog")
	}
}

func TestSlipOfANote(t *testing.T) {
	w := openWindow(t)
	rest := &rested{}
	w.note.after = rest.after
	w.deck.play.MouseIn(pointAt(200, 100))
	rest.over()
	w.note.root.Remove(w.note.slip)
	box := test.NewTempWindow(t, w.note.slip)
	test.AssertRendersToMarkup(t, "note.xml", box.Canvas())
}
