package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// keyList is a list in a dialog that Escape leaves and Return finishes.
type keyList struct {
	widget.List
	OnLeave, OnTake func()
}

func newKeyList(length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *keyList {
	l := &keyList{}
	l.Length, l.CreateItem, l.UpdateItem = length, create, update
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey hands the two keys over and leaves the others to the list.
func (l *keyList) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		l.OnLeave()
	case fyne.KeyReturn, fyne.KeyEnter:
		l.OnTake()
	default:
		l.List.TypedKey(e)
	}
}
