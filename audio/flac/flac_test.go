package flac

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"path/filepath"
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

// encode writes c with the program flac, from WAV.
func encode(t testing.TB, c *clip.Clip, codec string, args ...string) []byte {
	t.Helper()
	wav := soundtest.Encode(t, c, "song.wav", "-c:a", codec, "-map_metadata", "-1", "-fflags", "+bitexact")
	out := filepath.Join(t.TempDir(), "song.flac")
	soundtest.Run(t, nil, "flac", append(append([]string{"--silent"}, args...), wav, "-o", out)...)
	return soundtest.Read(t, out)
}

// TestDecodeIsExact compares with FFmpeg: FLAC is lossless, so they agree to
// the bit.
func TestDecodeIsExact(t *testing.T) {
	picture := filepath.Join(t.TempDir(), "cover.png")
	soundtest.Run(t, nil, "ffmpeg", "-v", "error", "-f", "lavfi", "-i", "color=red:size=64x64:rate=1", "-frames:v", "1", picture)
	cases := []struct {
		name     string
		rate     int
		channels int
		codec    string
		args     []string
		title    string
	}{
		{"16-bit stereo", 44100, 2, "pcm_s16le", nil, ""},
		{"24-bit", 48000, 2, "pcm_s24le", []string{"-8"}, ""},
		{"8-bit mono", 8000, 1, "pcm_u8", nil, ""},
		{"5.1", 48000, 6, "pcm_s16le", nil, ""},
		{"96 kHz, fast", 96000, 2, "pcm_s24le", []string{"-0"}, ""},
		{"title and picture", 44100, 2, "pcm_s16le", []string{"--tag=Title=Löffeltanz", "--picture=" + picture}, "Löffeltanz"},
		{"no padding, no seek table", 44100, 1, "pcm_s16le", []string{"--no-padding", "--no-seektable"}, ""},
		{"blocks of 192", 44100, 2, "pcm_s16le", []string{"-b", "192"}, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			data := encode(t, soundtest.Song(c.rate, c.channels, 0.4), c.codec, c.args...)
			got, err := decode(t, context.Background(), data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.Rate != c.rate || got.Channels() != c.channels || got.Title != c.title {
				t.Fatalf("decoded as %d Hz, %d channels, title %q", got.Rate, got.Channels(), got.Title)
			}
			for ch, want := range soundtest.Oracle(t, data, c.channels) {
				if !slices.Equal(got.Samples[ch], want) {
					t.Errorf("channel %d differs from FFmpeg", ch)
				}
			}
		})
	}
}

func TestDecodeUnusualFiles(t *testing.T) {
	data := encode(t, soundtest.Song(44100, 1, 1), "pcm_s16le", "-b", "1024", "--no-padding")
	whole, err := decode(t, context.Background(), data, nil)
	if err != nil {
		t.Fatal(err)
	}
	unknownLength := bytes.Clone(data)
	clear(unknownLength[22:26]) // the low 32 bits of the length
	id3 := append([]byte("ID3\x03\x00\x00\x00\x00\x00\x04pads"), data...)
	cases := []struct {
		name    string
		data    []byte
		samples int
	}{
		{"whole", data, 44100},
		{"ID3v2 tag before", id3, 44100},
		{"ID3v1 tag after", append(bytes.Clone(data), append([]byte("TAG"), make([]byte, 125)...)...), 44100},
		{"ID3v1 tag after, length unknown", append(bytes.Clone(unknownLength), append([]byte("TAG"), make([]byte, 125)...)...), 44100},
		{"junk after", append(bytes.Clone(data), "junk"...), 44100},
		{"length unknown", unknownLength, 44100},
		{"cut short", data[:len(data)/2], -1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if err != nil {
				t.Fatal(err)
			}
			n := c.samples
			if n < 0 { // about half, whole blocks
				if n = got.Len(); n%1024 != 0 || n < 15000 || n > 29000 {
					t.Fatalf("%d samples", n)
				}
			}
			if got.Len() != n || !slices.Equal(got.Samples[0], whole.Samples[0][:n]) {
				t.Errorf("%d samples, want the first %d of the whole", got.Len(), n)
			}
		})
	}
}

// bomb returns a file whose frames, 14 bytes each, hold 65,535 equal samples
// in one channel at 1 kHz. They do not say how many there are.
func bomb(frames int) []byte {
	// STREAMINFO: blocks of 65,535, 1,000 Hz, one channel, 16 bits.
	data := []byte("fLaC\x80\x00\x00\x22\xFF\xFF\xFF\xFF\x00\x00\x00\x00\x00\x00\x00\x3E\x80\xF0\x00\x00\x00\x00")
	data = append(data, make([]byte, 16)...)
	for i := range frames {
		// Fixed blocks; size in 16 bits; mono, 16 bits; number.
		head := append([]byte{0xFF, 0xF8, 0x70, 0x08}, string(rune(i))...)
		head = append(head, 0xFF, 0xFE)
		head = append(head, checksum8(head))
		frame := append(head, 0, 0, 1) // constant subframe
		crc := checksum16(frame)
		data = append(data, append(frame, byte(crc>>8), byte(crc))...)
	}
	return data
}

// claim returns a file at 192 kHz that says it has so many samples.
func claim(samples uint64) []byte {
	data := bomb(1)
	const rate, bits = 192_000, 16
	binary.BigEndian.PutUint64(data[18:], rate<<44|(bits-1)<<36|samples)
	return data
}

// checksum8 is the CRC-8 of frame headers (RFC 9639, 9.1.8).
func checksum8(b []byte) (crc byte) {
	for _, c := range b {
		crc ^= c
		for range 8 {
			crc = crc<<1 ^ crc>>7*0x07
		}
	}
	return crc
}

// checksum16 is the CRC-16 of frames (RFC 9639, 9.3).
func checksum16(b []byte) (crc uint16) {
	for _, c := range b {
		crc ^= uint16(c) << 8
		for range 8 {
			crc = crc<<1 ^ crc>>15*0x8005
		}
	}
	return crc
}

func TestDecodeRefuses(t *testing.T) {
	data := encode(t, soundtest.Song(44100, 1, 1), "pcm_s16le", "-b", "1024", "--no-padding")
	flipped := bytes.Clone(data)
	flipped[len(data)/2] ^= 0x40
	cases := []struct {
		name string
		data []byte
		want error
		text string // part of the sentence
	}{
		{"empty", nil, clip.ErrFormat, "it is not a FLAC file"},
		{"text", []byte("fLa"), clip.ErrFormat, "it is not a FLAC file"},
		{"signature only", data[:4], clip.ErrDamaged, "ends before the sound starts"},
		{"cut in the metadata", data[:50], clip.ErrDamaged, "ends before the sound starts"},
		{"no stream information", []byte("fLaC\x81\x00\x00\x00"), clip.ErrDamaged, "does not start with its stream information"},
		{"metadata only", data[:42], clip.ErrDamaged, "ends before the sound starts"},
		{"one flipped bit", flipped, clip.ErrDamaged, "its FLAC data cannot be decoded after 0."},
		{"rate 0", append([]byte("fLaC\x80\x00\x00\x22"), make([]byte, 34)...), clip.ErrFormat, "its sample rate is 0 Hz"},
		{"no frames", bomb(0), clip.ErrEmpty, "there is no sound in it"},
		{"small file with over three hours", bomb(165), clip.ErrTooLong, "longer than three hours"},
		{"claims over three hours", claim(9_000_000_000), clip.ErrTooLong, "longer than three hours"},
		{"claims to unpack to 340 MB", claim(86_000_000), clip.ErrTooBig, "unpacks to far more"},
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

func TestCancelAndProgress(t *testing.T) {
	data := encode(t, soundtest.Song(44100, 1, 1), "pcm_s16le", "-b", "1024")
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
		t.Errorf("Decode = %v after %d reports, want context.Canceled after 1", err, n)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(encode(f, soundtest.Song(8000, 1, 0.1), "pcm_s16le", "-b", "192", "--no-padding"))
	f.Add(encode(f, soundtest.Song(8000, 2, 0.05), "pcm_s24le", "--no-padding", "--tag=TITLE=x"))
	f.Add(bomb(2))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := decode(t, context.Background(), data, nil)
		if err != nil {
			if got != nil {
				t.Fatalf("a clip comes with the error %v", err)
			}
			return
		}
		if err := clip.CheckSize(got.Rate, got.Channels(), got.Len(), len(data)); err != nil {
			t.Fatal(err)
		}
		for ch, samples := range got.Samples {
			if len(samples) != got.Len() {
				t.Fatalf("channel %d has %d samples, channel 0 %d", ch, len(samples), got.Len())
			}
		}
	})
}
