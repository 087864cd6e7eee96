package folder

import (
	"path"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestEndings(t *testing.T) {
	id3 := "ID3\x04\x00\x00\x00\x00\x00\x04abcd"
	for _, c := range []struct{ name, data, want string }{
		{"a.JPG", "\x89PNG\r\n\x1a\n...", ".png"},
		{"a.png", "\xff\xd8\xff\xe0", ".jpg"},
		{"a", "GIF89a", ".gif"},
		{"a", "RIFF\x00\x00\x00\x00WEBP", ".webp"},
		{"a.tiff", "II*\x00", ".tif"},
		{"a", "MM\x00*", ".tif"},
		{"a", "BM\x46\x00\x00\x00\x00\x00\x00\x00\x36", ".bmp"},
		{"a.raw", "BM\x46\x00\x00\x00\x01\x00\x00\x00\x36", ".raw"},
		{"a", "StlbSk\x01", ".sketch"},
		{"a", "RIFF\x00\x00\x00\x00WAVE", ".wav"},
		{"a", "RF64\xff\xff\xff\xffWAVE", ".wav"},
		{"a", "fLaC", ".flac"},
		{"a.mp3", id3 + "fLaC", ".flac"},
		{"a", id3 + "\xff\xfb", ".mp3"},
		{"a", "\xff\xe3", ".mp3"},
		{"a", "OggS", ".ogg"},
		{"a.AIF", "FORM", ".aif"},
		{"a.what is it", "FORM", ".bin"},
		{"a.\u202e", "", ".bin"},
		{"a.mp3", "ID3\x04\x00\x00\x7f\x7f\x7f\x7f", ".mp3"},
	} {
		if got := extension(c.name, []byte(c.data)); got != c.want {
			t.Errorf("%q with %q ends in %q, want %q", c.name, c.data, got, c.want)
		}
	}
}

func TestSongFile(t *testing.T) {
	for _, c := range []struct{ title, name, want string }{
		{"waltz.mp3", "other.mp3", "song/waltz.wav"},
		{"", "other.mp3", "song/other.wav"},
		{"", "", "song/song.wav"},
		{".mp3", "???", "song/song.wav"},
		{"con.mp3", "", "song/song con.wav"},
		{"LPT².tar.gz", "", "song/song LPT².tar.wav"},
		{"Aux .x.mp3", "", "song/song Aux .x.wav"},
		{"conga.mp3", "", "song/conga.wav"},
	} {
		if got := songFile(c.title, c.name, tune()); got != c.want {
			t.Errorf("%q, %q: %q, want %q", c.title, c.name, got, c.want)
		}
	}
}

// FuzzNames checks that whatever a panel is called its file has a name every
// system takes.
func FuzzNames(f *testing.F) {
	for _, s := range []string{"", "The kettle", "..", "a/b", "\u0301", strings.Repeat("क्षि", 60), strings.Repeat("e\u0301", 60), "\xff", "a\u200d"} {
		f.Add(s, s)
	}
	f.Fuzz(func(t *testing.T, title, name string) {
		for _, file := range []string{panelFile(pictureFolder, 7, 10000, title, name, nil), songFile(title, name, nil)} {
			base := path.Base(file)
			switch {
			case strings.Count(file, "/") != 1, !utf8.ValidString(file), len(base) > 100:
			case strings.ContainsAny(base, "<>:\"\\|?*\x00\n"), strings.HasPrefix(base, "."), strings.HasSuffix(base, "."), device.MatchString(base):
			default:
				continue
			}
			t.Errorf("%q, %q: %q", title, name, file)
		}
	})
}
