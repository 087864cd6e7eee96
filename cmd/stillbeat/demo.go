package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"stillbeat/board/desk"
	"stillbeat/board/file"
	"stillbeat/board/picture"
)

// demoName is what the demo film's files are called.
const demoName = "the-last-lump"

func (a *app) demoCommand() *cobra.Command {
	var force, open bool
	cmd := &cobra.Command{
		Use:   "demo [DIR] [--force] [--open]",
		Short: "Look round in a film that is there already",
		Long: `Make the demonstration film, a tea table set to a tune of its own. Its beats are
found by listening to the tune, as with any song.

With DIR write into it the film, its animatic (MP4), its exposure sheet (PDF) and
the list of its beats (CSV). Without DIR open the window on a fresh copy of the film.`,
		Example: `  stillbeat demo
  stillbeat demo tryout
  stillbeat demo tryout --force --open`,
		Args: takes(0, 1, "one DIR at most"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				if !a.display() {
					return errNoDisplay
				}
				film, err := a.freshDemo(cmd.Context())
				if err != nil {
					return err
				}
				return a.show(film)
			}
			film, err := a.demoFiles(cmd.Context(), args[0], force)
			if err != nil || !open {
				return err
			}
			if !a.display() {
				return a.say("There is no display to open the window on; elsewhere: stillbeat %s", film)
			}
			return a.show(film)
		},
	}
	cmd.Flags().BoolVar(&force, "force", false, "replace files that are there")
	cmd.Flags().BoolVar(&open, "open", false, "then open the window on the film, if there is a display")
	return cmd
}

// demoFiles writes film, animatic, sheet and beat list into dir and returns the path
// of the film. When it fails it takes back what it had written.
func (a *app) demoFiles(ctx context.Context, dir string, force bool) (film string, err error) {
	there, err := makeDir(dir)
	if err != nil {
		return "", err
	}
	base := filepath.Join(dir, demoName)
	film, animatic, sheet, beats := base+file.Ext, base+".mp4", base+".sheet.pdf", base+".beats.csv"
	paths := []string{film, animatic, sheet, beats}
	var fresh []string // files that are not there yet
	for _, path := range paths {
		if err := checkOutput(path, force); err != nil {
			return "", err
		}
		if _, err := os.Stat(path); err != nil {
			fresh = append(fresh, path)
		}
	}
	defer func() {
		if err != nil {
			for _, path := range fresh {
				os.Remove(path)
			}
			removeDirs(dir, there)
		}
	}()
	err = a.withDemo(ctx, film, func(d *desk.Desk) error {
		o := shareOptions{to: animatic, size: size{picture.Width, picture.Height}}
		if err := a.writeMP4(ctx, d, o); err != nil {
			return err
		}
		printed := usualSheet
		printed.to = sheet
		if err := writeSheet(d.Board(), printed); err != nil {
			return err
		}
		return writeFile(beats, beatList(d.Board().Grid))
	})
	if err != nil {
		return "", fmt.Errorf("write the demo into %q: %w", dir, err)
	}
	for _, path := range paths {
		if err := a.say("%s", path); err != nil {
			return "", err
		}
	}
	return film, nil
}

// makeDir makes dir, with the folders above it, and returns the innermost one
// that was there before.
func makeDir(dir string) (there string, err error) {
	for there = filepath.Clean(dir); ; there = filepath.Dir(there) {
		if _, err := os.Stat(there); err == nil || there == filepath.Dir(there) {
			break
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		removeDirs(dir, there)
		return "", fmt.Errorf("make the folder %q: %w", dir, bare(err))
	}
	return there, nil
}

// removeDirs takes away dir and the folders above it up to there, as far as
// they are empty.
func removeDirs(dir, there string) {
	for dir = filepath.Clean(dir); dir != there; dir = filepath.Dir(dir) {
		if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return
		}
	}
}

// freshDemo makes a copy of the demo film for the window to open, in a folder
// of its own, so that one that was worked on is never lost.
func (a *app) freshDemo(ctx context.Context) (film string, err error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		cache = os.TempDir()
	}
	folder := filepath.Join(cache, "stillbeat")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("make the folder %q: %w", folder, bare(err))
	}
	dir, err := os.MkdirTemp(folder, "demo-*")
	if err != nil {
		return "", fmt.Errorf("make a folder for the demo: %w", bare(err))
	}
	film = filepath.Join(dir, demoName+file.Ext)
	if err := a.withDemo(ctx, film, nil); err != nil {
		os.RemoveAll(dir)
		return "", fmt.Errorf("make the demo film: %w", err)
	}
	return film, nil
}
