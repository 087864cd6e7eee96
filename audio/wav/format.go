package wav

import (
	"encoding/binary"
	"fmt"
	"math"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
)

// format is the content of a fmt chunk.
type format struct {
	rate, channels int
	bytes          int // bytes of one value
	read           sampleReader
}

// frameBytes returns the bytes that hold one value of every channel.
func (f *format) frameBytes() int { return f.channels * f.bytes }

// sampleReader decodes one channel: dst[i] is read at src[i*stride].
type sampleReader func(dst []float32, src []byte, stride int)

// Format tags, as registered in RFC 2361 and mmreg.h.
const (
	tagPCM        = 0x0001
	tagFloat      = 0x0003
	tagExtensible = 0xFFFE
)

// otherTags names encodings this reader refuses.
var otherTags = map[uint16]string{
	0x0002: "ADPCM", 0x0006: "A-law", 0x0007: "mu-law", 0x0011: "IMA ADPCM",
	0x0031: "GSM", 0x0050: "MPEG Layer II", 0x0055: "MP3", 0x00FF: "AAC", 0x0161: "WMA",
}

// parseFormat reads the body of a fmt chunk.
func parseFormat(b []byte) (*format, error) {
	if len(b) < 16 {
		return nil, fmt.Errorf("%w: the format chunk of the WAV file is too short", clip.ErrDamaged)
	}
	le := binary.LittleEndian
	tag := le.Uint16(b)
	f := &format{channels: int(le.Uint16(b[2:])), rate: int(le.Uint32(b[4:]))}
	align, bits := int(le.Uint16(b[12:])), int(le.Uint16(b[14:]))
	if tag == tagExtensible {
		if len(b) < 26 {
			return nil, fmt.Errorf("%w: the format chunk of the WAV file is too short", clip.ErrDamaged)
		}
		tag = le.Uint16(b[24:]) // the sub-format is a GUID that starts with the tag
	}
	if err := clip.CheckFormat(f.rate, f.channels); err != nil {
		return nil, err
	}
	// A value may lie in a larger container, shifted up to its top; the
	// block alignment tells. Files that leave it out, or lie, get the least
	// number of bytes that holds the bits.
	f.bytes = (bits + 7) / 8
	if align%f.channels == 0 && align/f.channels > f.bytes && align/f.channels <= 4 && tag == tagPCM {
		f.bytes = align / f.channels
	}
	switch {
	case tag == tagPCM && f.bytes >= 1 && f.bytes <= 4:
		f.read = [...]sampleReader{readU8, readS16, readS24, readS32}[f.bytes-1]
	case tag == tagFloat && bits == 32:
		f.read = readF32
	case tag == tagFloat && bits == 64:
		f.read = readF64
	case otherTags[tag] != "":
		return nil, fmt.Errorf("%w: the WAV file holds %s sound; convert it to PCM", clip.ErrFormat, otherTags[tag])
	default:
		return nil, fmt.Errorf("%w: the WAV file holds %d-bit sound of type 0x%04X; convert it to 16-bit PCM", clip.ErrFormat, bits, tag)
	}
	return f, nil
}

func readU8(dst []float32, src []byte, stride int) {
	for i := range dst {
		dst[i] = float32(int(src[i*stride])-1<<7) / (1 << 7)
	}
}

func readS16(dst []float32, src []byte, stride int) {
	for i := range dst {
		dst[i] = float32(int16(binary.LittleEndian.Uint16(src[i*stride:]))) / (1 << 15)
	}
}

func readS24(dst []float32, src []byte, stride int) {
	for i := range dst {
		b := src[i*stride : i*stride+3]
		v := int32(uint32(b[0])<<8|uint32(b[1])<<16|uint32(b[2])<<24) >> 8
		dst[i] = float32(v) / (1 << 23)
	}
}

func readS32(dst []float32, src []byte, stride int) {
	for i := range dst {
		v := int32(binary.LittleEndian.Uint32(src[i*stride:]))
		dst[i] = float32(float64(v) / (1 << 31))
	}
}

func readF32(dst []float32, src []byte, stride int) {
	for i := range dst {
		dst[i] = guard.Tame(float64(math.Float32frombits(binary.LittleEndian.Uint32(src[i*stride:]))))
	}
}

func readF64(dst []float32, src []byte, stride int) {
	for i := range dst {
		dst[i] = guard.Tame(math.Float64frombits(binary.LittleEndian.Uint64(src[i*stride:])))
	}
}
