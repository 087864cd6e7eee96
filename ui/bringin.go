package ui

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/file"
	"stillbeat/board/picture"
)

// every is how many beats a new panel holds.
const every = 2

func (w *window) openSong() {
	w.pick(pickRequest{title: "Bring in a song", extensions: audio.Formats(), kind: "song"},
		func(paths []string) { w.bringSong(paths[0]) })
}

func (w *window) addPictures() {
	w.pick(pickRequest{title: "Add pictures", extensions: picture.Extensions, kind: "pictures", several: true}, w.bringPictures)
}

func (w *window) replacePicture() {
	i := w.chosen
	if i < 0 {
		return
	}
	id := w.board.Panels[i].ID
	w.pick(pickRequest{title: "Replace the picture of panel " + w.board.Number(i), extensions: picture.Extensions, kind: "pictures"},
		func(paths []string) {
			w.readPictures(paths, nil, func(pics []desk.ReadPicture) error {
				at := w.board.Index(id)
				if at < 0 {
					return board.ErrNoPanel
				}
				return w.desk.ReplacePicture(at, pics[0])
			})
		})
}

// bringSong reads a song, listens to it and lays it under the film.
func (w *window) bringSong(path string) {
	d := w.desk
	var song *desk.ReadSong
	w.jobs.Run("Listening to "+filepath.Base(path), func(ctx context.Context, p desk.Progress) (err error) {
		if song, err = desk.NewSong(ctx, path, w.ear, desk.Wish{Samples: true}, p); err != nil {
			return err
		}
		return d.KeepSong(ctx, song)
	}, func(err error) {
		if d != w.desk {
			return
		}
		if err == nil {
			err = d.LaySong(song)
		}
		if err != nil {
			w.trouble("The song was not brought in", err)
			return
		}
		w.timeline.FitAll()
		w.foot.Say(heardWords(song))
	})
}

// heardWords says what was heard in a song.
func heardWords(s *desk.ReadSong) string {
	g := s.Grid
	if g.Empty() {
		return fmt.Sprintf("%s: no steady beat found. Starts can be dragged freely, or snapped to onsets.", s.Name)
	}
	words := fmt.Sprintf("%s: %d beats at %.1f BPM", s.Name, len(g.Beats), g.Tempo)
	if g.Metre > 0 {
		words += fmt.Sprintf(", %d to the bar", g.Metre)
	}
	if g.Confidence < 0.5 {
		words += ". The beat is not steady everywhere: check it by ear"
	}
	return words + "."
}

// bringPictures adds pictures after the chosen panel, else at the end.
func (w *window) bringPictures(paths []string) { w.addFiles(paths, nil) }

// addFiles adds pictures; with those among them that cannot be read it tells of
// what could not be found before.
func (w *window) addFiles(paths []string, before []error) {
	w.readPictures(paths, before, func(pics []desk.ReadPicture) error {
		at := len(w.board.Panels)
		if w.chosen >= 0 && w.chosen < at-1 {
			at = w.chosen + 1
		}
		if err := w.desk.AddPictures(at, pics, every); err != nil {
			return err
		}
		w.choose(at + len(pics) - 1)
		w.foot.Say(fmt.Sprintf("Added %d %s.", len(pics), plural(int64(len(pics)), "panel")))
		return nil
	})
}

// readPictures reads pictures as a job and lays those that are pictures; what
// could not be read is told in one list at the end.
func (w *window) readPictures(paths []string, before []error, lay func([]desk.ReadPicture) error) {
	d := w.desk
	var good []desk.ReadPicture
	var bad []error
	w.jobs.Run(fmt.Sprintf("Reading %d %s", len(paths), plural(int64(len(paths)), "picture")),
		func(ctx context.Context, p desk.Progress) (err error) {
			good, bad, err = desk.NewPictures(ctx, paths, p.Part(0, 0.6))
			if err != nil {
				return err
			}
			return d.KeepPictures(ctx, good, p.Part(0.6, 1))
		}, func(err error) {
			if d != w.desk {
				return
			}
			if err == nil && len(good) > 0 {
				err = lay(good)
			}
			if err != nil {
				w.trouble("The pictures were not added", err)
			}
			if bad = append(before, bad...); len(bad) > 0 {
				w.trouble(fmt.Sprintf("%d of %d could not be read", len(bad), len(paths)+len(before)), errors.Join(bad...))
			}
		})
}

// dropped brings in files let fall on the window.
func (w *window) dropped(uris []fyne.URI) {
	var paths []string
	for _, u := range uris {
		paths = append(paths, u.Path())
	}
	w.bringFiles(paths)
}

// bringFiles sorts files dropped or pasted: a film is opened, a song is brought
// in, notes of others are taken, all other files are taken for pictures, those of a folder in its place.
func (w *window) bringFiles(paths []string) {
	var pictures, songs, notes []string
	for _, path := range paths {
		ext := strings.ToLower(filepath.Ext(path))
		switch {
		case ext == file.Ext:
			w.leave(func() { w.openFilm(path) })
			return
		case has(audio.Formats(), ext):
			songs = append(songs, path)
		case isNotes(ext):
			notes = append(notes, path)
		default:
			pictures = append(pictures, path)
		}
	}
	if len(songs)+len(pictures)+len(notes) == 0 {
		return
	}
	if err := w.desk.ReadOnly(); err != nil {
		w.foot.Say(sentence(err.Error()))
		return
	}
	for _, path := range songs {
		w.bringSong(path)
	}
	w.bringRemarks(notes)
	desk.SortNaturally(pictures)
	files, bad := desk.WithFolders(pictures)
	switch {
	case len(files) > 0:
		w.addFiles(files, bad)
	case len(bad) > 0:
		w.trouble("There is nothing to add", errors.Join(bad...))
	}
}

func has(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// trouble shows what went wrong, a line for each cause.
func (w *window) trouble(title string, err error) {
	w.inform(title, strings.Split(err.Error(), "\n"))
}

// wrapped breaks long lines between words.
func wrapped(s string, width int) string {
	var out []string
	for _, line := range strings.Split(s, "\n") {
		at := ""
		for _, word := range strings.Fields(line) {
			if at != "" && len([]rune(at))+1+len([]rune(word)) > width {
				out = append(out, at)
				at = word
				continue
			}
			if at != "" {
				at += " "
			}
			at += word
		}
		out = append(out, at)
	}
	return strings.Join(out, "\n")
}
