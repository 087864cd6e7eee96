package ui

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board/desk"
	"stillbeat/board/file"
)

// A film with a name is on disk as it is on screen; only one that has no name
// yet can be lost, so only that one is asked about.

func (w *window) newFilm() { w.leave(func() { w.openFilm("") }) }

func (w *window) openFilmDialog() {
	w.leave(func() {
		w.pick(pickRequest{title: "Open a film", extensions: []string{file.Ext}, kind: "films"},
			func(paths []string) { w.openFilm(paths[0]) })
	})
}

// openFilm closes the film on the desk and opens the one at path, "" for an
// empty one. When that fails the old one stays.
func (w *window) openFilm(path string) {
	if path != "" && path == w.desk.Path() {
		return
	}
	d, err := openDesk(path)
	if err != nil {
		w.trouble("The film was not opened", err)
		return
	}
	w.adoptDesk(d)
}

// adoptDesk shows another film and closes the one before.
func (w *window) adoptDesk(d *desk.Desk) {
	w.stop()
	w.jobs.StopAll()
	w.card.Settle()
	w.keepPlace()
	old := w.desk
	w.setDesk(d)
	if err := old.Close(); err != nil {
		w.trouble("The film before was not written to its end", err)
	}
}

func (w *window) openDemo() {
	if w.demo == nil {
		return
	}
	var path string
	w.jobs.Run("Making the demo film", w.demoWork(&path), func(err error) {
		if err != nil {
			w.trouble("The demo film was not made", err)
			return
		}
		w.leave(func() { w.openFilm(path) })
	})
}

// leave asks what becomes of what is still being written and of a film without
// a name, then goes on.
func (w *window) leave(then func()) {
	n := w.jobs.Queued()
	if n == 0 {
		w.leaveFilm(then)
		return
	}
	words := "It is stopped, and nothing of it is left, if this film is left now."
	if n > 1 {
		words = fmt.Sprintf("All %d are stopped, and nothing of them is left, if this film is left now.", n)
	}
	ask := dialog.NewCustomWithoutButtons("Something is still being written", small(words), w.win)
	ask.SetButtons(buttons(quiet("Stop writing", func() { ask.Hide(); w.leaveFilm(then) }), strong("Go back", ask.Hide)))
	ask.Show()
}

func (w *window) leaveFilm(then func()) {
	if !w.desk.Untitled() {
		then()
		return
	}
	ask := dialog.NewCustomWithoutButtons("This film has no name yet", small("Give it one, or everything in it is lost."), w.win)
	ask.SetButtons(buttons(
		quiet("Go back", ask.Hide),
		quiet("Throw it away", func() { ask.Hide(); w.desk.Abandon(); then() }),
		strong("Save as…", func() { ask.Hide(); w.saveDialog("Save the film", w.desk.SaveAs, then) }),
	))
	ask.Show()
}

func (w *window) saveAs() {
	w.saveDialog("Save the film", w.desk.SaveAs, func() {
		w.remember()
		w.show()
		// After what the file before had to complain of.
		words := "Saved as " + filepath.Base(w.desk.Path()) + ". From here on every change is kept there by itself."
		w.post(func() { w.foot.Say(words) })
	})
}

// compactDialog offers to drop what undo and redo need.
func (w *window) compactDialog() {
	ask := dialog.NewCustomWithoutButtons("Make the file smaller?", container.NewVBox(
		small("What was done before can no longer be undone, and pictures that no panel shows are dropped."),
		small("The film itself stays as it is.")), w.win)
	ask.SetButtons(buttons(quiet("Go back", ask.Hide), strong("Compact", func() {
		ask.Hide()
		won, err := w.desk.Compact()
		if err != nil {
			w.trouble("The film was not compacted", err)
			return
		}
		w.foot.Say(fmt.Sprintf("The film is %s smaller.", sizeWords(max(0, won))))
	})))
	ask.Show()
}

// writeFolder writes the film as a folder of ordinary files.
func (w *window) writeFolder() {
	name := fileName(w.desk.Name())
	w.pick(pickRequest{title: "Write the film as a folder", kind: "folders", saveAs: name, extensions: []string{""}}, func(paths []string) {
		d, b := w.desk, w.board
		w.jobs.Run("Writing "+filepath.Base(paths[0]), func(ctx context.Context, p desk.Progress) error {
			return d.WriteFolder(ctx, paths[0], b, p)
		}, func(err error) {
			if err != nil {
				w.trouble("The folder was not written", err)
				return
			}
			w.foot.Say("The folder is written: film.json, pictures and song as ordinary files.")
		})
	})
}

// readFolder makes a film of such a folder.
func (w *window) readFolder() {
	w.leave(func() {
		w.pick(pickRequest{title: "Read a film from a folder: choose its film.json", kind: "folders", extensions: []string{".json"}}, func(paths []string) {
			var read *desk.Desk
			w.jobs.Run("Reading the folder", func(ctx context.Context, p desk.Progress) (err error) {
				read, err = desk.NewFromFolder(ctx, filepath.Dir(paths[0]), p)
				return err
			}, func(err error) {
				if err != nil {
					w.trouble("The folder was not read", err)
					return
				}
				w.adoptDesk(read)
			})
		})
	})
}

func (w *window) saveCopy() {
	w.saveDialog("Save a copy", w.desk.SaveCopy, func() { w.foot.Say("The copy is written.") })
}

// saveDialog asks for a name and saves there.
func (w *window) saveDialog(title string, save func(path string) error, then func()) {
	name := strings.TrimSpace(w.desk.Board().Title)
	if name == "" {
		name = "My film"
	}
	w.pick(pickRequest{title: title, extensions: []string{file.Ext}, kind: "films", saveAs: fileName(name) + file.Ext},
		func(paths []string) {
			path := paths[0]
			if filepath.Ext(path) != file.Ext {
				path += file.Ext
			}
			if err := save(path); err != nil {
				w.trouble("The film was not saved", err)
				return
			}
			then()
		})
}

// confirmReplace asks before a file that is there is written over.
func (w *window) confirmReplace(path, ext string, then func()) {
	path = withEnding(path, ext)
	if _, err := os.Stat(path); err != nil {
		then()
		return
	}
	ask := dialog.NewCustomWithoutButtons("Replace the file?", small(filepath.Base(path)+" is there already."), w.win)
	ask.SetButtons(buttons(quiet("Keep it", ask.Hide), strong("Replace", func() { ask.Hide(); then() })))
	ask.Show()
}

// fileName makes a file name of a title.
func fileName(title string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, title)
}

// close leaves the film and the program.
func (w *window) close() {
	w.leave(func() {
		w.stop()
		w.jobs.StopAll()
		w.card.Settle()
		w.keepPlace()
		w.keepArrangement()
		if err := w.desk.Flush(); err != nil && !w.closing {
			w.closing = true
			w.trouble("The last changes could not be written: save the film elsewhere, or close again to leave", err)
			return
		}
		w.outside.Stop()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}
