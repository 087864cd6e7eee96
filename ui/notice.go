package ui

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/file"
)

// notice is the strip below the header that says what one must know of the
// film as a whole: that it is only shown, damaged, or not on disk.
type notice struct {
	words   *widget.Label
	buttons *fyne.Container
	root    *fyne.Container
	OnSize  func() // it may need another height
}

func newNotice() *notice {
	n := &notice{words: widget.NewLabel(""), buttons: container.NewHBox()}
	n.words.Wrapping = fyne.TextWrapWord
	mark := canvas.NewRectangle(red)
	mark.SetMinSize(fyne.NewSize(5, 1))
	n.root = container.NewStack(canvas.NewRectangle(straw),
		container.NewBorder(nil, nil, mark, centredObject(n.buttons), n.words))
	n.root.Hide()
	return n
}

// Say shows words with buttons beside them; no words hide the strip.
func (n *notice) Say(words string, actions ...fyne.CanvasObject) {
	if words == "" {
		n.root.Hide()
		return
	}
	if n.root.Visible() && n.words.Text == words {
		return
	}
	n.words.SetText(words)
	n.buttons.RemoveAll()
	for _, a := range actions {
		n.buttons.Add(a)
	}
	n.root.Show()
	if n.OnSize != nil {
		n.OnSize()
	}
}

// showNotice says what there is to say of the film.
func (w *window) showNotice() {
	switch why := w.desk.ReadOnly(); {
	case errors.Is(why, file.ErrDamaged):
		lost := "all of it could be read"
		if missing := w.desk.Missing(); len(missing) > 0 {
			lost = strings.Join(missing, "; ")
		}
		w.notice.Say(fmt.Sprintf("This film is damaged: %s. It is shown, and the file stays as it is.", lost),
			quiet("Save a repaired copy…", w.saveAs))
	case why != nil:
		w.notice.Say(sentence(why.Error())+" Save it under another name to work on it.", quiet("Save as…", w.saveAs))
	case w.desk.Unwritten() != nil:
		w.notice.Say("The last changes are not on disk: "+w.desk.Unwritten().Error()+". The film goes on in memory, and every change tries again.",
			quiet("Save elsewhere…", w.saveAs))
	default:
		w.notice.Say("")
	}
}
