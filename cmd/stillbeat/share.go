package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"stillbeat/board/desk"
	"stillbeat/board/picture"
	"stillbeat/board/share"
)

// shareOptions is what the share command is asked for.
type shareOptions struct {
	to     string
	silent bool
	size   size
	force  bool
}

func (a *app) shareCommand() *cobra.Command {
	o := shareOptions{size: size{picture.Width, picture.Height}}
	cmd := &cobra.Command{
		Use:   "share FILM -o OUT [--silent] [--size WxH] [--force]",
		Short: "Write the animatic, or a list of it, as a file for others",
		Long: `Write FILM as a file for others. The ending of OUT says what:
` + formatHelp(),
		Example: `  stillbeat share dance.stillbeat -o dance.mp4
  stillbeat share dance.stillbeat -o dance.mp4 --silent --size 640x360 --force
  stillbeat share dance.stillbeat -o dance.otio`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.to == "" {
				return wrong(cmd, "say where to write it: -o OUT")
			}
			format, found := formatOf(o.to)
			if !found {
				return wrong(cmd, "%q is nothing that can be written: the name must end in %s", o.to, endings())
			}
			if format.list && cmd.Flags().Changed("size") {
				return wrong(cmd, "--size is for pictures: %s has none", format.ending)
			}
			return viewFilm(args[0], func(d *desk.Desk) error { return a.share(cmd.Context(), d, args[0], format, o) })
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.to, "output", "o", "", "write `OUT`")
	f.BoolVar(&o.silent, "silent", false, "leave the song out")
	f.Var(sizeFlag(&o.size), "size", "width and height in pixels")
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	return cmd
}

func (a *app) share(ctx context.Context, d *desk.Desk, film string, format shareFormat, o shareOptions) error {
	if err := checkOutput(o.to, o.force); err != nil {
		return err
	}
	if sameFile(film, o.to) {
		return fmt.Errorf("write %q: it is the film itself", o.to)
	}
	if err := format.write(a, ctx, d, o); err != nil {
		return fmt.Errorf("share %q: %w", film, err)
	}
	return a.say("%s: %s", o.to, gist(d.Board()))
}

// writeMP4 writes the animatic, with progress.
func (a *app) writeMP4(ctx context.Context, d *desk.Desk, o shareOptions) error {
	m := a.meter()
	defer m.close()
	b := d.Board()
	sound := d.Sound()
	if b.Song != nil && !o.silent && sound == nil {
		song, err := d.LoadSong(ctx, b, a.ear, desk.Wish{Samples: true}, m.stage("reading %s", b.Song.Name))
		if err != nil {
			return err
		}
		sound = song.Sound
	}
	return share.MP4(ctx, o.to, b, d.Pictures, sound, share.Options{
		Silent: o.silent, Width: o.size.w, Height: o.size.h,
		Progress: m.stage("writing %s", filepath.Base(o.to)),
	})
}

func sameFile(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(infoA, infoB)
}
