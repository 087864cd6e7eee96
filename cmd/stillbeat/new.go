package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// newFilm is what the new command is asked for.
type newFilm struct {
	path, song, title string
	pictures          []string
	rate              board.FrameRate
	every, step       int
	force             bool
}

func (a *app) newCommand() *cobra.Command {
	o := newFilm{rate: board.New().Rate, every: 1, step: board.New().Step}
	cmd := &cobra.Command{
		Use:   "new FILM [--song SONG] [--fps RATE] [--every N] [--step N] [--title TITLE] PICTURE...",
		Short: "Start a film: pictures laid on the beats of a song",
		Long: `Make FILM, whose name ends in .stillbeat, of pictures (PNG, JPEG,
GIF, WebP, BMP, TIFF) in the order given; a folder stands for the pictures in
it, 2 before 10. Those that cannot be read are named at the end and the film is
made of the rest, with exit status 1. With a song each panel holds a beat,
or as many as --every says, and starts on one; without a song, or where no
steady beat is found in it, each holds a second. Pictures and song are copied
into the film.`,
		Example: `  stillbeat new dance.stillbeat --song waltz.mp3 --every 3 sketches
  stillbeat new dance.stillbeat --song waltz.mp3 --fps 12 --title "Tea dance" 1.jpg 2.jpg
  stillbeat new -- -odd-name.stillbeat 1.png 2.png`,
		Args: takes(2, -1, "a FILM to make and at least one PICTURE"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.path, o.pictures = args[0], args[1:]
			if err := checkFilmName(cmd, o.path); err != nil {
				return err
			}
			return a.make(cmd.Context(), o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.song, "song", "", "lay `SONG` under the film: MP3, WAV, FLAC or Ogg Vorbis")
	f.Var(rateFlag(&o.rate), "fps", "frames a second: 8, 12, 23.976, 24, 25, 30 or any other")
	f.Var(wholeFlag(&o.every, 1, 1000), "every", "beats each panel holds")
	f.Var(wholeFlag(&o.step, 1, board.MaxStep), "step", "frames per exposure: 1 on ones, 2 on twos")
	f.StringVar(&o.title, "title", "", "call the film `TITLE`")
	f.BoolVar(&o.force, "force", false, "replace FILM if it is there")
	return cmd
}

// make reads song and pictures and, when all is well, writes the film.
func (a *app) make(ctx context.Context, o newFilm) error {
	if err := checkOutput(o.path, o.force); err != nil {
		return err
	}
	pictures, bad, err := a.look(ctx, o.pictures)
	switch {
	case err != nil:
		return err
	case len(pictures) == 0:
		return bad
	}
	var song *desk.ReadSong
	if o.song != "" {
		if song, err = a.hear(ctx, o.song); err != nil {
			return err
		}
	}
	var b board.Board
	err = withNewFilm(o.path, func(d *desk.Desk) error {
		if err := doAll(d, board.SetTitle(o.title), board.SetRate(o.rate), board.SetStep(o.step)); err != nil {
			return err
		}
		if song != nil {
			if err := d.LaySong(song); err != nil {
				return err
			}
		}
		if err := d.AddPictures(0, pictures, o.every); err != nil {
			return err
		}
		b = d.Board()
		return ctx.Err()
	})
	if err != nil {
		return fmt.Errorf("make %q: %w", o.path, err)
	}
	laid := ""
	if song != nil && !b.OnGrid() {
		laid = "; no steady beat was found in the song, so each holds a second"
	}
	if err := a.say("%s: %s%s", o.path, gist(b), laid); err != nil || bad == nil {
		return err
	}
	return fmt.Errorf("%q is made without what could not be read: %w", o.path, bad)
}

// look reads pictures, those of folders too, with progress. bad tells of all that
// could not be read.
func (a *app) look(ctx context.Context, paths []string) (pictures []desk.ReadPicture, bad, err error) {
	files, missing := desk.WithFolders(paths)
	m := a.meter()
	defer m.close()
	pictures, damaged, err := desk.NewPictures(ctx, files, m.stage("reading %s", count(len(files), "picture")))
	return pictures, errors.Join(append(missing, damaged...)...), err
}

func doAll(d *desk.Desk, edits ...board.Edit) error {
	for _, e := range edits {
		if err := d.Do(e); err != nil {
			return err
		}
	}
	return nil
}
