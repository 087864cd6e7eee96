// Package input reads sound files a part at a time.
package input

import (
	"errors"
	"io"
)

// Window reads a file from its start to its end, a part at a time.
type Window struct {
	file io.ReaderAt
	size int64
	at   int64  // place in the file of buf[0]
	buf  []byte // what was read and not passed
	mem  []byte
}

// windowBytes is the least that is read at a time.
const windowBytes = 256 << 10

// NewWindow starts at the beginning of a file of the given size.
func NewWindow(file io.ReaderAt, size int64) *Window {
	return &Window{file: file, size: size}
}

// At returns the place in the file.
func (w *Window) At() int64 { return w.at }

// Peek returns the next n bytes and perhaps more, fewer at the end of the
// file. They are valid until the next call.
func (w *Window) Peek(n int) ([]byte, error) {
	left := w.Left()
	if len(w.buf) >= n || int64(len(w.buf)) >= left {
		return w.buf, nil
	}
	want := int(min(left, int64(max(n, windowBytes))))
	if cap(w.mem) < want {
		w.mem = make([]byte, want)
	}
	have := copy(w.mem[:want], w.buf)
	n, err := w.file.ReadAt(w.mem[have:want], w.at+int64(have))
	w.buf = w.mem[:have+n]
	if errors.Is(err, io.EOF) { // the file has shrunk since
		w.size = w.at + int64(len(w.buf))
		err = nil
	}
	return w.buf, err
}

// Left returns how many bytes there are from here on.
func (w *Window) Left() int64 { return w.size - w.at }

// Pass moves on by n bytes, which may lie past the end of the file.
func (w *Window) Pass(n int64) {
	n = min(n, w.Left())
	w.at += n
	w.buf = w.buf[min(n, int64(len(w.buf))):]
}
