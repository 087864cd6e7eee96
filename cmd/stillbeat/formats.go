package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/share/lists"
	"stillbeat/board/share/otio"
)

// A shareFormat is something a film can be shared as.
type shareFormat struct {
	ending string // of the file's name
	is     string // what help says of it
	takes  string // the options it has, beside those that all have
	write  func(*app, context.Context, *desk.Desk, shareOptions) error
}

// Options that formats have in common.
const (
	ofPictures = "from to size height burn mark "
	ofFilms    = ofPictures + "silent click quality under"
)

// shareFormats has them all. Where one ending is the end of another, the longer
// one comes first.
var shareFormats = []shareFormat{
	{".mp4", "the pictures, each for as long as it holds, with the song", ofFilms, (*app).writeMP4},
	{".gif", "the pictures alone, round and round", ofPictures, (*app).writeGIF},
	{".png", "each panel, or each frame, as a picture in the folder OUT without the ending", ofPictures + "each", (*app).writePNG},
	{".wav", "the sound, exactly as long as the film", "from to silent click", (*app).writeWAV},
	{".html", "a page to look at and note on, with all that it needs inside", "silent height", (*app).writePage},
	{".pdf", "the board on paper: pictures with their words, behind a cover", "silent per-page paper landscape", (*app).writePDF},
	{".otio", "a timeline for editing programs (OpenTimelineIO)", "silent", one(func(b board.Board, o shareOptions) ([]byte, error) {
		return otio.Write(b, otio.Options{Silent: o.silent})
	})},
	{".edl", "a cut list (CMX 3600); from 1000 events on OUT-2.edl and so on too", "silent", listed(func(b board.Board, o shareOptions) ([][]byte, []string, error) {
		return lists.CutList(b, o.silent)
	})},
	{".srt", "sound and dialogue as subtitles (SubRip)", "", one(func(b board.Board, _ shareOptions) ([]byte, error) { return lists.SubRip(b) })},
	{".vtt", "the same for web pages (WebVTT)", "", one(func(b board.Board, _ shareOptions) ([]byte, error) { return lists.WebVTT(b) })},
	{".beats.csv", "a table of the beats", "", one(func(b board.Board, _ shareOptions) ([]byte, error) { return lists.BeatTable(b) })},
	{".csv", "a table of the panels", "", one(func(b board.Board, _ shareOptions) ([]byte, error) { return lists.PanelTable(b) })},
}

// formatOf returns the format that a file's name asks for.
func formatOf(path string) (shareFormat, bool) {
	for _, f := range shareFormats {
		if strings.HasSuffix(strings.ToLower(path), f.ending) {
			return f, true
		}
	}
	return shareFormat{}, false
}

// endings lists what names can end in: ".mp4, .otio or .edl".
func endings() string {
	var all []string
	for _, f := range shareFormats {
		all = append(all, f.ending)
	}
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " or " + all[last]
}

// has reports whether the format has an option.
func (f shareFormat) has(option string) bool {
	return slices.Contains(strings.Fields("output force "+f.takes), option)
}

// formatHelp has a line for each format.
func formatHelp() string {
	var lines []string
	for _, f := range shareFormats {
		lines = append(lines, fmt.Sprintf("  %-10s %s", f.ending, f.is))
	}
	return strings.Join(lines, "\n")
}

// listed makes the writer of a format of a function from a board to the texts
// of one list or more, with notes on what did not fit in.
func listed(list func(board.Board, shareOptions) ([][]byte, []string, error)) func(*app, context.Context, *desk.Desk, shareOptions) error {
	return func(a *app, _ context.Context, d *desk.Desk, o shareOptions) error {
		parts, notes, err := list(d.Board(), o)
		if err != nil {
			return err
		}
		for k := 1; k < len(parts); k++ {
			if err := checkOutput(partName(o.to, k), o.force); err != nil {
				return err
			}
		}
		for k, part := range parts {
			if err := writeFile(partName(o.to, k), part); err != nil {
				return err
			}
		}
		a.note(notes)
		return nil
	}
}

// one is listed for formats of a single list without notes.
func one(list func(board.Board, shareOptions) ([]byte, error)) func(*app, context.Context, *desk.Desk, shareOptions) error {
	return listed(func(b board.Board, o shareOptions) ([][]byte, []string, error) {
		text, err := list(b, o)
		return [][]byte{text}, nil, err
	})
}

// partName returns the name of part k of a list, from 0: OUT.edl, OUT-2.edl.
func partName(path string, k int) string {
	if k == 0 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ext), k+1, ext)
}

// note tells what was not as asked, in a line each, also when asked to be quiet.
func (a *app) note(notes []string) {
	for _, n := range notes {
		fmt.Fprintf(a.errOut, "stillbeat: %s\n", oneLine(n))
	}
}
