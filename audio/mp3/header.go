package mp3

import "encoding/binary"

// header is the 32-bit word at the start of each MPEG audio frame (ISO/IEC
// 11172-3, section 2.4.1.3; the low sample rates are in ISO/IEC 13818-3).
type header uint32

const headerBytes = 4

// Versions and layers as coded in the header.
const (
	mpeg25 = 0
	mpeg2  = 2
	mpeg1  = 3

	layer3 = 1
	layer1 = 3
)

// Fields of the header.
const (
	versionShift = 19
	bitrateShift = 12
	rateShift    = 10
	paddingBit   = 1 << 9
)

func (h header) version() int      { return int(h >> versionShift & 3) }
func (h header) layer() int        { return int(h >> 17 & 3) }
func (h header) bitrateIndex() int { return int(h >> bitrateShift & 15) }
func (h header) rateIndex() int    { return int(h >> rateShift & 3) }
func (h header) padding() int      { return int(h >> 9 & 1) }
func (h header) mono() bool        { return h>>6&3 == 3 }
func (h header) low() bool         { return h.version() != mpeg1 }

// parseHeader reads the header at the start of b; ok is false if there is
// none.
func parseHeader(b []byte) (h header, ok bool) {
	if len(b) < headerBytes || b[0] != 0xFF {
		return 0, false
	}
	h = header(binary.BigEndian.Uint32(b))
	const sync, reservedVersion, reservedLayer, reservedRate, badBitrate, reservedEmphasis = 0x7FF, 1, 0, 3, 15, 2
	ok = h>>21 == sync && h.version() != reservedVersion && h.layer() != reservedLayer &&
		h.rateIndex() != reservedRate && h.bitrateIndex() != badBitrate && h&3 != reservedEmphasis
	return h, ok
}

// sameStream reports whether two frames can belong to one stream: version,
// layer and sample rate agree.
func (h header) sameStream(o header) bool {
	const mask = 0x1E0C00
	return h&mask == o&mask
}

// rate returns the sample rate in Hz.
func (h header) rate() int {
	full := [...]int{44100, 48000, 32000}[h.rateIndex()]
	switch h.version() {
	case mpeg2:
		return full / 2
	case mpeg25:
		return full / 4
	}
	return full
}

// samples returns the samples per channel in a frame.
func (h header) samples() int {
	switch {
	case h.layer() == layer1:
		return 384
	case h.layer() == layer3 && h.low():
		return 576
	}
	return 1152
}

// sideBytes returns the size of the Layer III side information.
func (h header) sideBytes() int {
	switch {
	case h.low() && h.mono():
		return 9
	case h.low() != h.mono():
		return 17
	}
	return 32
}

// kbps holds the bit rates in kbit/s: MPEG-1 first, then MPEG-2 and 2.5; by
// layer as coded (III, II, I); by index, of which 0 is free format.
var kbps = [2][3][15]int{
	{
		{0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320},
		{0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384},
		{0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448},
	},
	{
		{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160},
		{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160},
		{0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256},
	},
}

// size returns the length of the frame in bytes, 0 for free format.
func (h header) size() int {
	table := 0
	if h.low() {
		table = 1
	}
	bitrate := 1000 * kbps[table][h.layer()-1][h.bitrateIndex()]
	switch {
	case bitrate == 0:
		return 0
	case h.layer() == layer1:
		return (12*bitrate/h.rate() + h.padding()) * 4
	}
	return h.samples()/8*bitrate/h.rate() + h.padding()
}
