package input

import (
	"bytes"
	"errors"
	"testing"
)

// content returns n bytes that differ from their neighbours.
func content(n int) []byte {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte(i) ^ byte(i>>8)
	}
	return b
}

func TestWindowReadsAllInOrder(t *testing.T) {
	want := content(3*windowBytes + 77)
	w := NewWindow(bytes.NewReader(want), int64(len(want)))
	for at, n := 0, 1; at < len(want); n = n*7%(windowBytes+9000) + 1 {
		if w.At() != int64(at) || w.Left() != int64(len(want)-at) {
			t.Fatalf("at %d with %d left, want %d and %d", w.At(), w.Left(), at, len(want)-at)
		}
		got, err := w.Peek(n)
		if err != nil || len(got) < min(n, len(want)-at) || !bytes.Equal(got, want[at:at+len(got)]) {
			t.Fatalf("Peek(%d) at %d: %d bytes, %v", n, at, len(got), err)
		}
		n = min(n, len(want)-at)
		w.Pass(int64(n))
		at += n
	}
	if got, err := w.Peek(1); len(got) != 0 || err != nil {
		t.Errorf("at the end: %v, %v", got, err)
	}
}

func TestWindowPasses(t *testing.T) {
	data := content(2 * windowBytes)
	for _, c := range []struct {
		name string
		pass int64
		want []byte
	}{
		{"nothing", 0, data[:4]},
		{"within what was read", 10, data[10:14]},
		{"beyond what was read", windowBytes + 5, data[windowBytes+5:][:4]},
		{"past the end", 1 << 40, nil},
	} {
		w := NewWindow(bytes.NewReader(data), int64(len(data)))
		if _, err := w.Peek(1); err != nil {
			t.Fatal(err)
		}
		w.Pass(c.pass)
		if got, err := w.Peek(4); err != nil || !bytes.Equal(got[:min(4, len(got))], c.want) {
			t.Errorf("%s: %v, %v, want %v", c.name, got[:min(4, len(got))], err, c.want)
		}
	}
}

func TestWindowOfAFileThatShrank(t *testing.T) {
	w := NewWindow(bytes.NewReader(content(100)), 1000)
	if got, err := w.Peek(500); len(got) != 100 || err != nil || w.Left() != 100 {
		t.Errorf("%d bytes, %v, %d left, want the 100 there are", len(got), err, w.Left())
	}
}

func TestWindowTellsOfFailure(t *testing.T) {
	gone := errors.New("the disk is gone")
	w := NewWindow(failing{gone}, 1000)
	if _, err := w.Peek(1); !errors.Is(err, gone) {
		t.Errorf("error %v, want %v", err, gone)
	}
}

type failing struct{ err error }

func (f failing) ReadAt([]byte, int64) (int, error) { return 0, f.err }
