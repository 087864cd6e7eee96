package wav

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/soundtest"
)

// decode decodes data into a clip.
func decode(t testing.TB, ctx context.Context, data []byte, progress func(float64)) (*clip.Clip, error) {
	t.Helper()
	return soundtest.Collect(t, func(s clip.Sink) (clip.Info, error) {
		return Decode(ctx, bytes.NewReader(data), int64(len(data)), s, progress)
	})
}

// TestDecodeEqualsFFmpeg reads what FFmpeg wrote and compares with what FFmpeg
// reads. Both scale integers by a power of two, so they agree to the bit.
func TestDecodeEqualsFFmpeg(t *testing.T) {
	cases := []struct {
		name     string
		rate     int
		channels int
		args     []string
	}{
		{"8-bit", 8000, 1, []string{"-c:a", "pcm_u8"}},
		{"16-bit", 44100, 2, []string{"-c:a", "pcm_s16le"}},
		{"24-bit", 48000, 2, []string{"-c:a", "pcm_s24le"}},
		{"32-bit", 96000, 2, []string{"-c:a", "pcm_s32le"}},
		{"float 32", 44100, 1, []string{"-c:a", "pcm_f32le"}},
		{"float 64", 22050, 2, []string{"-c:a", "pcm_f64le"}},
		{"5.1, EXTENSIBLE", 48000, 6, []string{"-c:a", "pcm_s16le"}},
		{"eight channels, EXTENSIBLE", 32000, 8, []string{"-c:a", "pcm_s24le"}},
		{"192 kHz", 192000, 1, []string{"-c:a", "pcm_s24le"}},
		{"RF64", 44100, 2, []string{"-c:a", "pcm_s16le", "-rf64", "always"}},
		{"BWF chunk before the sound", 44100, 2, []string{"-c:a", "pcm_s16le", "-write_bext", "1", "-metadata", "description=x"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			data := soundtest.Read(t, soundtest.Encode(t, soundtest.Song(c.rate, c.channels, 0.3), "song.wav", c.args...))
			got, err := decode(t, context.Background(), data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.Rate != c.rate || got.Channels() != c.channels {
				t.Fatalf("decoded as %d Hz, %d channels", got.Rate, got.Channels())
			}
			for ch, want := range soundtest.Oracle(t, data, c.channels) {
				if !slices.Equal(got.Samples[ch], want) {
					t.Errorf("channel %d differs from FFmpeg", ch)
				}
			}
		})
	}
}

// TestPipedFileIsReadToItsEnd: FFmpeg cannot go back to fill in sizes and
// leaves 0xFFFFFFFF.
func TestPipedFileIsReadToItsEnd(t *testing.T) {
	wav := soundtest.Encode(t, soundtest.Song(8000, 1, 0.5), "song.wav")
	piped := soundtest.Run(t, nil, "ffmpeg", "-v", "error", "-i", wav, "-f", "wav", "pipe:1")
	got, err := decode(t, context.Background(), piped, nil)
	if err != nil || got.Len() != 4000 {
		t.Fatalf("Decode = %d samples, %v, want 4000", got.Len(), err)
	}
}

// chunk returns a chunk, padded to an even length.
func chunk(id string, body []byte) []byte {
	b := append([]byte(id), 0, 0, 0, 0)
	binary.LittleEndian.PutUint32(b[4:], uint32(len(body)))
	b = append(b, body...)
	if len(body)%2 != 0 {
		b = append(b, 0)
	}
	return b
}

// chunkOfSize returns a chunk whose size field lies.
func chunkOfSize(id string, body []byte, size uint32) []byte {
	b := append([]byte(id), 0, 0, 0, 0)
	binary.LittleEndian.PutUint32(b[4:], size)
	return append(b, body...)
}

// riff puts chunks behind a RIFF header.
func riff(chunks ...[]byte) []byte {
	return append([]byte("RIFF\x00\x00\x00\x00WAVE"), bytes.Join(chunks, nil)...)
}

// fmtChunk returns the format of plain PCM.
func fmtChunk(tag, channels uint16, rate uint32, bits uint16) []byte {
	return chunk("fmt ", fmtBody(tag, channels, rate, bits, channels*((bits+7)/8)))
}

func fmtBody(tag, channels uint16, rate uint32, bits, align uint16) []byte {
	le := binary.LittleEndian
	b := le.AppendUint16(nil, tag)
	b = le.AppendUint16(b, channels)
	b = le.AppendUint32(b, rate)
	b = le.AppendUint32(b, rate*uint32(align))
	b = le.AppendUint16(b, align)
	return le.AppendUint16(b, bits)
}

func TestDecodeUnusualFiles(t *testing.T) {
	mono := fmtChunk(tagPCM, 1, 8000, 16)
	sound := []byte{0x00, 0x40, 0x00, 0xC0, 0x00, 0x20} // 0.5, -0.5, 0.25
	want := []float32{0.5, -0.5, 0.25}
	title := chunk("LIST", append([]byte("INFO"), chunk("INAM", []byte("Slow Waltz\x00"))...))
	extensible := append(fmtBody(tagExtensible, 1, 8000, 32, 4), 22, 0, 24, 0, 0, 0, 0, 0, 1, 0)
	cases := []struct {
		name  string
		data  []byte
		want  []float32
		title string
	}{
		{"plain", riff(mono, chunk("data", sound)), want, ""},
		{"odd chunk with padding before", riff(chunk("JUNK", []byte("abc")), mono, chunk("data", sound)), want, ""},
		{"data before format", riff(chunk("data", sound), mono), want, ""},
		{"size 0", riff(mono, chunkOfSize("data", sound, 0)), want, ""},
		{"size 0xFFFFFFFF", riff(mono, chunkOfSize("data", sound, 0xFFFFFFFF)), want, ""},
		{"size too large", riff(mono, chunkOfSize("data", sound, 1000)), want, ""},
		{"cut inside a sample", riff(mono, chunkOfSize("data", sound[:5], 6)), want[:2], ""},
		{"title before", riff(title, mono, chunk("data", sound)), want, "Slow Waltz"},
		{"title after", riff(mono, chunk("data", sound), title), want, "Slow Waltz"},
		{"title in Latin-1", riff(mono, chunk("LIST", append([]byte("INFO"), chunk("INAM", []byte("Caf\xE9"))...)), chunk("data", sound)), want, "Café"},
		{"LIST without INFO", riff(mono, chunk("LIST", []byte("adtl")), chunk("data", sound)), want, ""},
		{"title cut short", riff(mono, chunk("data", sound), []byte("LIST\x40\x00\x00\x00INFOINAM\x20\x00\x00\x00Slo")), want, "Slo"},
		{"RF64 with its size in ds64", append([]byte("RF64\xFF\xFF\xFF\xFFWAVE"), bytes.Join([][]byte{
			chunk("ds64", append(make([]byte, 8), 6, 0, 0, 0, 0, 0, 0, 0)), mono,
			chunkOfSize("data", append(sound, chunk("LIST", []byte("more"))...), 0xFFFFFFFF)}, nil)...), want, ""},
		{"8-bit is unsigned", riff(fmtChunk(tagPCM, 1, 8000, 8), chunk("data", []byte{192, 64, 128})), []float32{0.5, -0.5, 0}, ""},
		{"24-bit", riff(fmtChunk(tagPCM, 1, 8000, 24), chunk("data", []byte{0, 0, 0x40, 0, 0, 0xC0})), []float32{0.5, -0.5}, ""},
		{"12 bits in two bytes", riff(fmtChunk(tagPCM, 1, 8000, 12), chunk("data", sound)), want, ""},
		{"24 bits in four bytes", riff(chunk("fmt ", extensible), chunk("data", []byte{0, 0, 0, 0x40, 0, 0, 0, 0xC0})), []float32{0.5, -0.5}, ""},
		{"block alignment of 0", riff(chunk("fmt ", fmtBody(tagPCM, 1, 8000, 16, 0)), chunk("data", sound)), want, ""},
		{"not a number is silence", riff(fmtChunk(tagFloat, 1, 8000, 32), chunk("data", []byte{0, 0, 0xC0, 0x7F, 0, 0, 0, 0x3F})), []float32{0, 0.5}, ""},
		{"endless is limited", riff(fmtChunk(tagFloat, 1, 8000, 32), chunk("data", []byte{0, 0, 0x80, 0x7F, 0, 0, 0x80, 0xFF})), []float32{256, -256}, ""},
		{"1 kHz", riff(fmtChunk(tagPCM, 1, 1000, 16), chunk("data", sound)), want, ""},
		{"768 kHz", riff(fmtChunk(tagPCM, 1, 768000, 16), chunk("data", sound)), want, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.Channels() != 1 || !slices.Equal(got.Samples[0], c.want) || got.Title != c.title {
				t.Errorf("Decode = %v, title %q, want %v, title %q", got.Samples, got.Title, c.want, c.title)
			}
		})
	}
}

func TestDecodeRefuses(t *testing.T) {
	mono := fmtChunk(tagPCM, 1, 8000, 16)
	sound := chunk("data", make([]byte, 64))
	cases := []struct {
		name string
		data []byte
		want error
		text string // part of the sentence
	}{
		{"empty", nil, clip.ErrFormat, "it is not a WAV file"},
		{"another RIFF file", []byte("RIFF\x00\x00\x00\x00AVI LIST"), clip.ErrFormat, "it is not a WAV file"},
		{"big-endian", []byte("RIFX\x00\x00\x00\x00WAVEfmt "), clip.ErrFormat, "it is not a WAV file"},
		{"header only", riff(), clip.ErrDamaged, "no format chunk"},
		{"no format", riff(sound), clip.ErrDamaged, "no format chunk"},
		{"no data", riff(mono), clip.ErrDamaged, "no data chunk"},
		{"short format", riff(chunk("fmt ", make([]byte, 12)), sound), clip.ErrDamaged, "format chunk of the WAV file is too short"},
		{"no samples", riff(mono, chunk("data", nil), chunk("LIST", []byte("INFO"))), clip.ErrEmpty, "there is no sound in it"},
		{"no channels", riff(fmtChunk(tagPCM, 0, 8000, 16), sound), clip.ErrFormat, "it has 0 channels, and 1 to 8 can be read"},
		{"nine channels", riff(fmtChunk(tagPCM, 9, 8000, 16), sound), clip.ErrFormat, "it has 9 channels"},
		{"rate 0", riff(fmtChunk(tagPCM, 1, 0, 16), sound), clip.ErrFormat, "its sample rate is 0 Hz"},
		{"rate too high", riff(fmtChunk(tagPCM, 1, 768001, 16), sound), clip.ErrFormat, "its sample rate is 768001 Hz"},
		{"IMA ADPCM", riff(fmtChunk(0x11, 1, 8000, 4), sound), clip.ErrFormat, "holds IMA ADPCM sound; convert it to PCM"},
		{"64-bit integers", riff(fmtChunk(tagPCM, 1, 8000, 64), sound), clip.ErrFormat, "holds 64-bit sound of type 0x0001"},
		{"0-bit integers", riff(fmtChunk(tagPCM, 1, 8000, 0), sound), clip.ErrFormat, "holds 0-bit sound"},
		{"16-bit floats", riff(fmtChunk(tagFloat, 1, 8000, 16), sound), clip.ErrFormat, "holds 16-bit sound of type 0x0003"},
		{"over three hours", riff(fmtChunk(tagPCM, 1, 1000, 8), chunk("data", make([]byte, 3*3600*1000+1))), clip.ErrTooLong, "the sound is longer than three hours"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.text) || got != nil {
				t.Errorf("Decode = %v, %v, want %q", got, err, c.text)
			}
		})
	}
}

func TestEncodeRoundTrip(t *testing.T) {
	for _, title := range []string{"", "Odd", "Even"} {
		in := &clip.Clip{Rate: 8000, Title: title, Samples: [][]float32{
			{0, 1, -1, 2, -2, 0.25, 0.25 + 0.4/32768, 0.25 + 0.6/32768, float32(math.NaN())},
			{0, 0, 0, 0, 0, 0, 0, 0, 0},
		}}
		want := [][]float32{
			{0, 32767. / 32768, -1, 32767. / 32768, -1, 0.25, 0.25, 0.25 + 1./32768, 0},
			{0, 0, 0, 0, 0, 0, 0, 0, 0},
		}
		var b bytes.Buffer
		if err := Encode(&b, in); err != nil {
			t.Fatal(err)
		}
		got, err := decode(t, context.Background(), b.Bytes(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if got.Rate != 8000 || got.Title != title || !slices.EqualFunc(got.Samples, want, slices.Equal) {
			t.Errorf("decoded %+v, want %v, title %q", got, want, title)
		}
		if size := binary.LittleEndian.Uint32(b.Bytes()[4:]); int(size) != b.Len()-8 {
			t.Errorf("RIFF size is %d, the file has %d bytes", size, b.Len())
		}
		if oracle := soundtest.Oracle(t, b.Bytes(), 2); !slices.EqualFunc(oracle, want, slices.Equal) {
			t.Errorf("FFmpeg reads %v, want %v", oracle, want)
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	if err := Encode(&bytes.Buffer{}, &clip.Clip{Rate: 8000}); !errors.Is(err, clip.ErrFormat) {
		t.Errorf("a clip without channels: %v, want ErrFormat", err)
	}
	if err := Encode(full{}, &clip.Clip{Rate: 8000, Samples: [][]float32{{1}}}); !errors.Is(err, errFull) {
		t.Errorf("a writer that fails: %v, want its error", err)
	}
}

var errFull = errors.New("disk full")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

func TestCancelAndProgress(t *testing.T) {
	data := riff(fmtChunk(tagPCM, 1, 8000, 8), chunk("data", make([]byte, 10*block)))
	var calls []float64
	if _, err := decode(t, context.Background(), data, func(done float64) { calls = append(calls, done) }); err != nil {
		t.Fatal(err)
	}
	if len(calls) < 10 || !slices.IsSorted(calls) || calls[len(calls)-1] != 1 {
		t.Errorf("progress = %v, want ten values rising to 1", calls)
	}
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	_, err := decode(t, ctx, data, func(float64) { n++; cancel() })
	if !errors.Is(err, context.Canceled) || n != 1 {
		t.Errorf("Decode = %v after %d blocks, want context.Canceled after 1", err, n)
	}
}

func FuzzDecode(f *testing.F) {
	sound := chunk("data", []byte{1, 2, 3, 4, 5, 6, 7, 8})
	for _, bits := range []uint16{8, 16, 24, 32} {
		f.Add(riff(fmtChunk(tagPCM, 2, 44100, bits), sound))
	}
	f.Add(riff(fmtChunk(tagFloat, 1, 44100, 64), sound))
	f.Add(append([]byte("RF64\xFF\xFF\xFF\xFFWAVE"), riff(chunk("ds64", make([]byte, 16)), fmtChunk(tagPCM, 1, 8000, 16), sound)[12:]...))
	f.Add(riff(chunk("LIST", []byte("INFOINAM\x02\x00\x00\x00hi")), fmtChunk(tagPCM, 1, 8000, 16), sound))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := decode(t, context.Background(), data, nil)
		if err != nil {
			if got != nil {
				t.Fatalf("a clip comes with the error %v", err)
			}
			return
		}
		if n := got.Len() * got.Channels(); n > len(data) {
			t.Fatalf("%d values from %d bytes", n, len(data))
		}
		var b bytes.Buffer
		if err := Encode(&b, got); err != nil {
			t.Fatal(err)
		}
		again, err := decode(t, context.Background(), b.Bytes(), nil)
		if err != nil {
			t.Fatal(err)
		}
		if again.Len() != got.Len() || again.Channels() != got.Channels() || again.Title != got.Title {
			t.Fatalf("written and read again: %d x %d %q, want %d x %d %q",
				again.Channels(), again.Len(), again.Title, got.Channels(), got.Len(), got.Title)
		}
	})
}
