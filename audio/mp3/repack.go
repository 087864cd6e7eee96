package mp3

import "encoding/binary"

// A Layer III frame may keep part of its main data inside the frames before
// it (the bit reservoir). repack writes frames anew so that each carries its
// own main data, which gives four things:
//
//   - decoding can start at any frame, so that parts can be decoded side by
//     side;
//   - a frame whose data is missing, because the stream was cut there, becomes
//     silence instead of noise;
//   - the decoder's frame size, one byte short for padded MPEG-2 frames of
//     some bit rates (22.05 kHz at 32 kbit/s is one), is always right, as no
//     such frame is written;
//   - MPEG-2.5 at 11 and 12 kHz, which the decoder refuses, can be handed to
//     it as MPEG-2 at 16 kHz: these share their scale factor bands.
//
// Where even the largest frame is too small for its main data, the rest goes
// into the frame before as usual.

// reservoirBytes is the largest main_data_begin: 9 bits in MPEG-1, 8 in
// MPEG-2.
func reservoirBytes(h header) int {
	if h.low() {
		return 255
	}
	return 511
}

// packed is one frame on its way into the new stream.
type packed struct {
	header header
	side   []byte // nil for silence
	main   []byte // the main data this frame uses, nil for silence
	carry  int    // bytes of main that lie in the frame before
}

// repack returns a stream of frames[from:to] that can be decoded on its own.
// Frames for which mute reports true become silence.
func repack(data []byte, frames []frame, from, to int, mute func(i int) bool) []byte {
	units := collect(data, frames, from, to, mute)
	settle(units)
	var out []byte
	for i, u := range units {
		var next []byte
		if i+1 < len(units) {
			next = units[i+1].main[:units[i+1].carry]
		}
		out = appendFrame(out, u, next)
	}
	return out
}

// collect gathers the main data of each frame from the frame and the
// reservoir before it.
func collect(data []byte, frames []frame, from, to int, mute func(i int) bool) []packed {
	lead := from
	for have := 0; lead > 0 && have < reservoirBytes(frames[0].header); lead-- {
		have += len(mainData(data, frames[lead-1]))
	}
	var reservoir []byte
	units := make([]packed, 0, to-from)
	for i := lead; i < to; i++ {
		f := frames[i]
		start := len(reservoir)
		reservoir = append(reservoir, mainData(data, f)...)
		if i < from {
			continue
		}
		side := data[f.offset+f.header.mainOffset()-f.header.sideBytes():][:f.header.sideBytes()]
		start -= mainDataBegin(f.header, side)
		end := start + (mainBits(f.header, side)+7)/8
		u := packed{header: f.header}
		if start >= 0 && end <= len(reservoir) && !mute(i) {
			u.side, u.main = side, reservoir[start:end:end]
		}
		units = append(units, u)
	}
	return units
}

// mainData returns the bytes of a frame after its side information.
func mainData(data []byte, f frame) []byte {
	b := data[f.offset : f.offset+f.header.size()]
	return b[min(f.header.mainOffset(), len(b)):]
}

// mainDataBegin returns how many bytes before this frame its main data starts.
func mainDataBegin(h header, side []byte) int {
	if h.low() {
		return int(side[0])
	}
	return int(side[0])<<1 | int(side[1])>>7
}

// mainBits returns the length of a frame's main data: the sum of
// part2_3_length over granules and channels.
func mainBits(h header, side []byte) int {
	// Bits before the first granule: main_data_begin, private bits, scfsi.
	// Bits of one granule and channel: 59, or 63 in MPEG-2.
	at, step, count := 9+3+8, 59, 4
	switch {
	case h.low() && h.mono():
		at, step, count = 8+1, 63, 1
	case h.low():
		at, step, count = 8+2, 63, 2
	case h.mono():
		at, step, count = 9+5+4, 59, 2
	}
	sum := 0
	for range count {
		word := uint(side[at/8])<<16 | uint(side[at/8+1])<<8 | uint(side[at/8+2])
		sum += int(word >> (24 - 12 - at%8) & 0xFFF)
		at += step
	}
	return sum
}

// settle decides, from the last frame to the first, how much of each frame's
// main data has to go into the frame before it. A frame that would need more
// than a reservoir can hold becomes silence.
func settle(units []packed) {
	next := 0 // bytes of the following frame that this one must hold
	for i := len(units) - 1; i >= 0; i-- {
		u := &units[i]
		_, capacity := fit(u.header, maxMain)
		u.carry = max(0, len(u.main)+next-capacity)
		if u.carry > len(u.main) || u.carry > reservoirBytes(u.header) || u.carry > 0 && i == 0 {
			u.side, u.main, u.carry = nil, nil, 0
		}
		next = u.carry
	}
}

// maxMain asks fit for the largest frame.
const maxMain = 1 << 20

// fit returns the header of the smallest frame without checksum that has room
// for main bytes of main data, or of the largest frame there is, and the room
// in it. Only the largest MPEG-1 frame is ever padded.
func fit(h header, main int) (header, int) {
	const lastIndex = 14
	h = h.decodable()&^(bitrateMask|paddingBit) | noCRCBit
	for index := header(1); ; index++ {
		sized := h | index<<bitrateShift
		if index == lastIndex && !h.low() {
			sized |= paddingBit
		}
		room := sized.size() - sized.mainOffset()
		if room >= main || index == lastIndex {
			return sized, room
		}
	}
}

// appendFrame writes one frame: header, side information with its new
// main_data_begin, main data, spare bytes, and last what it holds of the next
// frame.
func appendFrame(out []byte, u packed, next []byte) []byte {
	own := u.main[u.carry:]
	h, room := fit(u.header, len(own)+len(next))
	out = binary.BigEndian.AppendUint32(out, uint32(h))
	at := len(out)
	out = append(out, make([]byte, h.sideBytes())...)
	copy(out[at:], u.side)
	if h.low() {
		out[at] = byte(u.carry)
	} else {
		out[at] = byte(u.carry >> 1)
		out[at+1] = out[at+1]&0x7F | byte(u.carry<<7)
	}
	out = append(out, own...)
	out = append(out, make([]byte, room-len(own)-len(next))...)
	return append(out, next...)
}
