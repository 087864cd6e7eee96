package ui

import (
	"context"
	"image"
	"strings"

	"stillbeat/board"
	"stillbeat/board/share"
	"stillbeat/board/share/guess"
	"stillbeat/board/share/lists"
	"stillbeat/board/share/otio"
	reviewpage "stillbeat/board/share/page"
)

// A shareFormat is something a film can be shared as.
type shareFormat struct {
	ending string // of the file's name
	name   string // in the list and in the menu
	use    string // what it is for, in a few words
	made   string // how what is written is called at the start of a sentence
	takes  takes
	// lines are the heights to choose from, as those of a 16:9 frame; usual is
	// the one that is first.
	lines []int
	usual int
	write func(*export) writer
	guess func(context.Context, *export) (guess.Size, error)                           // how large it gets; nil: it is as large as list
	seen  func(e *export, n board.Frame, wide, high int) (image.Image, error)          // how it looks at frame n, no larger than that; nil: it is not seen
	list  func(b board.Board, silent bool) (parts [][]byte, notes []string, err error) // of a format of text; nil: none
}

// takes are the options that a format has.
type takes uint16

const (
	takesRange takes = 1 << iota
	takesQuality
	takesSound
	takesClick
	takesBurn
	takesEach
	takesPages
	moves // it flashes where the film does

	takesHeight = 1 << 15 // it has heights to choose from
)

// has reports whether the format has all of some options.
func (f *shareFormat) has(t takes) bool { return f.takes&t == t }

// folder reports whether it is written as a folder.
func (f *shareFormat) folder() bool { return f.ending == ".png" }

// shareFormats has them all, as they are listed.
var shareFormats = []*shareFormat{
	{ending: ".mp4", name: "Film", use: "to watch anywhere", made: "The film", lines: share.Heights, usual: 720,
		takes: takesRange | takesHeight | takesQuality | takesSound | takesClick | takesBurn | moves, write: writeMP4, guess: guessMP4, seen: seenFrame},
	{ending: ".gif", name: "Moving picture", use: "silent, round and round", made: "The moving picture", lines: []int{180, 240, 360, 480, 720}, usual: 360,
		takes: takesRange | takesHeight | takesBurn | moves, write: writeGIF, guess: guessGIF, seen: seenFrame},
	{ending: ".png", name: "Pictures", use: "of each panel or frame", made: "The pictures", lines: share.Heights, usual: 720,
		takes: takesRange | takesHeight | takesBurn | takesEach, write: writePNG, guess: guessPNG, seen: seenFrame},
	{ending: ".wav", name: "Sound", use: "as long as the film", made: "The sound",
		takes: takesRange | takesSound | takesClick, write: writeWAV, guess: guessWAV},
	{ending: ".html", name: "Review page", use: "to look at and note on", made: "The review page", lines: []int{360, 540, 720, reviewpage.MaxHeight / 2}, usual: 540,
		takes: takesHeight | takesSound | moves, write: writePage, guess: guessPage, seen: seenFrame},
	{ending: ".pdf", name: "Printed board", use: "panels and words on paper", made: "The printed board",
		takes: takesSound | takesPages, write: writePDF, guess: guessPDF, seen: seenPaper},
	{ending: ".otio", name: "Timeline", use: "for editing programs", made: "The timeline", takes: takesSound, write: writeLists,
		list: oneList(func(b board.Board, silent bool) ([]byte, error) { return otio.Write(b, otio.Options{Silent: silent}) })},
	{ending: ".edl", name: "Cut list", use: "for older ones (CMX 3600)", made: "The cut list", takes: takesSound, write: writeLists, list: lists.CutList},
	{ending: ".srt", name: "Subtitles", use: "for players", made: "The subtitles", write: writeLists,
		list: oneList(func(b board.Board, _ bool) ([]byte, error) { return lists.SubRip(b) })},
	{ending: ".vtt", name: "Web subtitles", use: "for pages", made: "The subtitles", write: writeLists,
		list: oneList(func(b board.Board, _ bool) ([]byte, error) { return lists.WebVTT(b) })},
	{ending: ".csv", name: "Table of the panels", use: "for spreadsheets, and back", made: "The table", write: writeLists,
		list: oneList(func(b board.Board, _ bool) ([]byte, error) { return lists.PanelTable(b) })},
	{ending: ".beats.csv", name: "Table of the beats", use: "for spreadsheets", made: "The table", write: writeLists,
		list: oneList(func(b board.Board, _ bool) ([]byte, error) { return lists.BeatTable(b) })},
}

// oneList makes a list of a function that makes a single one, without notes.
func oneList(list func(board.Board, bool) ([]byte, error)) func(board.Board, bool) ([][]byte, []string, error) {
	return func(b board.Board, silent bool) ([][]byte, []string, error) {
		text, err := list(b, silent)
		return [][]byte{text}, nil, err
	}
}

// formatNamed returns the format of an ending and its place, the first for one
// that is not known.
func formatNamed(ending string) (*shareFormat, int) {
	for i, f := range shareFormats {
		if f.ending == ending {
			return f, i
		}
	}
	return shareFormats[0], 0
}

// kind is the ending as people write it: "MP4".
func (f *shareFormat) kind() string {
	return strings.ToUpper(f.ending[strings.LastIndex(f.ending, ".")+1:])
}

// size returns the pixels of a format's pictures, so many lines high where a
// 16:9 frame is. Upright films are as high as that is wide: a film held
// upright has the pixels of one that lies.
func (f *shareFormat) size(a board.Aspect, lines int) (w, h int) {
	if a.Ratio() < 1 {
		lines, _ = share.SizeOf(board.Aspect{W: 16, H: 9}, lines)
		if f.ending == ".html" {
			lines = min(lines, reviewpage.MaxHeight)
		}
	}
	if f.ending == ".html" {
		return a.Inside(1<<20, lines) // as page makes them
	}
	return share.SizeOf(a, lines)
}
