package picture

import (
	"bytes"
	"encoding/binary"
)

// Files that were copied in part still have a sound header. What their decoders
// would find only at the end of all pixels is looked for here.

// checkPNG walks from chunk to chunk to the last (PNG, 5.3 and 11.2.5).
func checkPNG(data []byte) error {
	for at := 8; at+12 <= len(data); {
		size := int64(binary.BigEndian.Uint32(data[at:]))
		if string(data[at+4:at+8]) == "IEND" {
			return nil
		}
		if size > int64(len(data)-at-12) {
			break
		}
		at += 12 + int(size)
	}
	return errCut
}

// checkJPEG looks for the mark at the end of the picture (ITU-T T.81, B.1.1.3),
// after the pixels begin: a small picture in the header has one too. Pixels never
// look like one (B.1.1.5).
func checkJPEG(data []byte) error {
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		switch kind := data[at+1]; {
		case kind == 0xff: // fill
			at++
			continue
		case kind == 0xda:
			if bytes.LastIndex(data[at:], []byte{0xff, 0xd9}) < 0 {
				return errCut
			}
			return nil
		}
		at += 2 + int(binary.BigEndian.Uint16(data[at+2:]))
	}
	return nil // the decoder says what is wrong
}
