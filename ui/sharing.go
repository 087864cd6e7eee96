package ui

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/desk"
	"stillbeat/board/share"
)

// sizes offered for an animatic, the film's shape at common heights.
var sizes = []struct {
	name string
	w, h int
}{{"854 x 480, small", 854, 480}, {"1280 x 720", 1280, 720}, {"1920 x 1080, large", 1920, 1080}}

// shareDialog asks how the animatic is to be and where it goes.
func (w *window) shareDialog() {
	if len(w.board.Panels) == 0 {
		return
	}
	var names []string
	for _, s := range sizes {
		names = append(names, s.name)
	}
	size := widget.NewSelect(names, nil)
	size.SetSelectedIndex(1)
	sound := widget.NewCheck("with the song", nil)
	sound.Checked = w.board.Song != nil
	if w.board.Song == nil {
		sound.Disable()
	}
	n := w.board.Frames()
	facts := small(fmt.Sprintf("%d frames at %s fps, %.1f seconds", n, w.board.Rate, w.board.Rate.Seconds(n)))
	form := container.New(layout.NewFormLayout(), label("Size"), size, label("Sound"), sound, label("Length"), centred(facts))
	var box *dialog.CustomDialog
	caution := w.cautionBeforeSharing(func() {
		if box != nil {
			box.Resize(box.MinSize())
		}
	})
	box = dialog.NewCustomWithoutButtons("Share the animatic as MP4", container.NewVBox(padded(0, 6, form), caution), w.win)
	box.SetButtons(buttons(quiet("Cancel", box.Hide), strong("Choose the file…", func() {
		box.Hide()
		s := sizes[size.SelectedIndex()]
		w.shareTo(share.Options{Silent: !sound.Checked, Width: s.w, Height: s.h})
	})))
	box.Show()
}

func (w *window) shareTo(opts share.Options) {
	name := fileName(w.desk.Name()) + ".mp4"
	w.pick(pickRequest{title: "Write the animatic", extensions: []string{".mp4"}, kind: "shares", saveAs: name}, func(paths []string) {
		path := paths[0]
		if !strings.EqualFold(filepath.Ext(path), ".mp4") {
			path += ".mp4"
		}
		b, d, sound := w.board, w.desk, w.desk.Sound()
		w.jobs.Run("Writing "+filepath.Base(path), func(ctx context.Context, p desk.Progress) error {
			if b.Song != nil && !opts.Silent && sound == nil {
				song, err := d.LoadSong(ctx, b, w.ear, desk.Wish{Samples: true}, nil)
				if err != nil {
					return err
				}
				sound = song.Sound
			}
			opts.Progress = p
			return share.MP4(ctx, path, b, d.Pictures, sound, opts)
		}, func(err error) {
			if err != nil {
				w.trouble("The animatic was not written", err)
				return
			}
			w.foot.Say("The animatic is written: " + path)
		})
	})
}
