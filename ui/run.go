// Package ui is the window: the only package that knows Fyne.
package ui

import (
	"context"
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"stillbeat/assets"
	"stillbeat/board/desk"
	"stillbeat/board/file"
	_ "stillbeat/ui/locale" // before the toolkit
)

// appID names the program to the desktop; FyneApp.toml repeats it.
const appID = "app.stillbeat"

// Options says what the window opens with.
type Options struct {
	Film string                 // path of a film to open, "" for an empty one
	Ear  desk.Ear               // reads and hears songs
	Mute bool                   // opens no sound device; the clock is the master
	post func(func())           // in tests: in place of the toolkit's own way to its goroutine
	Demo func() (string, error) // writes the demo film and returns its path; nil: none is offered
}

// Run opens the window and returns when it is closed. It must be called from
// the main goroutine.
func Run(o Options) (err error) {
	d, left, err := firstDesk(o.Film)
	if err != nil {
		return err
	}
	a := app.NewWithID(appID)
	a.Settings().SetTheme(newPaperTheme())
	a.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	w := newWindow(a, o, d)
	w.screens = screens
	usual, room := windowSizes(a)
	w.win.Resize(keptSize(a, usual, room))
	w.win.SetMaster()
	if left {
		w.foot.Say("This film was left without a name. Save it under one, or throw it away with New film.")
	}
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("something went wrong inside Stillbeat: %v", r)
		}
		w.player.Stop()
		if e := w.desk.Close(); err == nil {
			err = e
		}
	}()
	w.letNap()
	w.win.ShowAndRun()
	return nil
}

// openDesk opens the film at path, "" for an empty one: to edit it or, where
// that cannot be, to look at it; one that is damaged as far as it can be read.
func openDesk(path string) (*desk.Desk, error) {
	if path == "" {
		return desk.New()
	}
	d, err := desk.OpenOrView(path)
	if errors.Is(err, file.ErrDamaged) {
		return desk.Salvage(context.Background(), path)
	}
	return d, err
}

// firstDesk opens the film asked for, else the one that was left without a
// name the last time, which it reports, else an empty one.
func firstDesk(path string) (d *desk.Desk, left bool, err error) {
	if path == "" {
		if d, err = desk.Resume(); d != nil || err != nil {
			return d, d != nil, err
		}
	}
	d, err = openDesk(path)
	return d, false, err
}
