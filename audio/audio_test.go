package audio

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/soundtest"
)

const sounds = "../testdata/sound"

func decoded(t testing.TB, name string, data []byte) (*clip.Clip, error) {
	t.Helper()
	return soundtest.Collect(t, func(s clip.Sink) (clip.Info, error) {
		return Decode(context.Background(), name, data, s, nil)
	})
}

func opened(t testing.TB, path string) (*clip.Clip, error) {
	t.Helper()
	return soundtest.Collect(t, func(s clip.Sink) (clip.Info, error) {
		return Open(context.Background(), path, s, nil)
	})
}

// clicks returns the first sample of each click: the first of at least 0.3
// after 1,000 quieter ones.
func clicks(samples []float32) (at []int) {
	last := -1000
	for i, v := range samples {
		if v >= 0.3 || v <= -0.3 {
			if i-last >= 1000 {
				at = append(at, i)
			}
			last = i
		}
	}
	return at
}

func TestOpenFindsTheClicks(t *testing.T) {
	const delay = 1105 // of LAME and decoder, where no tag tells it
	cases := []struct {
		file  string
		rate  int
		title string
		want  []int
		reach int // how early or late the encoding may make the step
	}{
		{"click.wav", 44100, "Click", []int{4410, 13230}, 0},
		{"click.flac", 44100, "Click", []int{4410, 13230}, 0},
		{"click.ogg", 44100, "Click", []int{4410, 13230}, 1},
		{"click.mp3", 44100, "Click", []int{4410, 13230}, 1},
		{"click-untagged.mp3", 44100, "", []int{4410 + delay, 13230 + delay}, 1},
		{"click-mpeg2.mp3", 22050, "", []int{4410/2 + delay, 13230/2 + delay}, 1},
	}
	for _, c := range cases {
		t.Run(c.file, func(t *testing.T) {
			got, err := opened(t, filepath.Join(sounds, c.file))
			if err != nil {
				t.Fatal(err)
			}
			if got.Rate != c.rate || got.Channels() != 1 || got.Title != c.title {
				t.Errorf("%d Hz, %d channels, title %q", got.Rate, got.Channels(), got.Title)
			}
			at := clicks(got.Samples[0])
			near := func(a, b int) bool { return a-b <= c.reach && b-a <= c.reach }
			if !slices.EqualFunc(at, c.want, near) {
				t.Errorf("clicks at %v, want %v", at, c.want)
			}
		})
	}
}

// TestDecodeGoesByContent gives every sound the name of another.
func TestDecodeGoesByContent(t *testing.T) {
	for _, file := range []string{"click.wav", "click.flac", "click.ogg", "click.mp3"} {
		data, err := os.ReadFile(filepath.Join(sounds, file))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"song.wav", "song.mp3", "song.txt", "song"} {
			if c, err := decoded(t, name, data); err != nil || c.Len() != 22050 {
				t.Errorf("%s called %s: %d samples, %v", file, name, c.Len(), err)
			}
		}
	}
}

func TestDecodeNamesWhatItCannotRead(t *testing.T) {
	const (
		advice  = "; convert it to WAV, MP3, FLAC or OGG Vorbis"
		another = "; choose a WAV, MP3, FLAC or OGG Vorbis file"
		format  = "not a sound this program reads: "
		video   = format + "it is a video; save its sound as WAV, MP3, FLAC or OGG Vorbis"
		picture = format + "it is a picture" + another
	)
	file := func(name string) string {
		data, err := os.ReadFile(filepath.Join(sounds, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	pad := strings.Repeat("\x00", 64)
	cases := []struct {
		name, data, want string
	}{
		{"empty", "", "there is no sound in it: the file is empty"},
		{"M4A", file("click.m4a"), format + "it is M4A sound (AAC or Apple Lossless)" + advice},
		{"Opus", file("click.opus"), format + "it is Opus sound" + advice},
		{"AIFF", file("click.aiff"), format + "it is an AIFF file" + advice},
		{"AAC in ADTS", "\xFF\xF1\x50\x80\x02\x1F\xFC" + pad, format + "it is AAC sound" + advice},
		{"MIDI", "MThd\x00\x00\x00\x06" + pad, format + "it is a MIDI file, which holds notes and no sound; record it as WAV, MP3, FLAC or OGG Vorbis"},
		{"MIDI in RIFF", "RIFF\x20\x00\x00\x00RMID" + pad, format + "it is a MIDI file, which holds notes and no sound; record it as WAV, MP3, FLAC or OGG Vorbis"},
		{"big-endian WAV", "RIFX\x20\x00\x00\x00WAVE" + pad, format + "it is a big-endian WAV file" + advice},
		{"MP4 video", "\x00\x00\x00\x20ftypisom" + pad, video},
		{"QuickTime video", "\x00\x00\x00\x14ftypqt  " + pad, video},
		{"Matroska video", "\x1A\x45\xDF\xA3" + pad, video},
		{"AVI video", "RIFF\x20\x00\x00\x00AVI " + pad, video},
		{"PNG picture", "\x89PNG\r\n\x1A\n" + pad, picture},
		{"JPEG picture", "\xFF\xD8\xFF\xE0" + pad, picture},
		{"WebP picture", "RIFF\x20\x00\x00\x00WEBP" + pad, picture},
		{"HEIC picture", "\x00\x00\x00\x20ftypheic" + pad, picture},
		{"PDF", "%PDF-1.7\n", format + "it is a PDF document" + another},
		{"ZIP", "PK\x03\x04" + pad, format + "it is a ZIP archive" + another},
		{"text", "Für den Tanz: zwei Löffel\n", format + "it is a text" + another},
		{"long text, cut inside a character by the check", strings.Repeat("x", 511) + "ö tail", format + "it is a text" + another},
		{"rubbish", "\x01\x02\x03" + pad, format + "its content is not recognised" + another},
		{"other RIFF", "RIFF\x20\x00\x00\x00abcd" + pad, format + "its content is not recognised" + another},
		{"ID3 tag with nothing behind", "ID3\x03\x00\x00\x00\x00\x00\x04pads", format + "there are no MP3 frames in it"},
		{"damaged Ogg", "OggS" + pad, "the sound is damaged: its Ogg Vorbis data cannot be decoded"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decoded(t, "waltz.mp3", []byte(c.data))
			if want := `open song "waltz.mp3": ` + c.want; err == nil || err.Error() != want || got != nil {
				t.Errorf("Decode = %v, %q, want %q", got, err, want)
			}
		})
	}
}

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	large := filepath.Join(dir, "large.wav")
	f, err := os.Create(large)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(f.Truncate(MaxFileBytes+1), f.Close()); err != nil { // takes no room on disk
		t.Fatal(err)
	}
	cases := []struct {
		name string
		path string
		want error // nil if only the text counts
		text string
	}{
		{"missing", filepath.Join(dir, "none.wav"), fs.ErrNotExist, `open song "none.wav": no such file or directory`},
		{"folder", filepath.Join(dir, "."), nil, `open song "` + filepath.Base(dir) + `": it is a folder, not a file`},
		{"device", os.DevNull, nil, `it is a device, not a file`},
		{"too large", large, clip.ErrTooBig, `the file is larger than 2 GB`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := opened(t, c.path)
			if got != nil || err == nil || !strings.Contains(err.Error(), c.text) || c.want != nil && !errors.Is(err, c.want) {
				t.Errorf("Open = %v, %v, want %q", got, err, c.text)
			}
		})
	}
}

func TestOpenStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	got, err := Open(ctx, filepath.Join(sounds, "click.wav"), &clip.Clip{}, nil)
	if !errors.Is(err, context.Canceled) || got != (clip.Info{}) {
		t.Errorf("Open = %v, %v, want context.Canceled", got, err)
	}
}

// TestFailingSink: what goes wrong where the sound goes ends the decoding.
func TestFailingSink(t *testing.T) {
	full := errors.New("full")
	data, err := os.ReadFile(filepath.Join(sounds, "click.flac"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		sink failing
		want string
	}{
		{"at the beginning", failing{begin: full}, `open song "x": full`},
		{"at a block", failing{add: func() error { return full }}, `open song "x": full`},
		{"at the end", failing{end: full}, `open song "x": full`},
		{"by a panic", failing{add: func() error { panic("oh") }}, `open song "x": something went wrong while the sound was measured: oh`},
	} {
		t.Run(c.name, func(t *testing.T) {
			info, err := Decode(context.Background(), "x", data, c.sink, nil)
			if err == nil || err.Error() != c.want || info != (clip.Info{}) {
				t.Errorf("Decode = %+v, %v, want %q", info, err, c.want)
			}
		})
	}
}

// failing is a sink that fails where it is told to.
type failing struct {
	begin, end error
	add        func() error
}

func (f failing) Begin(clip.Info) error { return f.begin }
func (f failing) End() error            { return f.end }
func (f failing) Add([][]float32) error {
	if f.add != nil {
		return f.add()
	}
	return nil
}

// TestFormatsCoverTheReaders: every sound that can be read has an extension
// that file dialogs show.
func TestFormatsCoverTheReaders(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join(sounds, "click*.*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		_, err := opened(t, path)
		if readable, listed := err == nil, slices.Contains(Formats(), filepath.Ext(path)); readable != listed {
			t.Errorf("%s: readable %v, in Formats %v", filepath.Base(path), readable, listed)
		}
	}
}

// FuzzDecode looks for content that goes wrong in the choice of a reader.
func FuzzDecode(f *testing.F) {
	paths, _ := filepath.Glob(filepath.Join(sounds, "click*.*"))
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data[:min(len(data), 5000)])
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := decoded(t, "x", data)
		if (c == nil) == (err == nil) {
			t.Fatalf("Decode = %v, %v", c, err)
		}
		if err != nil && strings.ContainsAny(err.Error(), "\n\x00") {
			t.Fatalf("error of more than one line: %q", err)
		}
	})
}
