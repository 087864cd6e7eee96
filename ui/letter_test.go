package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// pressOn, pull and let go work with the tool in hand at points of the frame.
func pressOn(w *window, at board.Point) {
	w.surface.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: onFrame(w, at)}})
}

func pull(w *window, to board.Point) {
	w.surface.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: onFrame(w, to)}})
}

func letGo(w *window) { w.surface.MouseUp(nil) }

// onFrame returns the position of a point of the frame on the surface.
func onFrame(w *window, p board.Point) fyne.Position {
	pos, size := w.viewer.image.Position(), w.viewer.image.Size()
	return fyne.NewPos(pos.X+size.Width/2+float32(p.X)*size.Height, pos.Y+size.Height/2+float32(p.Y)*size.Height)
}

// lettered returns lettering k of the chosen panel.
func lettered(t *testing.T, w *window, k int) board.Letter {
	t.Helper()
	list := w.board.Panels[w.chosen].Drawing().Lettering
	if k >= len(list) {
		t.Fatalf("the panel has %d pieces of lettering, want %d at least", len(list), k+1)
	}
	return list[k]
}

func near(a, b board.Point) bool { return math.Hypot(a.X-b.X, a.Y-b.Y) < 0.005 }

func TestLetteringInTheWindow(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.choose(1)
	w.addLetter(board.Speech)
	if w.faces.up != w.faces.letters || w.win.Canvas().Focused() != fyne.Focusable(w.letters.text) {
		t.Fatalf("after adding speech the cursor is not in its words")
	}
	w.letters.text.SetText("More tea?")
	if got := lettered(t, w, 0); got.Text != "More tea?" || got.Kind != board.Speech {
		t.Errorf("lettering is %+v", got)
	}
	w.win.Canvas().Unfocus()
	was := lettered(t, w, 0)

	pressOn(w, was.At)
	pull(w, board.Point{X: was.At.X + 0.2, Y: was.At.Y + 0.1})
	pull(w, board.Point{X: was.At.X + 0.3, Y: was.At.Y + 0.1})
	letGo(w)
	moved := lettered(t, w, 0)
	if want := (board.Point{X: was.At.X + 0.3, Y: was.At.Y + 0.1}); !near(moved.At, want) || moved.To != was.To {
		t.Errorf("dragged to %v with its tail at %v, want %v and %v", moved.At, moved.To, want, was.To)
	}
	w.desk.Undo()
	if got := lettered(t, w, 0); got != was {
		t.Errorf("a drag is not one step to undo: %+v, want %+v", got, was)
	}

	typeKey(w, fyne.KeyRight)
	if got := lettered(t, w, 0); !near(got.At, board.Point{X: was.At.X + 0.005, Y: was.At.Y}) {
		t.Errorf("right moves it from %v to %v", was.At, got.At)
	}
	w.letters.size.SetText("8")
	w.letters.size.OnDone()
	if got := lettered(t, w, 0); got.Size != 0.08 {
		t.Errorf("size %g, want 0.08", got.Size)
	}
	w.letters.size.SetText("huge")
	w.letters.size.OnDone()
	if got := lettered(t, w, 0); got.Size != 0.08 || w.letters.size.Text != "8 %" {
		t.Errorf("a size that is none leaves %g and shows %q", got.Size, w.letters.size.Text)
	}
	typeKey(w, fyne.KeyDelete)
	if n := len(w.board.Panels[1].Drawing().Lettering); n != 0 || len(w.board.Panels) != 3 {
		t.Errorf("Delete leaves %d pieces on %d panels", n, len(w.board.Panels))
	}
}

func TestLetteringIsChosenOnThePicture(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(0)
	w.addLetter(board.CaptionCard)
	w.letters.text.SetText("Four o'clock")
	w.addLetter(board.Arrow)
	if w.letters.at != 1 {
		t.Fatalf("lettering %d is chosen, want the arrow", w.letters.at)
	}
	caption, arrow := lettered(t, w, 0), lettered(t, w, 1)
	pressOn(w, caption.At)
	letGo(w)
	if w.letters.at != 0 {
		t.Errorf("a click on the caption chooses %d", w.letters.at)
	}
	pressOn(w, board.Point{X: arrow.At.X + arrow.To.X/2, Y: arrow.At.Y})
	letGo(w)
	if w.letters.at != 1 {
		t.Errorf("a click on the arrow chooses %d", w.letters.at)
	}
	pressOn(w, board.Point{X: arrow.At.X + arrow.To.X/2, Y: arrow.At.Y})
	pull(w, board.Point{X: arrow.At.X + arrow.To.X/2, Y: arrow.At.Y - 0.2})
	letGo(w)
	if got := lettered(t, w, 1); math.Abs(got.Bend-0.2) > 0.01 || got.At != arrow.At || got.To != arrow.To {
		t.Errorf("its middle pulled up: bend %g, want 0.2; %+v", got.Bend, got)
	}
	w.raiseLetter()
	pressOn(w, board.Point{X: -0.6, Y: -0.4})
	letGo(w)
	if w.letters.at != -1 {
		t.Errorf("a click beside all lettering leaves %d chosen", w.letters.at)
	}
	w.letters.turn(1)
	w.letters.turn(1)
	w.letters.turn(1)
	if w.letters.at != 0 {
		t.Errorf("three steps on through two pieces end at %d", w.letters.at)
	}
	w.selectSet([]int{1}, 0)
	w.spreadLetter()
	if got := w.board.Panels[1].Drawing().Lettering; len(got) != 1 || got[0].Text != "Four o'clock" {
		t.Errorf("the other chosen panel has %+v", got)
	}
}

func TestLetteringTellsWhatIsWrong(t *testing.T) {
	tests := []struct {
		name, text string
		move       board.Point
		want       string
	}{
		{"words that fit and can be read", "Tea", board.Point{}, ""},
		{"a caption below the safe area", "Tea", board.Point{Y: 0.1}, "It reaches out of the safe area for titles."},
		{"more than can be read", "The pot, the cup, the spoon and the lump have all been waiting since a quarter to four", board.Point{Y: -0.2}, "Takes 153 frames to read, the panel holds 24."},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := openWindow(t)
			bringIn(t, w, 1)
			w.choose(0)
			w.addLetter(board.CaptionCard)
			w.letters.text.SetText(tt.text)
			w.letters.change(func(l *board.Letter) { l.At.Y += tt.move.Y })
			if got := w.letters.warning.Text; got != tt.want {
				t.Errorf("says %q, want %q", got, tt.want)
			}
		})
	}
}

func TestDraggedLetter(t *testing.T) {
	label := board.Letter{Kind: board.Label, Text: "lid", At: board.Point{X: 0.2}, To: board.Point{X: -0.3, Y: 0.2}}
	arrow := board.Letter{Kind: board.Arrow, At: board.Point{X: -0.2}, To: board.Point{X: 0.4}}
	at := func(x, y float64) board.Point { return board.Point{X: x, Y: y} }
	tests := []struct {
		name     string
		l        board.Letter
		part     letterPart
		from, to board.Point
		want     board.Letter
	}{
		{"words move and what they name moves along", label, letterBody, at(0, 0), at(0.1, 0.1), with(label, func(l *board.Letter) { l.At = at(0.3, 0.1) })},
		{"what they name moves alone", label, letterTo, at(0, 0), at(0.1, 0), with(label, func(l *board.Letter) { l.To = at(-0.2, 0.2) })},
		{"led back into the words there is no line", label, letterTo, at(-0.1, 0.2), at(0.2, 0), with(label, func(l *board.Letter) { l.To = at(0, 0) })},
		{"the start of an arrow moves and its tip stays", arrow, letterFrom, at(0, 0), at(-0.1, 0), with(arrow, func(l *board.Letter) { l.At, l.To = at(-0.3, 0), at(0.5, 0) })},
		{"a bend of next to nothing is straight", arrow, letterBend, at(0, 0), at(0, 0.005), arrow},
		{"the width grows to both sides", label, letterWidth, at(0, 0), at(0.05, 0), with(label, func(l *board.Letter) { l.Width = label.Wide(board.Aspect{}) + 0.1 })},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := draggedLetter(tt.l, board.Aspect{}, tt.part, tt.from, tt.to)
			if !near(got.At, tt.want.At) || !near(got.To, tt.want.To) || math.Abs(got.Width-tt.want.Width) > 1e-9 || math.Abs(got.Bend-tt.want.Bend) > 1e-9 {
				t.Errorf("got %+v, want %+v", got, tt.want)
			}
		})
	}
	if e := picture.ExtentOf(label, board.Aspect{}); !e.Covers(label.At, 0) {
		t.Error("words do not cover their middle")
	}
}

func with(l board.Letter, change func(*board.Letter)) board.Letter {
	change(&l)
	return l
}
