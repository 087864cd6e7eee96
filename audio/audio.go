// Package audio opens sound files. It tells the format by content, never by
// name, and knows nothing of boards or screens.
package audio

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"stillbeat/audio/clip"
	"stillbeat/audio/flac"
	"stillbeat/audio/internal/input"
	"stillbeat/audio/internal/tags"
	"stillbeat/audio/mp3"
	"stillbeat/audio/vorbis"
	"stillbeat/audio/wav"
)

// MaxFileBytes is the largest file Open reads, 2 GB: over three hours of
// 16-bit stereo at 48 kHz.
const MaxFileBytes = 2 << 30

// Formats returns the file name extensions, in lower case and with the dot,
// of the formats that can be read. Use it for file dialogs only: Open looks at
// the content.
func Formats() []string {
	return []string{".mp3", ".wav", ".flac", ".ogg", ".oga"}
}

// Open decodes the sound file at path into sink: see Decode for progress and
// errors. Of a WAV or FLAC file little is in memory at a time. Files over
// MaxFileBytes are refused.
func Open(ctx context.Context, path string, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	name := filepath.Base(path)
	f, size, err := openFile(path)
	if err != nil {
		return clip.Info{}, openError(name, err)
	}
	defer f.Close()
	info, err := decode(ctx, source{ReaderAt: f, size: size}, sink, progress)
	if err != nil {
		return clip.Info{}, openError(name, err)
	}
	return info, nil
}

// Decode decodes a whole sound file into sink and returns what came out: MP3,
// WAV, FLAC or Ogg Vorbis. The sink works on a goroutine of its own beside the
// decoder and has ended when Decode returns. name is used in errors only, which
// read
//
//	open song "waltz.mp3": <cause>
//
// and wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of ctx or sink. On error the sink may hold a part of the sound.
//
// progress, if not nil, is called with the part that is done, 0 to 1, never
// going down, one call at a time.
func Decode(ctx context.Context, name string, data []byte, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	info, err := decode(ctx, source{bytes.NewReader(data), int64(len(data)), data}, sink, progress)
	if err != nil {
		return clip.Info{}, openError(name, err)
	}
	return info, nil
}

// source is a sound file, on disk or in memory.
type source struct {
	io.ReaderAt
	size int64
	data []byte // nil for one on disk
}

func decode(ctx context.Context, s source, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	if err := ctx.Err(); err != nil {
		return clip.Info{}, err
	}
	kind, err := s.identify()
	if err != nil {
		return clip.Info{}, err
	}
	beside := newRelay(sink)
	defer beside.stop()
	switch kind {
	case kindWAV:
		return wav.Decode(ctx, s, s.size, beside, progress)
	case kindFLAC:
		return flac.Decode(ctx, s, s.size, beside, progress)
	case kindVorbis, kindMP3:
		data, err := s.whole(ctx)
		if err != nil {
			return clip.Info{}, err
		}
		if kind == kindMP3 {
			return mp3.Decode(ctx, data, beside, progress)
		}
		return vorbis.Decode(ctx, data, beside, progress)
	}
	return clip.Info{}, kind.refusal()
}

// identify tells what the file holds.
func (s source) identify() (kind, error) {
	in := input.NewWindow(s, s.size)
	if err := tags.PassID3(in); err != nil {
		return "", err
	}
	const enough = 256 << 10
	start, err := in.Peek(enough)
	return identify(start, in.At() > 0), err
}

// whole returns the file in memory.
func (s source) whole(ctx context.Context) ([]byte, error) {
	if s.data != nil {
		return s.data, nil
	}
	data := make([]byte, s.size)
	for at := 0; at < len(data); {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		n, err := s.ReadAt(data[at:min(at+1<<20, len(data))], int64(at))
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

// openFile opens a regular file of at most MaxFileBytes.
func openFile(path string) (*os.File, int64, error) {
	info, err := os.Stat(path) // before opening, which would wait for a pipe
	switch {
	case err != nil:
		return nil, 0, err
	case info.IsDir():
		return nil, 0, errors.New("it is a folder, not a file")
	case !info.Mode().IsRegular():
		return nil, 0, errors.New("it is a device, not a file")
	case info.Size() > MaxFileBytes:
		return nil, 0, fmt.Errorf("%w: the file is larger than 2 GB", clip.ErrTooBig)
	}
	f, err := os.Open(path)
	return f, info.Size(), err
}

// openError says which file could not be opened, without its folder.
func openError(name string, err error) error {
	var inPath *fs.PathError
	if errors.As(err, &inPath) {
		err = inPath.Err
	}
	return fmt.Errorf("open song %q: %w", name, err)
}
