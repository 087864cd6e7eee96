package tags

import (
	"bytes"
	"encoding/binary"
	"strings"
	"testing"
)

// id3 returns an ID3v2 tag around body.
func id3(version, flags byte, body []byte) []byte {
	n := len(body)
	head := []byte{'I', 'D', '3', version, 0, flags, byte(n >> 21 & 127), byte(n >> 14 & 127), byte(n >> 7 & 127), byte(n & 127)}
	return append(head, body...)
}

// field returns a frame of an ID3v2.3 or 2.4 tag, less than 128 bytes long.
func field(id string, flags uint16, body ...byte) []byte {
	b := append([]byte(id), 0, 0, 0, byte(len(body)))
	b = binary.BigEndian.AppendUint16(b, flags)
	return append(b, body...)
}

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

// id3v1 returns an ID3v1 tag.
func id3v1(title string) []byte {
	return append([]byte("TAG"+title), make([]byte, 125-len(title))...)
}

func TestID3Title(t *testing.T) {
	latin := append([]byte{0}, "Caf\xE9"...)
	utf16le := append([]byte{1, 0xFF, 0xFE}, "D\x00\x1a\x26"...) // D, U+261A
	utf16beMark := append([]byte{1, 0xFE, 0xFF}, "\x00D\x26\x1a"...)
	utf16be := append([]byte{2}, "\x00D\x26\x1a"...)
	surrogates := append([]byte{2}, 0xD8, 0x3C, 0xDF, 0xB5) // U+1F3B5
	utf8 := append([]byte{3}, "Tänzchen\x00"...)
	unsynced := append([]byte{1, 0xFF, 0x00, 0xFE}, "D\x00"...)
	other := field("TPE1", 0, append([]byte{0}, "someone"...)...)
	cases := []struct {
		name string
		data []byte
		want string
	}{
		{"2.3, Latin-1", id3(3, 0, field("TIT2", 0, latin...)), "Café"},
		{"2.3, UTF-16 little-endian", id3(3, 0, field("TIT2", 0, utf16le...)), "D☚"},
		{"2.3, UTF-16 big-endian with mark", id3(3, 0, field("TIT2", 0, utf16beMark...)), "D☚"},
		{"2.4, UTF-16 big-endian", id3(4, 0, field("TIT2", 0, utf16be...)), "D☚"},
		{"2.4, surrogate pair", id3(4, 0, field("TIT2", 0, surrogates...)), "🎵"},
		{"2.4, UTF-8", id3(4, 0, field("TIT2", 0, utf8...)), "Tänzchen"},
		{"2.2", id3(2, 0, append([]byte("TT2\x00\x00\x05"), latin...)), "Café"},
		{"after another frame", id3(4, 0, join(other, field("TIT2", 0, utf8...))), "Tänzchen"},
		{"2.3, extended header", id3(3, 0x40, join([]byte{0, 0, 0, 6, 0, 0, 0, 0, 0, 0}, field("TIT2", 0, latin...))), "Café"},
		{"2.4, extended header", id3(4, 0x40, join([]byte{0, 0, 0, 6, 1, 0}, field("TIT2", 0, latin...))), "Café"},
		{"2.3, whole tag unsynchronised", id3(3, 0x80, join(field("TIT2", 0, unsynced[:len(unsynced)-1]...)[:10], unsynced)), "D"},
		{"2.4, frame unsynchronised", id3(4, 0, field("TIT2", 0x02, unsynced...)), "D"},
		{"2.4, group and length", id3(4, 0, field("TIT2", 0x41, append([]byte{9, 0, 0, 0, 5}, latin...)...)), "Café"},
		{"2.3, group", id3(3, 0, field("TIT2", 0x20, append([]byte{9}, latin...)...)), "Café"},
		{"compressed", id3(4, 0, field("TIT2", 0x08, latin...)), ""},
		{"unknown encoding", id3(4, 0, field("TIT2", 0, 7, 'x')), ""},
		{"frame longer than the tag", id3(3, 0, []byte("TIT2\x00\x01\x00\x00\x00\x00\x00x")), ""},
		{"extended header longer than the tag", id3(3, 0x40, []byte{0xFF, 0xFF, 0xFF, 0xFF}), ""},
		{"padding only", id3(3, 0, make([]byte, 40)), ""},
		{"tag cut short", id3(3, 0, field("TIT2", 0, latin...))[:12], ""},
		{"ID3v1", join(make([]byte, 99), id3v1("Old Waltz   ")), "Old Waltz"},
		{"ID3v1, 30 characters", id3v1(strings.Repeat("w", 30) + "artist"), strings.Repeat("w", 30)},
		{"ID3v2 wins", join(id3(3, 0, field("TIT2", 0, latin...)), id3v1("Old")), "Café"},
		{"ID3v1 if ID3v2 has no title", join(id3(3, 0, other), id3v1("Old")), "Old"},
		{"empty", nil, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := ID3Title(c.data); got != c.want {
				t.Errorf("ID3Title = %q, want %q", got, c.want)
			}
		})
	}
}

func TestSkipID3(t *testing.T) {
	tag := id3(3, 0, make([]byte, 200))
	footed := join(id3(4, 0x10, make([]byte, 20)), make([]byte, 10))
	cases := []struct {
		name string
		data []byte
		want string
	}{
		{"none", []byte("sound"), "sound"},
		{"one", join(tag, []byte("sound")), "sound"},
		{"two", join(tag, tag, []byte("sound")), "sound"},
		{"with footer", join(footed, []byte("sound")), "sound"},
		{"longer than the data", join(id3(3, 0, make([]byte, 200))[:10], []byte("sound")), "sound"},
		{"size is not syncsafe", []byte("ID3\x03\x00\x00\x80\x00\x00\x00"), "ID3\x03\x00\x00\x80\x00\x00\x00"},
		{"cut short", []byte("ID3\x03"), "ID3\x03"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := string(SkipID3(c.data)); got != c.want {
				t.Errorf("SkipID3 = %q, want %q", got, c.want)
			}
		})
	}
}

// comments returns a Vorbis comment block.
func comments(fields ...string) []byte {
	b := []byte("\x02\x00\x00\x00us")
	b = binary.LittleEndian.AppendUint32(b, uint32(len(fields)))
	for _, f := range fields {
		b = binary.LittleEndian.AppendUint32(b, uint32(len(f)))
		b = append(b, f...)
	}
	return b
}

func TestVorbisTitle(t *testing.T) {
	cases := []struct {
		name  string
		block []byte
		want  string
	}{
		{"alone", comments("TITLE=Tänzchen"), "Tänzchen"},
		{"in lower case, after others", comments("artist=x", "title=y", "TITLE=z"), "y"},
		{"none", comments("artist=x", "SUBTITLE=y", "TITLE"), ""},
		{"two lines", comments("TITLE=a\nb"), "a b"},
		{"more fields promised than there", comments("a=b")[:10], ""},
		{"field longer than the block", append(comments()[:6], 1, 0, 0, 0, 255, 255, 255, 255), ""},
		{"empty", nil, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := VorbisTitle(c.block); got != c.want {
				t.Errorf("VorbisTitle = %q, want %q", got, c.want)
			}
		})
	}
}

func TestClean(t *testing.T) {
	long := strings.Repeat("ä", 300)
	for in, want := range map[string]string{
		" a\tb\x00c ":  "a b",
		"\xFFbroken":   "\uFFFDbroken",
		long:           long[:2*maxTitle],
		"\x1B[31mred":  "[31mred",
		"\u0085 line ": "line",
	} {
		if got := Clean(in); got != want {
			t.Errorf("Clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func FuzzTitles(f *testing.F) {
	f.Add(id3(4, 0, field("TIT2", 0, 3, 'x')))
	f.Add(id3(3, 0xC0, field("TIT2", 0x20, 1, 0xFF, 0xFE, 'x', 0)))
	f.Add(comments("TITLE=x"))
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, title := range []string{ID3Title(data), VorbisTitle(data), Text(data)} {
			if title != Clean(title) {
				t.Fatalf("title %q is not clean", title)
			}
		}
		if len(SkipID3(data)) > len(data) {
			t.Fatal("SkipID3 makes data longer")
		}
	})
}
