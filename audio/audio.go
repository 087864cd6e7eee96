// Package audio opens sound files. It tells the format by content, never by
// name, and knows nothing of boards or screens.
package audio

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"stillbeat/audio/clip"
	"stillbeat/audio/flac"
	"stillbeat/audio/mp3"
	"stillbeat/audio/vorbis"
	"stillbeat/audio/wav"
)

// Clip is decoded sound: see package clip.
type Clip = clip.Clip

// MaxFileBytes is the largest file Open reads, 2 GB: over three hours of
// 16-bit stereo at 48 kHz.
const MaxFileBytes = 2 << 30

// Formats returns the file name extensions, in lower case and with the dot,
// of the formats that can be read. Use it for file dialogs only: Open looks at
// the content.
func Formats() []string {
	return []string{".mp3", ".wav", ".flac", ".ogg", ".oga"}
}

// Open reads the sound file at path: see Decode for progress and errors. Files
// over MaxFileBytes are refused.
func Open(ctx context.Context, path string, progress func(done float64)) (*Clip, error) {
	name := filepath.Base(path)
	data, err := readFile(ctx, path)
	if err != nil {
		return nil, openError(name, err)
	}
	return Decode(ctx, name, data, progress)
}

// Decode decodes a whole sound file: MP3, WAV, FLAC or Ogg Vorbis. name is
// used in errors only, which read
//
//	open song "waltz.mp3": <cause>
//
// and wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of ctx. On error the clip is nil.
//
// progress, if not nil, is called with the part that is done, 0 to 1, never
// going down, perhaps from other goroutines but never from two at once.
func Decode(ctx context.Context, name string, data []byte, progress func(done float64)) (*Clip, error) {
	c, err := decode(ctx, data, progress)
	if err != nil {
		return nil, openError(name, err)
	}
	return c, nil
}

func decode(ctx context.Context, data []byte, progress func(done float64)) (*Clip, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	switch kind := identify(data); kind {
	case kindWAV:
		return wav.Decode(ctx, data, progress)
	case kindFLAC:
		return flac.Decode(ctx, data, progress)
	case kindVorbis:
		return vorbis.Decode(ctx, data, progress)
	case kindMP3:
		return mp3.Decode(ctx, data, progress)
	default:
		return nil, kind.refusal()
	}
}

// readFile reads a regular file of at most MaxFileBytes.
func readFile(ctx context.Context, path string) ([]byte, error) {
	info, err := os.Stat(path) // before opening, which would wait for a pipe
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, errors.New("it is a folder, not a file")
	case !info.Mode().IsRegular():
		return nil, errors.New("it is a device, not a file")
	case info.Size() > MaxFileBytes:
		return nil, fmt.Errorf("%w: the file is larger than 2 GB", clip.ErrTooBig)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data := make([]byte, info.Size())
	for at := 0; at < len(data); {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		n, err := f.Read(data[at:min(at+1<<20, len(data))])
		at += n
		if err == io.EOF { // it has shrunk since
			return data[:at], nil
		}
		if err != nil {
			return nil, err
		}
	}
	return data, nil
}

// openError says which file could not be opened, without its folder.
func openError(name string, err error) error {
	var inPath *fs.PathError
	if errors.As(err, &inPath) {
		err = inPath.Err
	}
	return fmt.Errorf("open song %q: %w", name, err)
}
