package ui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"stillbeat/audio"
	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/check"
	"stillbeat/board/desk"
	"stillbeat/board/share"
	reviewpage "stillbeat/board/share/page"
	"stillbeat/board/share/printed"
)

// export is one file or folder to be written: all that it needs, so that the
// film can be worked on meanwhile.
type export struct {
	format  *shareFormat
	choice  sharing
	opts    share.Options
	path    string
	board   board.Board
	desk    *desk.Desk
	ear     desk.Ear
	sound   board.Sound // nil: to be read
	wave    []byte
	caution []string // that go with the film, once it is checked
	checked bool
	notes   []string // what is not as asked
}

// writer writes an export.
type writer func(ctx context.Context) error

// queueShare has the film written after what is being written by now.
func (w *window) queueShare(e *export) {
	name := filepath.Base(e.path)
	w.jobs.Queue("Writing "+name, func(ctx context.Context, p desk.Progress) error {
		err := e.run(ctx, p)
		if err != nil && ctx.Err() != nil {
			w.post(func() { w.foot.Say(name + " was stopped: nothing of it is left.") })
		}
		return err
	}, func(err error) {
		if err != nil {
			w.trouble(e.format.made+" could not be written", err)
			return
		}
		w.foot.Say(e.told())
		if len(e.notes) > 0 {
			w.inform("Written, but not all of it fits in: "+name, e.notes)
		}
	})
}

// run checks for flashing if that was not done, reads the song if it is to be
// heard, and writes.
func (e *export) run(ctx context.Context, p desk.Progress) error {
	if e.format.has(moves) && !e.checked {
		report, err := check.Run(ctx, e.board, check.Options{Pictures: e.desk.Pictures})
		if err != nil {
			return err
		}
		e.caution, e.checked = check.Cautions(report.Findings), true
	}
	if err := e.readSong(ctx); err != nil {
		return err
	}
	e.opts.Progress = p
	return e.format.write(e)(ctx)
}

// readSong reads the song if the export needs it and it is not read: its sound,
// or for paper its waveform, which films from folders do not bring along.
func (e *export) readSong(ctx context.Context) error {
	paper := e.format.has(takesPages)
	known := paper && len(e.wave) > 0 || !paper && e.sound != nil
	if !e.format.has(takesSound) || e.format.list != nil || e.board.Song == nil || e.opts.Silent || known {
		return nil
	}
	song, err := e.desk.LoadSong(ctx, e.board, e.ear, desk.Wish{Samples: !paper}, nil)
	if err != nil && paper && ctx.Err() == nil { // the board is worth printing without it
		e.notes = append(e.notes, "the board has no waveform: "+err.Error())
		return nil
	}
	if err != nil {
		return err
	}
	e.sound, e.wave = song.Sound, song.Waveform
	return nil
}

// told says what was written.
func (e *export) told() string {
	words := fmt.Sprintf("%s: written to %s", e.format.made, e.path)
	if info, err := os.Stat(e.path); err == nil && !info.IsDir() {
		words += ", " + fileSize(info.Size())
	}
	if len(e.caution) > 0 {
		words = "Caution: it flashes. " + words
	}
	return words + "."
}

// fileSize writes a size in megabytes of a million bytes, as limits for mail and
// uploads are given.
func fileSize(n int64) string {
	if n < 100e3 {
		return fmt.Sprintf("%.0f kB", max(1, float64(n)/1e3))
	}
	return fmt.Sprintf("%.1f MB", float64(n)/bytesOfAnMB)
}

func writeMP4(e *export) writer {
	return func(ctx context.Context) error {
		return share.MP4(ctx, e.path, e.board, e.desk.Pictures, e.sound, e.opts)
	}
}

func writeGIF(e *export) writer {
	return func(ctx context.Context) error {
		return share.GIF(ctx, e.path, e.board, e.desk.Pictures, e.opts)
	}
}

func writeWAV(e *export) writer {
	return func(ctx context.Context) error { return share.WAV(ctx, e.path, e.board, e.sound, e.opts) }
}

// writePNG replaces a folder that is there: the window has asked.
func writePNG(e *export) writer {
	write := share.Panels
	if e.choice.Each == eachFrame {
		write = share.Frames
	}
	return func(ctx context.Context) error {
		return write(ctx, e.path, e.board, e.desk.Pictures, e.opts, true)
	}
}

func (e *export) pageOptions() reviewpage.Options {
	return reviewpage.Options{Silent: e.opts.Silent, Height: e.opts.Height, Progress: e.opts.Progress, Caution: strings.Join(e.caution, " "),
		Name: strings.TrimSuffix(filepath.Base(e.path), filepath.Ext(e.path))}
}

func writePage(e *export) writer {
	opts := e.pageOptions()
	return func(ctx context.Context) error {
		return beside.Save(e.path, func(out io.Writer) error {
			_, err := reviewpage.Write(ctx, out, e.board, e.desk.Pictures, e.sound, opts)
			return err
		})
	}
}

func (e *export) paperOptions() printed.Options {
	opts := printed.Options{PerPage: e.choice.PerPage, Paper: papers[e.choice.Paper].size, Landscape: e.choice.Landscape,
		Made: time.Now(), Progress: e.opts.Progress}
	if !e.opts.Silent {
		opts.Wave = peaksOf(e.wave)
	}
	return opts
}

func writePDF(e *export) writer {
	opts := e.paperOptions()
	return func(ctx context.Context) error {
		return beside.Save(e.path, func(out io.Writer) error {
			return printed.Board(ctx, out, e.board, e.desk.Pictures, opts)
		})
	}
}

// peaksOf returns a waveform for paper, nil if there is none.
func peaksOf(data []byte) func(from, to float64, n int) []printed.Peak {
	var wave audio.Pyramid
	if wave.UnmarshalBinary(data) != nil {
		return nil
	}
	return func(from, to float64, n int) []printed.Peak {
		out := make([]printed.Peak, n)
		for i, c := range wave.Columns(make([]audio.Column, n), from, to) {
			out[i] = printed.Peak{Min: c.Min, Max: c.Max}
		}
		return out
	}
}

// writeLists writes a list, which may have several parts: cup.edl, cup-2.edl.
func writeLists(e *export) writer {
	return func(context.Context) error {
		parts, notes, err := e.format.list(e.board, e.opts.Silent)
		if err != nil {
			return err
		}
		name := func(k int) string {
			if k == 0 {
				return e.path
			}
			return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(e.path, e.format.ending), k+1, e.format.ending)
		}
		for k := 1; k < len(parts); k++ { // the window has asked about the first
			if _, err := os.Lstat(name(k)); !errors.Is(err, os.ErrNotExist) {
				return fmt.Errorf("%s is there already: take it away, or choose another name", name(k))
			}
		}
		for k, part := range parts {
			err := beside.Save(name(k), func(out io.Writer) error {
				_, err := io.Copy(out, bytes.NewReader(part))
				return err
			})
			if err != nil {
				return err
			}
		}
		e.notes = notes
		return nil
	}
}
