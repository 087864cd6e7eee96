package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"stillbeat/board/desk"
	"stillbeat/board/share"
)

// shareOptions is what the share command is asked for.
type shareOptions struct {
	to       string
	from, up place // the part of the film
	size     size
	height   int
	quality  string
	under    megabytes
	burn     []string
	mark     string
	click    bool
	silent   bool
	each     string // what a PNG is made of
	force    bool
	pages    pageOptions
	cautions []string // that go with the film
}

func (a *app) shareCommand() *cobra.Command {
	o := shareOptions{quality: "standard", each: "panel", pages: usualPages}
	cmd := &cobra.Command{
		Use:   "share FILM -o OUT [OPTION]...",
		Short: "Write the film, a part or a list of it, as a file for others",
		Long: `Write FILM as a file for others. The ending of OUT says what:
` + formatHelp() + `

A place in the film is a frame (48), a timecode (00:00:02:00) or a panel by its
number (panel:3). What is written goes up to a frame or a timecode, and to the
end of a panel.

Without --size or --height a film has no bars, whatever its shape: it is as
large as fits into 1280x720, upright ones into 720x1280, a GIF into 640x640.`,
		Example: `  stillbeat share dance.stillbeat -o dance.mp4
  stillbeat share dance.stillbeat -o dance.mp4 --height 1080 --burn timecode,panel --mark "draft 2"
  stillbeat share dance.stillbeat -o turn.gif --from panel:3 --to panel:5
  stillbeat share dance.stillbeat -o mail.mp4 --under 10 --force
  stillbeat share dance.stillbeat -o panels.png
  stillbeat share dance.stillbeat -o dance.otio`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			format, err := o.check(cmd)
			if err != nil {
				return err
			}
			return viewFilm(args[0], func(d *desk.Desk) error { return a.share(cmd.Context(), d, args[0], format, o) })
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.to, "output", "o", "", "write `OUT`")
	f.Var(placeFlag(&o.from), "from", "begin at this place in the film")
	f.Var(placeFlag(&o.up), "to", "end at this place in the film")
	f.Var(sizeFlag(&o.size), "size", "width and height in pixels, with bars where the film\nhas another shape")
	f.Var(heightFlag(&o.height), "height", "height in pixels without bars, such as 480, 720, 1080,\n1440 or 2160; films wider than 16:9 are as wide as 16:9")
	f.Var(choiceFlag(&o.quality, "QUALITY", "small", "standard", "fine"), "quality", "small, standard or fine")
	f.Var(megabytesFlag(&o.under), "under", "as fine as fits into so many megabytes of 1000000 bytes")
	f.Var(burnFlag(&o.burn), "burn", "words over the pictures, with commas between:\n"+strings.Join(burnWords(), ", "))
	f.StringVar(&o.mark, "mark", "", "`TEXT` at the top of the pictures")
	f.BoolVar(&o.click, "click", false, "mix a click on each beat into the sound")
	f.BoolVar(&o.silent, "silent", false, "leave the song out")
	f.Var(choiceFlag(&o.each, "EACH", "panel", "frame"), "each", "a picture of each panel or of each frame")
	pageFlags(cmd, &o.pages)
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	return cmd
}

// check finds the format and refuses options that do not go together.
func (o shareOptions) check(cmd *cobra.Command) (shareFormat, error) {
	if o.to == "" {
		return shareFormat{}, wrong(cmd, "say where to write it: -o OUT")
	}
	format, found := formatOf(o.to)
	if !found {
		return format, wrong(cmd, "%q is nothing that can be written: the name must end in %s", o.to, endings())
	}
	var err error
	cmd.LocalNonPersistentFlags().VisitAll(func(f *pflag.Flag) {
		if f.Changed && f.Name != "help" && !format.has(f.Name) && err == nil {
			err = wrong(cmd, "--%s is nothing for %s", f.Name, format.ending)
		}
	})
	if err != nil {
		return format, err
	}
	for _, two := range [][2]string{{"size", "height"}, {"quality", "under"}} {
		if cmd.Flags().Changed(two[0]) && cmd.Flags().Changed(two[1]) {
			return format, wrong(cmd, "--%s and --%s exclude each other", two[0], two[1])
		}
	}
	return format, nil
}

func (a *app) share(ctx context.Context, d *desk.Desk, film string, format shareFormat, o shareOptions) error {
	if format.ending != ".png" { // which is a folder
		if err := checkOutput(o.to, o.force); err != nil {
			return err
		}
	}
	if sameFile(film, o.to) {
		return fmt.Errorf("write %q: it is the film itself", o.to)
	}
	var err error
	if o.cautions, err = a.caution(ctx, d, format); err == nil {
		err = format.write(a, ctx, d, o)
	}
	if err != nil {
		return fmt.Errorf("share %q: %w", film, err)
	}
	out := o.to
	if format.ending == ".png" {
		out = pictureFolder(o.to)
	}
	b := d.Board()
	told := out + ": " + gist(b)
	if o.from.given() || o.up.given() {
		span, err := o.span(b)
		if err != nil {
			return err
		}
		told += fmt.Sprintf("; written from frame %d up to %d", span.Start, span.End)
	}
	if info, err := os.Stat(out); err == nil && o.under > 0 {
		told += fmt.Sprintf("; %.2f of %s MB", float64(info.Size())/1e6, o.under)
	}
	return a.say("%s", told)
}

// writeMP4 writes the animatic, with progress.
func (a *app) writeMP4(ctx context.Context, d *desk.Desk, o shareOptions) error {
	return a.withSound(ctx, d, o, func(s share.Options, sound soundOf) error {
		return share.MP4(ctx, o.to, d.Board(), d.Pictures, sound, s)
	})
}

func (a *app) writeWAV(ctx context.Context, d *desk.Desk, o shareOptions) error {
	return a.withSound(ctx, d, o, func(s share.Options, sound soundOf) error {
		return share.WAV(ctx, o.to, d.Board(), sound, s)
	})
}

func (a *app) writeGIF(ctx context.Context, d *desk.Desk, o shareOptions) error {
	o.silent, o.click = true, false
	return a.withSound(ctx, d, o, func(s share.Options, _ soundOf) error {
		return share.GIF(ctx, o.to, d.Board(), d.Pictures, s)
	})
}

func (a *app) writePNG(ctx context.Context, d *desk.Desk, o shareOptions) error {
	o.silent, o.click = true, false
	return a.withSound(ctx, d, o, func(s share.Options, _ soundOf) error {
		write, folder := share.Panels, pictureFolder(o.to)
		if o.each == "frame" {
			write = share.Frames
		}
		if err := checkFolder(folder, o.force); err != nil {
			return err
		}
		return write(ctx, folder, d.Board(), d.Pictures, s, o.force)
	})
}

// withSound reads the song if it is to be heard and lets write do its work,
// with progress.
func (a *app) withSound(ctx context.Context, d *desk.Desk, o shareOptions, write func(share.Options, soundOf) error) error {
	m := a.meter()
	defer m.close()
	b := d.Board()
	opts, err := o.export(b)
	if err != nil {
		return err
	}
	sound := d.Sound()
	if b.Song != nil && !o.silent && sound == nil {
		song, err := d.LoadSong(ctx, b, a.ear, desk.Wish{Samples: true}, m.stage("reading %s", b.Song.Name))
		if err != nil {
			return err
		}
		sound = song.Sound
	}
	opts.Progress = m.stage("writing %s", filepath.Base(o.to))
	return write(opts, sound)
}

// pictureFolder is the folder that a name ending in .png asks for.
func pictureFolder(path string) string { return path[:len(path)-len(".png")] }

// checkFolder is checkOutput for a folder of pictures.
func checkFolder(path string, force bool) error {
	if filepath.Base(path) == "." || path == "" || strings.HasSuffix(path, string(filepath.Separator)) {
		return errors.New("the name before .png is that of the folder: it needs one")
	}
	parent, err := os.Stat(filepath.Dir(path))
	if err != nil || !parent.IsDir() {
		return fmt.Errorf("write %q: there is no folder %q", filepath.Base(path), filepath.Dir(path))
	}
	if _, err := os.Lstat(path); err == nil && !force {
		return fmt.Errorf("write %q: it is there already; --force replaces it", path)
	}
	return nil
}

func sameFile(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(infoA, infoB)
}
