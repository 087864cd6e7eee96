package folder

import (
	"bytes"
	"fmt"
	"path"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// panelFile returns where in a folder the picture or sketch of panel i (0 is
// the first) of n is put: numbers in front keep the order of the film and tell
// all apart.
func panelFile(folder string, i, n int, title, name string, data []byte) string {
	width := max(3, len(fmt.Sprint(n)))
	number := fmt.Sprintf("%0*d", width, i+1)
	words := safe(title)
	if words == "" {
		words = safe(stem(name))
	}
	return path.Join(folder, strings.TrimSpace(number+" "+words)+extension(name, data))
}

// songFile returns where the song is put.
func songFile(title, name string, data []byte) string {
	words := safe(stem(title))
	if words == "" {
		words = safe(stem(name))
	}
	if words == "" || device.MatchString(words) {
		words = strings.TrimSpace("song " + words)
	}
	return path.Join(songFolder, words+extension(name, data))
}

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// device matches names that Windows keeps for devices, whatever their ending:
// Microsoft, "Naming Files, Paths, and Namespaces".
var device = regexp.MustCompile(`(?i)^(con|prn|aux|nul|(com|lpt)[0-9¹²³])( *\..*)?$`)

// maxWords bounds the words in a file name, in bytes: with a number and an
// ending it stays below the 143 bytes of the strictest file systems in use
// (eCryptfs; ext4, NTFS and APFS have about 255).
const maxWords = 80

// safe returns text as part of a file name that Windows, macOS and Linux all
// take, in any script: without the signs Windows refuses (the same page), what
// cannot be seen, and dots and spaces at either end. It may be empty.
func safe(text string) string {
	text = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`<>:"/\|?*`, r) || !unicode.IsPrint(r) && r != zeroWidthJoiner && r != zeroWidthNonJoiner {
			return ' '
		}
		return r
	}, text)
	text = norm.NFC.String(strings.Join(strings.Fields(text), " "))
	return strings.Trim(shortened(text), ". ")
}

// Joiners shape letters in Persian, Hindi and others, and emoji.
const (
	zeroWidthNonJoiner = '\u200c'
	zeroWidthJoiner    = '\u200d'
)

// shortened cuts text to maxWords bytes, not between a letter and its marks.
func shortened(text string) string {
	if len(text) <= maxWords {
		return text
	}
	end := maxWords
	for end > 0 {
		next, _ := utf8.DecodeRuneInString(text[end:])
		if utf8.RuneStart(text[end]) && !unicode.Is(unicode.M, next) && next != zeroWidthJoiner {
			break
		}
		end--
	}
	return strings.TrimRight(text[:end], string(zeroWidthJoiner))
}

// extension returns the ending for a file by its content, and for content that
// is not known the one it had.
func extension(name string, data []byte) string {
	for _, k := range contents {
		if k.is(data) {
			return k.ending
		}
	}
	if had := strings.ToLower(path.Ext(name)); plainEnding.MatchString(had) {
		return had
	}
	return ".bin"
}

var plainEnding = regexp.MustCompile(`^\.[a-z0-9]{1,5}$`)

// contents are told apart by their first bytes: PNG (W3C, 5.2), JPEG (ITU-T
// T.81, B.2), GIF (GIF89a, 17), WebP (RFC 9649, 2.4), TIFF (6.0, section 2),
// sketches (board.EncodeSketch), WAVE (Microsoft RIFF; EBU Tech 3306 for
// RF64), FLAC (RFC 9639, 6), Ogg (RFC 3533, 6), MPEG audio (ISO/IEC 11172-3,
// 2.4.1.3), BMP (Microsoft BITMAPFILEHEADER: four bytes are reserved and 0).
var contents = []struct {
	ending string
	is     func([]byte) bool
}{
	{".png", begins("\x89PNG\r\n\x1a\n")},
	{".jpg", begins("\xff\xd8\xff")},
	{".gif", begins("GIF8")},
	{".webp", func(d []byte) bool { return len(d) >= 12 && string(d[:4]) == "RIFF" && string(d[8:12]) == "WEBP" }},
	{".tif", func(d []byte) bool { return begins("II*\x00")(d) || begins("MM\x00*")(d) }},
	{".sketch", begins("StlbSk")},
	{".wav", func(d []byte) bool {
		return len(d) >= 12 && (string(d[:4]) == "RIFF" || string(d[:4]) == "RF64") && string(d[8:12]) == "WAVE"
	}},
	{".flac", func(d []byte) bool { return bytes.HasPrefix(afterTag(d), []byte("fLaC")) }},
	{".ogg", begins("OggS")},
	{".mp3", func(d []byte) bool {
		d = afterTag(d)
		return len(d) >= 2 && d[0] == 0xff && d[1]&0xe0 == 0xe0
	}},
	{".bmp", func(d []byte) bool {
		return len(d) >= 10 && string(d[:2]) == "BM" && string(d[6:10]) == "\x00\x00\x00\x00"
	}},
}

func begins(with string) func([]byte) bool {
	return func(data []byte) bool { return bytes.HasPrefix(data, []byte(with)) }
}

// afterTag returns what follows an ID3v2 tag, whose length has seven bits in
// each of four bytes (id3.org, ID3v2.4.0, 3.1).
func afterTag(data []byte) []byte {
	if len(data) < 10 || string(data[:3]) != "ID3" {
		return data
	}
	n := 10 + int(data[6]&0x7f)<<21 + int(data[7]&0x7f)<<14 + int(data[8]&0x7f)<<7 + int(data[9]&0x7f)
	return data[min(n, len(data)):]
}
