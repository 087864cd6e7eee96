package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func (a *app) unpackCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "unpack FILM DIR",
		Short: "Write a film as a folder of ordinary files",
		Long: `Write FILM as the folder DIR, which must not be there or be empty: its pictures
and its song as they were brought in, and film.json, which holds the board as
text. Other programs can use them, and pack makes a film of them again. The
history of undo is left out. FILM stays as it is.`,
		Example: `  stillbeat unpack dance.stillbeat dance
  stillbeat unpack dance.stillbeat dance && ls dance/pictures`,
		Args: takes(2, 2, "a FILM and the DIR to make"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return viewFilm(args[0], func(d *desk.Desk) error { return a.unpack(cmd.Context(), d, args[1]) })
		},
	}
}

func (a *app) unpack(ctx context.Context, d *desk.Desk, dir string) error {
	m := a.meter()
	defer m.close()
	b := d.Board()
	if err := d.WriteFolder(ctx, dir, b, m.stage("writing %s", dir)); err != nil {
		return err
	}
	m.close()
	song := ""
	if b.Song != nil {
		song = " and " + b.Song.Name
	}
	return a.say("%s: film.json, %s%s", dir, count(countPictures(b), "picture"), song)
}

// countPictures returns how many different pictures a board shows.
func countPictures(b board.Board) int {
	seen := map[board.MediaID]bool{}
	for _, p := range b.Panels {
		if p.Picture != "" {
			seen[p.Picture] = true
		}
	}
	return len(seen)
}

func (a *app) packCommand() *cobra.Command {
	var force bool
	cmd := &cobra.Command{
		Use:   "pack DIR FILM [--force]",
		Short: "Make a film of a folder that unpack wrote",
		Long: `Make FILM, whose name ends in .stillbeat, of the folder DIR that unpack wrote.
In between, film.json may have been edited and pictures replaced by others under
the same name. DIR stays as it is.`,
		Example: `  stillbeat pack dance dance.stillbeat
  stillbeat pack dance dance.stillbeat --force`,
		Args: takes(2, 2, "a DIR and the FILM to make"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := checkFilmName(cmd, args[1]); err != nil {
				return err
			}
			return a.pack(cmd.Context(), args[0], args[1], force)
		},
	}
	cmd.Flags().BoolVar(&force, "force", false, "replace FILM if it is there")
	return cmd
}

func (a *app) pack(ctx context.Context, dir, film string, force bool) error {
	if err := checkOutput(film, force); err != nil {
		return err
	}
	m := a.meter()
	defer m.close()
	d, err := desk.NewFromFolder(ctx, dir, m.stage("reading %s", dir))
	if err != nil {
		return err
	}
	b := d.Board()
	if err := nameFilm(d, film, func(*desk.Desk) error { return ctx.Err() }); err != nil {
		return fmt.Errorf("make %q: %w", film, err)
	}
	m.close()
	return a.say("%s: %s", film, gist(b))
}
