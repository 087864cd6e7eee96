package gif

import (
	"bufio"
	"compress/lzw"
	"image"
)

// writer writes the blocks of a file; the numbers are sections of the GIF89a
// specification. image/gif writes the same, but takes all pictures at once.
type writer struct {
	w      *bufio.Writer
	film   Film
	before *image.RGBA // what is on the screen, as it was drawn
	colour quantizer
	err    error
}

func (w *writer) write(p []byte) {
	if w.err == nil {
		_, w.err = w.w.Write(p)
	}
}

func (w *writer) bytes(b ...byte) { w.write(b) }

// words writes numbers of 16 bits, the low byte first.
func (w *writer) words(v ...int) {
	for _, n := range v {
		w.bytes(byte(n), byte(n>>8))
	}
}

// header writes the header and screen (17, 18) and, to loop, the application
// extension that viewers look for (26).
func (w *writer) header(loops bool) {
	w.write([]byte("GIF89a"))
	w.words(w.film.Width, w.film.Height)
	w.bytes(0x70, 0, 0) // no palette for all: each picture has its own, 8 bits a channel
	if loops {
		w.bytes(0x21, 0xff, 11)
		w.write([]byte("NETSCAPE2.0"))
		w.bytes(3, 1, 0, 0, 0)
	}
}

// picture writes the part of a picture that differs from what is on the
// screen, up for so many hundredths of a second.
func (w *writer) picture(img *image.RGBA, delay int64) {
	part := image.Rect(0, 0, w.film.Width, w.film.Height)
	if w.before != nil {
		part = changed(w.before, img)
	}
	w.shows(img)
	for {
		w.image(img, part, min(delay, most))
		if delay -= most; delay <= 0 {
			return
		}
		part = image.Rect(0, 0, 1, 1)
	}
}

// shows keeps a picture as the one that is on the screen.
func (w *writer) shows(img *image.RGBA) {
	if w.before == nil {
		w.before = image.NewRGBA(image.Rect(0, 0, w.film.Width, w.film.Height))
	}
	for y := range w.film.Height {
		copy(w.before.Pix[y*w.before.Stride:][:4*w.film.Width], img.Pix[y*img.Stride:])
	}
}

// image writes the delay (23), where the picture lies (20), its palette (21) and
// its pixels (22).
func (w *writer) image(img *image.RGBA, part image.Rectangle, delay int64) {
	palette, pixels := w.colour.of(img, part)
	w.bytes(0x21, 0xf9, 4, 1<<2) // what is there stays
	w.words(int(delay))
	w.bytes(0, 0, 0x2c)
	w.words(part.Min.X, part.Min.Y, part.Dx(), part.Dy())
	w.bytes(0x87) // a palette of 256 colours
	w.write(palette[:])
	w.bytes(8)
	blocks := &blockWriter{to: w}
	coder := lzw.NewWriter(blocks, lzw.LSB, 8)
	if _, err := coder.Write(pixels); err != nil && w.err == nil {
		w.err = err
	}
	if err := coder.Close(); err != nil && w.err == nil {
		w.err = err
	}
	blocks.flush()
	w.bytes(0)
}

// blockWriter cuts what is written into blocks of at most 255 bytes (15).
type blockWriter struct {
	to  *writer
	buf [256]byte // its length first
	n   int
}

func (b *blockWriter) Write(p []byte) (int, error) {
	for i := range p {
		b.n++
		b.buf[b.n] = p[i]
		if b.n == 255 {
			b.flush()
		}
	}
	return len(p), b.to.err
}

// WriteByte keeps the coder from buffering once more.
func (b *blockWriter) WriteByte(c byte) error {
	_, err := b.Write([]byte{c})
	return err
}

// Flush does nothing: a block is written when it is full.
func (b *blockWriter) Flush() error { return b.to.err }

func (b *blockWriter) flush() {
	if b.n > 0 {
		b.buf[0] = byte(b.n)
		b.to.write(b.buf[:b.n+1])
		b.n = 0
	}
}

// changed returns the part of two pictures of one size that differs; where
// nothing does, one pixel.
func changed(a, b *image.RGBA) image.Rectangle {
	w, h := a.Rect.Dx(), a.Rect.Dy()
	row := func(m *image.RGBA, y int) []byte { return m.Pix[y*m.Stride:][:4*w] }
	same := func(y int) bool { return string(row(a, y)) == string(row(b, y)) }
	top, bottom := 0, h
	for top < h && same(top) {
		top++
	}
	if top == h {
		return image.Rect(0, 0, 1, 1)
	}
	for same(bottom - 1) {
		bottom--
	}
	left, right := w, 0
	for y := top; y < bottom; y++ {
		p, q := row(a, y), row(b, y)
		for x := 0; x < left; x++ {
			if string(p[4*x:4*x+4]) != string(q[4*x:4*x+4]) {
				left = x
			}
		}
		for x := w - 1; x >= right; x-- {
			if string(p[4*x:4*x+4]) != string(q[4*x:4*x+4]) {
				right = x + 1
			}
		}
	}
	return image.Rect(left, top, right, bottom)
}
