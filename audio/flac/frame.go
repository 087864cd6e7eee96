package flac

import "errors"

// Ways a frame can fail.
var (
	errDamaged = errors.New("the frame is damaged")
	errEnds    = errors.New("the data ends inside the frame")
)

// frame decodes one frame after the other into the same memory.
type frame struct {
	head         *head
	bits         uint // of a sample
	assignment   uint // of channels
	size         int  // samples of each channel
	channels     [][]int64
	coefficients [32]int64 // scratch of linear
}

// Channel assignments that stand for two channels (RFC 9639, 9.1.3); below
// them is the number of channels less one.
const (
	leftSide = 8 + iota
	sideRight
	midSide
)

// parse reads the header of the frame that data begins with (RFC 9639, 9.1)
// and returns a reader of what follows.
func (f *frame) parse(data []byte) (*bitReader, error) {
	r := &bitReader{data: data}
	const sync = 0x7FFC // 15 bits, the last of them reserved
	synced := r.read(15) == sync
	r.read(1) // whether blocks differ in size
	size, rate := r.read(4), r.read(4)
	f.assignment = uint(r.read(4))
	f.bits = uint([...]int{f.head.bits, 8, 12, 0, 16, 20, 24, 32}[r.read(3)])
	reserved := r.read(1)
	skipNumber(r)
	switch {
	case size == 1:
		f.size = 192
	case size <= 5:
		f.size = 144 << size
	case size == 6:
		f.size = int(r.read(8)) + 1
	case size == 7:
		f.size = int(r.read(16)) + 1
	default:
		f.size = 1 << size
	}
	switch rate { // which is the file's, whatever is said
	case 12:
		r.read(8)
	case 13, 14:
		r.read(16)
	}
	end := r.align()
	check := byte(r.read(8))
	switch {
	case r.over:
		return nil, errEnds
	case !synced || reserved != 0 || size == 0 || rate == 15 || f.assignment > midSide || f.bits == 0 || f.bits > 32:
		return nil, errDamaged
	case crc8(data[:end]) != check:
		return nil, errDamaged
	}
	count := int(f.assignment) + 1
	if f.assignment >= leftSide {
		count = 2
	}
	if count != f.head.channels {
		return nil, errDamaged
	}
	return r, nil
}

// skipNumber passes the number of the frame, coded as UTF-8 of up to 36 bits.
func skipNumber(r *bitReader) {
	for first, bit := r.read(8), uint64(0x40); first&0x80 != 0 && first&bit != 0; bit >>= 1 {
		r.read(8)
	}
}

// samples decodes the rest of the frame into f.channels and returns the bytes
// of the whole frame.
func (f *frame) samples(r *bitReader) (int, error) {
	if len(f.channels) != f.head.channels {
		f.channels = make([][]int64, f.head.channels)
	}
	for ch := range f.channels {
		if cap(f.channels[ch]) < f.size {
			f.channels[ch] = make([]int64, f.size)
		}
		f.channels[ch] = f.channels[ch][:f.size]
		bits := f.bits
		if f.assignment == sideRight && ch == 0 || (f.assignment == leftSide || f.assignment == midSide) && ch == 1 {
			bits++ // a difference
		}
		if err := f.subframe(r, f.channels[ch], bits); err != nil {
			return 0, err
		}
	}
	end := r.align()
	check := uint16(r.read(16))
	switch {
	case r.over:
		return 0, errEnds
	case crc16(r.data[:end]) != check:
		return 0, errDamaged
	}
	f.separate()
	return end + 2, nil
}

// separate makes left and right of channels that were coded together.
func (f *frame) separate() {
	if f.assignment < leftSide {
		return
	}
	a, b := f.channels[0], f.channels[1]
	b = b[:len(a)]
	switch f.assignment {
	case leftSide:
		for i, left := range a {
			b[i] = left - b[i]
		}
	case sideRight:
		for i, side := range a {
			a[i] = side + b[i]
		}
	case midSide:
		for i, side := range b {
			mid := a[i]<<1 | side&1
			a[i], b[i] = (mid+side)>>1, (mid-side)>>1
		}
	}
}
