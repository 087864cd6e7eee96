// Package folder writes a film as a folder of ordinary files and reads it
// back without loss, so that nobody's work is locked in: film.json is the
// board, and beside it lie the pictures and the song as they were brought in,
// and the sketches.
// FORMAT.md describes film.json in words, film.schema.json exactly.
package folder

import "stillbeat/board"

// What film.json says of itself.
const (
	Format  = "stillbeat folder"
	Version = 1 // the newest version this package knows; it writes this one
)

// Places in the folder.
const (
	filmFile      = "film.json"
	pictureFolder = "pictures"
	sketchFolder  = "sketches"
	songFolder    = "song"
)

var mediaFolders = []string{pictureFolder, sketchFolder, songFolder}

// Limits of what is read, in bytes.
const (
	maxJSON   = 64 << 20  // of film.json
	maxMedium = 512 << 20 // of a medium: what a film takes
)

// Kind is what a medium is.
type Kind string

// The kinds of media.
const (
	Picture Kind = "picture"
	Song    Kind = "song"
	Sketch  Kind = "sketch" // as board.EncodeSketch writes it
)

// Source returns the bytes of a medium of a film and the name under which it
// was brought in.
type Source func(board.MediaID) (data []byte, name string, err error)

// Medium is a picture, a sketch or the song in a folder that was read.
type Medium struct {
	ID   board.MediaID
	Name string // under which it was brought in
	Kind Kind

	folder, file string // where it lies
}
