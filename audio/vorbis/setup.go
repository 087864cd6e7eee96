package vorbis

import (
	"errors"
	"fmt"
	"math"

	"stillbeat/audio/clip"
)

var errSetup = errors.New("the setup is damaged")

// errUnsupported is for setups that may be right but that the decoder does not
// read. One kind is known: a floor without partitions, as the encoder of
// Xiph.Org writes for the bass channel of 5.1 sound.
var errUnsupported = fmt.Errorf("%w: it is Ogg Vorbis of a kind that cannot be decoded, such as 5.1; convert it to WAV", clip.ErrFormat)

// Limits on code books. Those in use stay far below; the decoder's work grows
// with the square of the entries.
const (
	maxBookEntries  = 1 << 14
	maxTotalEntries = 1 << 17
	maxTotalValues  = 1 << 22
)

// checkSetup reads the code books of a setup header (Vorbis I, 3.2.1) and
// refuses those on which a decoder would never end or take memory without
// bound: code lengths that form no complete tree, vectors without values,
// tables far larger than the header. It returns errSetup, or errUnsupported for
// a book that the decoder takes for another.
func checkSetup(b []byte) error {
	r := &bitReader{data: b}
	entries, values := 0, 0
	for range r.read(8) + 1 {
		e, v, err := checkBook(r)
		entries += e
		values += v
		if err != nil {
			return err
		}
		if r.over || entries > maxTotalEntries || values > maxTotalValues {
			return errSetup
		}
	}
	return nil
}

// checkBook reads one code book and returns how many entries and vector
// values it has.
func checkBook(r *bitReader) (entries, values int, err error) {
	const pattern = 0x564342
	if r.read(24) != pattern {
		return 0, 0, errSetup
	}
	dimensions := int(r.read(16))
	entries = int(r.read(24))
	if dimensions == 0 || entries == 0 || entries > maxBookEntries || !checkLengths(r, entries) {
		return 0, 0, errSetup
	}
	kind := r.read(4)
	if kind == 0 {
		return entries, 0, nil
	}
	if kind > 2 {
		return 0, 0, errSetup
	}
	r.read(32) // smallest value
	r.read(32) // step
	bits := r.read(4) + 1
	r.read(1) // values add up
	stored := entries * dimensions
	if kind == 1 {
		stored = root(entries, dimensions)
		// The decoder's root goes through floating point and misses some
		// whole ones, such as that of 27 in three dimensions.
		if stored != int(math.Pow(float64(entries), 1/float64(dimensions))) {
			return 0, 0, errUnsupported
		}
	}
	r.skip(stored * int(bits))
	return entries, entries * dimensions, nil
}

// checkLengths reads the lengths of the code words and reports whether they
// form a complete tree, or are a single one.
func checkLengths(r *bitReader, entries int) bool {
	const whole = 1 << 32 // a code word of n bits takes 2^-n of the tree
	used, sum := 0, uint64(0)
	add := func(length uint32, n int) {
		used += n
		sum += whole >> length * uint64(n)
	}
	if r.read(1) == 1 { // ordered by length
		length := r.read(5) + 1
		for at := 0; at < entries; length++ {
			n := int(r.read(bitLength(entries - at)))
			if length > 32 || n > entries-at || r.over {
				return false
			}
			add(length, n)
			at += n
		}
	} else {
		sparse := r.read(1) == 1
		for range entries {
			if !sparse || r.read(1) == 1 {
				add(r.read(5)+1, 1)
			}
		}
	}
	return !r.over && (used == 1 || sum == whole)
}

// bitLength returns the bits needed to write n.
func bitLength(n int) (bits uint) {
	for ; n > 0; n >>= 1 {
		bits++
	}
	return bits
}

// root returns the largest r with r^dimensions <= entries.
func root(entries, dimensions int) int {
	r := 1
	for power(r+1, dimensions, entries) {
		r++
	}
	return r
}

// power reports whether base^exponent <= limit.
func power(base, exponent, limit int) bool {
	product := 1
	for range exponent {
		if product *= base; product > limit {
			return false
		}
	}
	return true
}

// bitReader reads bits as Vorbis packs them, lowest bit of each byte first.
type bitReader struct {
	data []byte
	pos  int  // in bits
	over bool // read past the end
}

func (r *bitReader) read(n uint) (v uint32) {
	for i := range n {
		if r.pos >= 8*len(r.data) {
			r.over = true
			return 0
		}
		v |= uint32(r.data[r.pos/8]>>(r.pos%8)&1) << i
		r.pos++
	}
	return v
}

func (r *bitReader) skip(n int) {
	r.pos += n
	if r.pos > 8*len(r.data) {
		r.over = true
	}
}
