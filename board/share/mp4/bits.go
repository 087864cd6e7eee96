package mp4

import "math/bits"

// bitWriter collects the syntax elements of ISO/IEC 14496-10, section 7.2.
type bitWriter struct {
	buf     []byte
	pending uint64 // the last n bits that do not fill a byte yet
	n       int    // 0 to 7
}

// u writes the low n bits of v, at most 32.
func (w *bitWriter) u(n int, v uint64) {
	w.pending = w.pending<<n | v&(1<<n-1)
	for w.n += n; w.n >= 8; {
		w.n -= 8
		w.buf = append(w.buf, byte(w.pending>>w.n))
	}
}

// ue writes v in unsigned Exp-Golomb code.
func (w *bitWriter) ue(v uint64) {
	n := bits.Len64(v + 1)
	w.u(n-1, 0)
	w.u(n, v+1)
}

// se writes v in signed Exp-Golomb code.
func (w *bitWriter) se(v int64) {
	if v > 0 {
		w.ue(uint64(2*v - 1))
	} else {
		w.ue(uint64(-2 * v))
	}
}

// end writes the stop bit and returns the bytes.
func (w *bitWriter) end() []byte {
	w.u(1, 1)
	if w.n > 0 {
		w.u(8-w.n, 0)
	}
	return w.buf
}

// bitReader reads what bitWriter writes. Past the end it reads zeros and says
// so in short.
type bitReader struct {
	buf   []byte
	at    int // bits read
	short bool
}

// u reads n bits, at most 32.
func (r *bitReader) u(n int) uint64 {
	if r.at+n > 8*len(r.buf) {
		r.short = true
		return 0
	}
	var v uint64
	first, last := r.at/8, (r.at+n+7)/8
	for _, b := range r.buf[first:last] {
		v = v<<8 | uint64(b)
	}
	r.at += n
	return v >> (8*last - r.at) & (1<<n - 1)
}

// ue reads an unsigned Exp-Golomb code of at most 32 leading zeros.
func (r *bitReader) ue() uint64 {
	zeros := 0
	for r.u(1) == 0 {
		if zeros++; zeros > 32 || r.short {
			r.short = true
			return 0
		}
	}
	return 1<<zeros - 1 + r.u(zeros)
}

// se reads a signed Exp-Golomb code.
func (r *bitReader) se() int64 {
	v := int64(r.ue())
	if v%2 == 1 {
		return (v + 1) / 2
	}
	return -v / 2
}

// unescape removes the emulation prevention bytes of a NAL unit (7.3.1).
func unescape(nal []byte) []byte {
	out := make([]byte, 0, len(nal))
	zeros := 0
	for _, b := range nal {
		if zeros >= 2 && b == 3 {
			zeros = 0
			continue
		}
		if b == 0 {
			zeros++
		} else {
			zeros = 0
		}
		out = append(out, b)
	}
	return out
}

// escape appends payload to dst with emulation prevention bytes.
func escape(dst, payload []byte) []byte {
	zeros := 0
	for _, b := range payload {
		if zeros == 2 && b <= 3 {
			dst = append(dst, 3)
			zeros = 0
		}
		if b == 0 {
			zeros++
		} else {
			zeros = 0
		}
		dst = append(dst, b)
	}
	return dst
}
