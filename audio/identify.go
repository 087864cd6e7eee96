package audio

import (
	"fmt"
	"unicode/utf8"

	"stillbeat/audio/clip"
	"stillbeat/audio/mp3"
	"stillbeat/audio/vorbis"
)

// kind is what a file holds: one of the four that can be read, or words for
// something that cannot.
type kind string

const (
	kindWAV    kind = "WAV"
	kindFLAC   kind = "FLAC"
	kindVorbis kind = "Ogg Vorbis"
	kindMP3    kind = "MP3"

	kindEmpty   kind = "the file is empty"
	kindText    kind = "it is a text"
	kindPDF     kind = "it is a PDF document"
	kindZIP     kind = "it is a ZIP archive"
	kindUnknown kind = "its content is not recognised"
	kindVideo   kind = "it is a video"
	kindPicture kind = "it is a picture"
	kindMIDI    kind = "it is a MIDI file, which holds notes and no sound"
	kindM4A     kind = "it is M4A sound (AAC or Apple Lossless)"
	kindAAC     kind = "it is AAC sound"
	kindAIFF    kind = "it is an AIFF file"
)

// refusal returns the error for a kind that cannot be read.
func (k kind) refusal() error {
	switch k {
	case kindEmpty:
		return fmt.Errorf("%w: %s", clip.ErrEmpty, k)
	case kindText, kindPDF, kindZIP, kindPicture, kindUnknown:
		return fmt.Errorf("%w: %s; choose a WAV, MP3, FLAC or OGG Vorbis file", clip.ErrFormat, k)
	case kindVideo:
		return fmt.Errorf("%w: %s; save its sound as WAV, MP3, FLAC or OGG Vorbis", clip.ErrFormat, k)
	case kindMIDI:
		return fmt.Errorf("%w: %s; record it as WAV, MP3, FLAC or OGG Vorbis", clip.ErrFormat, k)
	}
	return fmt.Errorf("%w: %s; convert it to WAV, MP3, FLAC or OGG Vorbis", clip.ErrFormat, k)
}

// signatures tell a format by its first bytes. RIFF, Ogg and MP4, which hold
// many things, and MPEG audio, which has no signature, have functions of their
// own.
var signatures = []struct {
	bytes string
	kind  kind
}{
	{"fLaC", kindFLAC},
	{"MThd", kindMIDI},
	{"ADIF", kindAAC},
	{".snd", "it is an AU file"},
	{"caff", "it is a CAF file"},
	{"MAC ", "it is Monkey's Audio"},
	{"wvpk", "it is WavPack sound"},
	{"#!AMR", "it is AMR speech"},
	{"TTA1", "it is True Audio"},
	{"\x30\x26\xB2\x75\x8E\x66\xCF\x11", "it is WMA sound or Windows video"},
	{"\x1A\x45\xDF\xA3", kindVideo}, // Matroska, WebM
	{"FLV\x01", kindVideo},
	{"\x00\x00\x01\xBA", kindVideo}, // MPEG program stream
	{"\x89PNG\r\n\x1A\n", kindPicture},
	{"\xFF\xD8\xFF", kindPicture}, // JPEG
	{"GIF8", kindPicture},
	{"II*\x00", kindPicture}, // TIFF
	{"MM\x00*", kindPicture},
	{"%PDF-", kindPDF},
	{"PK\x03\x04", kindZIP},
}

// identify tells what a file holds by its start, after any ID3v2 tags; tagged
// says that there were some.
func identify(body []byte, tagged bool) kind {
	if len(body) == 0 && !tagged {
		return kindEmpty
	}
	for _, s := range signatures {
		if hasAt(body, 0, s.bytes) {
			return s.kind
		}
	}
	switch {
	case hasAt(body, 0, "OggS"):
		return identifyOgg(body)
	case hasAt(body, 8, "WAVE") && (hasAt(body, 0, "RIFF") || hasAt(body, 0, "RF64") || hasAt(body, 0, "BW64")):
		return kindWAV
	case hasAt(body, 0, "RIFX"):
		return "it is a big-endian WAV file"
	case hasAt(body, 0, "RIFF"):
		return identifyRIFF(body)
	case hasAt(body, 0, "FORM") && hasAt(body, 8, "AIF"):
		return kindAIFF
	case hasAt(body, 4, "ftyp"):
		return identifyMP4(body)
	case mp3.Probe(body):
		return kindMP3
	case isADTS(body):
		return kindAAC
	case tagged: // something ID3 tags were put on
		return kindMP3
	case isText(body):
		return kindText
	}
	return kindUnknown
}

func hasAt(data []byte, at int, s string) bool {
	return len(data) >= at+len(s) && string(data[at:at+len(s)]) == s
}

// oggStreams tells what is inside an Ogg file by the first bytes of its
// streams. Vorbis comes first: a video that has it can be read.
var oggStreams = []struct {
	bytes string
	kind  kind
}{
	{"\x01vorbis", kindVorbis},
	{"\x80theora", kindVideo},
	{"OpusHead", "it is Opus sound"},
	{"\x7FFLAC", "it is FLAC sound in an Ogg file"},
	{"Speex   ", "it is Speex speech"},
}

// identifyOgg looks at the first packet of each stream.
func identifyOgg(data []byte) kind {
	firsts := vorbis.FirstPackets(data)
	for _, s := range oggStreams {
		for _, packet := range firsts {
			if hasAt(packet, 0, s.bytes) {
				return s.kind
			}
		}
	}
	return kindVorbis // whose reader says what is wrong
}

// identifyRIFF tells the RIFF files that are not WAVE.
func identifyRIFF(data []byte) kind {
	switch {
	case hasAt(data, 8, "AVI "):
		return kindVideo
	case hasAt(data, 8, "WEBP"):
		return kindPicture
	case hasAt(data, 8, "RMID"):
		return kindMIDI
	}
	return kindUnknown
}

// identifyMP4 tells sound, pictures and video apart by the major brand of an
// ISO base media file (ISO/IEC 14496-12; brands at https://mp4ra.org).
func identifyMP4(data []byte) kind {
	switch {
	case hasAt(data, 8, "M4A"), hasAt(data, 8, "M4B"):
		return kindM4A
	case hasAt(data, 8, "hei"), hasAt(data, 8, "hev"), hasAt(data, 8, "mif1"), hasAt(data, 8, "avif"):
		return kindPicture
	}
	return kindVideo
}

// isADTS reports whether an AAC frame header is at the start: twelve bits of
// sync, then a layer of 0 (ISO/IEC 13818-7, 6.2).
func isADTS(data []byte) bool {
	return len(data) >= 7 && data[0] == 0xFF && data[1]&0xF6 == 0xF0
}

// isText reports whether the first bytes are printable UTF-8.
func isText(data []byte) bool {
	head := data[:min(len(data), 512)]
	for len(head) > 0 {
		r, n := utf8.DecodeRune(head)
		if r == utf8.RuneError && n == 1 {
			return len(head) < utf8.UTFMax && len(data) > 512 // cut inside a character
		}
		if r < ' ' && r != '\n' && r != '\r' && r != '\t' && r != '\f' {
			return false
		}
		head = head[n:]
	}
	return true
}
