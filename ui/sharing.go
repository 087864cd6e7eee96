package ui

import (
	"path/filepath"
	"strings"

	"stillbeat/board/share"
)

// shareDialog asks as what the film is shared, first as it was last time.
func (w *window) shareDialog() { w.shareAs("") }

// shareCommands is the part of the File menu with a line for each format.
func (w *window) shareCommands(can func() bool) (c []*command) {
	for _, f := range shareFormats {
		c = append(c, &command{menu: "File", group: "Share as", name: f.name + " (" + f.kind() + ")…", can: can,
			do: func() { w.shareAs(f.ending) }})
	}
	return c
}

// shareAs opens the dialog at a format, "" for the one of last time.
func (w *window) shareAs(ending string) *shareDialog {
	if len(w.board.Panels) == 0 {
		return nil
	}
	w.stop()
	choice := readSharing(w.app.Preferences().String(sharingKey))
	if ending != "" {
		choice.Format = ending
	}
	return newShareDialog(w, choice)
}

// shareTo asks where the film is written and queues it.
func (w *window) shareTo(e *export) {
	f := e.format
	title := "Write: " + strings.ToLower(f.name)
	extensions := []string{f.ending}
	if f.folder() {
		title, extensions = "Write the pictures into a new folder", []string{""}
	}
	w.pick(pickRequest{title: title, extensions: extensions, kind: "shares", saveAs: w.shareName(f)}, func(paths []string) {
		e.path = withEnding(paths[0], extensions[0])
		w.queueShare(e)
	})
}

// withEnding returns a path with an ending, which it may have in capitals.
func withEnding(path, ending string) string {
	if strings.HasSuffix(strings.ToLower(path), ending) && len(filepath.Base(path)) > len(ending) {
		return path
	}
	return path + ending
}

// newExport gathers what is needed to write the film as it is chosen now.
func (w *window) newExport(f *shareFormat, s sharing, o share.Options) *export {
	return &export{format: f, choice: s, opts: o, board: w.board, desk: w.desk, ear: w.ear, sound: w.desk.Sound(), wave: w.desk.Waveform()}
}
