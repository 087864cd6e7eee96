package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// keyList is a list for the keyboard: the arrows choose, Escape leaves, Return
// takes what is chosen.
type keyList struct {
	widget.List
	OnSelected      func(widget.ListItemID)
	OnLeave, OnTake func()
	// pointing has the arrows only point at a row; Space chooses it.
	pointing bool
	at       int  // row the toolkit points at
	chosen   bool // it is chosen too
}

func newKeyList(length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *keyList {
	l := &keyList{}
	l.Length, l.CreateItem, l.UpdateItem = length, create, update
	l.List.OnSelected = func(i widget.ListItemID) {
		l.at, l.chosen = i, true
		if l.OnSelected != nil {
			l.OnSelected(i)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// Select chooses a row and points at it: the toolkit's list goes on from where
// it was pointed at last.
func (l *keyList) Select(i widget.ListItemID) {
	l.point(i)
	l.List.Select(i)
}

// UnselectAll leaves no row chosen.
func (l *keyList) UnselectAll() {
	l.chosen = false
	l.List.UnselectAll()
}

// point moves where the toolkit's list points.
func (l *keyList) point(to int) {
	for ; l.at < to; l.at++ {
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	for ; l.at > to; l.at-- {
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
}

// step goes a row down, or up. Where none is chosen it chooses the one pointed
// at.
func (l *keyList) step(by int) {
	to := max(0, min(l.at+by, l.Length()-1))
	switch {
	case l.Length() == 0:
	case l.pointing:
		l.point(to)
	case !l.chosen:
		l.Select(min(l.at, l.Length()-1))
	default:
		l.Select(to)
	}
}

// TypedKey handles the keys of the list.
func (l *keyList) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		l.OnLeave()
	case fyne.KeyReturn, fyne.KeyEnter:
		l.OnTake()
	case fyne.KeyDown:
		l.step(1)
	case fyne.KeyUp:
		l.step(-1)
	default:
		l.List.TypedKey(e)
	}
}
