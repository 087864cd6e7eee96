package flac

import (
	"encoding/binary"
	"math/bits"
)

// bitReader reads bits, the most significant first.
type bitReader struct {
	data  []byte
	pos   int    // of the byte that is loaded next
	cache uint64 // the next bits, at the top
	have  uint   // bits of cache that count
	over  bool   // read past the end
}

// load brings cache to 56 bits at least, unless the data ends.
func (r *bitReader) load() {
	if r.pos+8 <= len(r.data) {
		// Bits that do not count yet are loaded once more the next time,
		// which changes nothing.
		r.cache |= binary.BigEndian.Uint64(r.data[r.pos:]) >> r.have
		whole := (63 - r.have) / 8
		r.pos += int(whole)
		r.have += 8 * whole
		return
	}
	for ; r.have <= 56 && r.pos < len(r.data); r.pos++ {
		r.cache |= uint64(r.data[r.pos]) << (56 - r.have)
		r.have += 8
	}
}

// read returns the next n bits, at most 56; 0 past the end.
func (r *bitReader) read(n uint) uint64 {
	if r.have < n {
		if r.load(); r.have < n {
			r.over = true
			r.have, r.cache = 0, 0
			return 0
		}
	}
	v := r.cache >> (64 - n)
	r.cache <<= n
	r.have -= n
	return v
}

// signed returns the next n bits, at most 56, as a number in two's complement.
func (r *bitReader) signed(n uint) int64 {
	return int64(r.read(n)<<(64-n)) >> (64 - n)
}

// unary counts the zeros up to the next one, and passes that too.
func (r *bitReader) unary() (zeros uint64) {
	for {
		if n := uint(bits.LeadingZeros64(r.cache)); n < r.have {
			r.cache <<= n + 1
			r.have -= n + 1
			return zeros + uint64(n)
		}
		zeros += uint64(r.have)
		r.cache, r.have = 0, 0
		if r.load(); r.have == 0 {
			r.over = true
			return zeros
		}
	}
}

// rice reads numbers coded with parameter k (RFC 9639, 9.2.7.2), at most 30.
func (r *bitReader) rice(dst []int64, k uint) {
	cache, have, pos, data := r.cache, r.have, r.pos, r.data // as load and read use them
	for i := range dst {
		if have < 32 && pos+8 <= len(data) {
			cache |= binary.BigEndian.Uint64(data[pos:]) >> have
			whole := (63 - have) / 8
			pos += int(whole)
			have += 8 * whole
		}
		var v uint64
		if n := uint(bits.LeadingZeros64(cache)); n+1+k <= have {
			rest := cache << ((n + 1) & 63)
			v = uint64(n)<<(k&63) | rest>>1>>((63-k)&63)
			cache = rest << (k & 63)
			have -= n + 1 + k
		} else {
			r.cache, r.have, r.pos = cache, have, pos
			v = r.unary()<<k | r.read(k)
			if r.over {
				return
			}
			cache, have, pos = r.cache, r.have, r.pos
		}
		dst[i] = int64(v>>1) ^ -int64(v&1)
	}
	r.cache, r.have, r.pos = cache, have, pos
}

// align passes the bits up to the next whole byte and returns its place.
func (r *bitReader) align() int {
	r.read(r.have % 8)
	return r.pos - int(r.have/8)
}
