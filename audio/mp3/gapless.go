package mp3

import "encoding/binary"

// decoderDelay is the samples by which a Layer III decoder is late: 528 for
// its filter bank, and one by convention. Every player that honours the
// encoder's tag skips them together with the encoder's delay. (LAME, technical
// FAQ, "Why is the decoded file longer"; measured against FFmpeg in the
// tests.)
const decoderDelay = 529

// streamTag is what the tag frame, which encoders put first, says.
type streamTag struct {
	frames         int // audio frames after the tag, 0 if not stated
	delay, padding int // samples the encoder put before and after the sound
}

// parseTag reads the tag in the first frame; ok is false if it is an ordinary
// frame. The tag is found at a fixed place: Xing and Info where the main data
// starts (writers differ on whether a checksum moves it), VBRI at 36.
//
// Layouts: Xing, "VBR header" SDK, 1998; LAME, "MP3 Info Tag revision 1";
// Fraunhofer, "VBRI" as in the MP3 frame header notes by Windszus.
func parseTag(f []byte, h header) (t streamTag, ok bool) {
	for _, at := range []int{headerBytes + h.sideBytes(), headerBytes + h.sideBytes() + 2} {
		if hasID(f, at, "Xing") || hasID(f, at, "Info") {
			return parseXing(f[at:]), true
		}
	}
	return t, hasID(f, 36, "VBRI")
}

func hasID(f []byte, at int, id string) bool {
	return at+len(id) <= len(f) && string(f[at:at+len(id)]) == id
}

// parseXing reads a tag from its identifier on. What is cut off counts as not
// stated.
func parseXing(b []byte) (t streamTag) {
	if len(b) < 8 {
		return t
	}
	flags := binary.BigEndian.Uint32(b[4:])
	at := 8
	if flags&1 != 0 && len(b) >= at+4 {
		t.frames = int(binary.BigEndian.Uint32(b[at:]))
	}
	for bit, size := range []int{4, 4, 100, 4} { // frames, bytes, seek table, quality
		if flags>>bit&1 != 0 {
			at += size
		}
	}
	at += 21 // encoder's name and settings
	if len(b) >= at+3 {
		t.delay = int(b[at])<<4 | int(b[at+1])>>4
		t.padding = int(b[at+1]&15)<<8 | int(b[at+2])
	}
	return t
}

// span returns which of the samples decoded from n frames are the sound: skip
// samples are dropped first, then length are kept.
//
// Without delay and padding nothing is dropped: the sound is as late as the
// encoder made it, in every player. A file with more frames than the tag
// counts has been added to and keeps its end.
func (t streamTag) span(n, samplesPerFrame int) (skip, length int) {
	total := n * samplesPerFrame
	if t.delay == 0 && t.padding == 0 {
		return 0, total
	}
	skip = min(t.delay+decoderDelay, total)
	length = total - skip
	counted := t.frames
	if counted == 0 {
		counted = n
	}
	if counted >= n {
		length = max(0, min(length, counted*samplesPerFrame-t.delay-t.padding))
	}
	return skip, length
}
