package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// restTime is how long the pointer rests before a note appears beside it.
const restTime = 600 * time.Millisecond

// note is a few words on a slip of paper beside the pointer. It lies over the
// window without being in the way: it takes neither presses nor the keys.
type note struct {
	after func(time.Duration, func()) (stop func()) // does something later, on the window's goroutine
	stop  func()                                    // of the rest under way
	words *canvas.Text
	slip  *fyne.Container
	root  *fyne.Container
	at    fyne.Position // of the pointer, in the window
}

func newNote(post func(func())) *note {
	n := &note{words: written("", ink, 12, false), stop: func() {}}
	n.after = func(d time.Duration, do func()) func() {
		t := time.AfterFunc(d, func() { post(do) })
		return func() { t.Stop() }
	}
	paper := canvas.NewRectangle(paperLight)
	paper.StrokeColor, paper.StrokeWidth, paper.CornerRadius = ink, 1, 3
	n.slip = container.NewStack(paper, padded(8, 4, n.words))
	n.slip.Hide()
	n.root = container.New(n, n.slip)
	return n
}

// Rest says that the pointer is at a place of the window on something that
// has words to it; they appear when it rests there.
func (n *note) Rest(words string, at fyne.Position) {
	n.Away()
	if words == "" {
		return
	}
	off := false // a rest that ended while it was on its way here says nothing
	stop := n.after(restTime, func() {
		if off {
			return
		}
		setText(n.words, words)
		n.at = at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(n.root))
		n.slip.Show()
		n.root.Refresh()
	})
	n.stop = func() { off = true; stop() }
}

// Away takes the note back.
func (n *note) Away() {
	n.stop()
	n.slip.Hide()
}

// MinSize lets the window be as small as it likes.
func (n *note) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout puts the note below the pointer, or above it where there is no room.
func (n *note) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	const below, air = 20, 4
	size := n.slip.MinSize()
	x := max(air, min(n.at.X+air, s.Width-size.Width-air))
	y := n.at.Y + below
	if y+size.Height > s.Height-air {
		y = max(air, n.at.Y-below/2-size.Height)
	}
	n.slip.Resize(size)
	n.slip.Move(fyne.NewPos(x, y))
}
