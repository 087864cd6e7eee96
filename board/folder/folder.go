// Package folder writes a film as a folder of ordinary files and reads it
// back without loss, so that nobody's work is locked in: film.json is the
// board, and beside it lie the pictures and the song as they were brought in.
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
	songFolder    = "song"
)

// Limits of what is read, in bytes.
const (
	maxJSON   = 64 << 20  // of film.json
	maxMedium = 512 << 20 // of a picture or a song: what a film takes
)

// Source returns the bytes of a picture or song of a film and the name under
// which it was brought in.
type Source func(board.MediaID) (data []byte, name string, err error)

// Medium is a picture or a song in a folder that was read.
type Medium struct {
	ID   board.MediaID
	Name string // under which it was brought in
	Song bool   // else it is a picture

	folder, file string // where it lies
}
