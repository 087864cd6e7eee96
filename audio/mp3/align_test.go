package mp3

import (
	"context"
	"encoding/binary"
	"path/filepath"
	"testing"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/soundtest"
)

// Differences to FFmpeg, which decodes to floating point. Samples here have 16
// bits: half a step is 1.5e-5, and the rounding of the filter bank adds to it.
// At 24 kHz a difference of 2e-3 remains at attacks, with another decoder
// (go-mp3) as well; its cause is not known.
const (
	worstExact = 1e-4
	worstLoose = 5e-3
	meanLoose  = 1e-3
)

// lame encodes c with the program LAME, which takes WAV.
func lame(t testing.TB, c *clip.Clip, args ...string) []byte {
	t.Helper()
	wav := soundtest.Encode(t, c, "song.wav", "-c:a", "pcm_s16le")
	out := filepath.Join(t.TempDir(), "song.mp3")
	soundtest.Run(t, nil, "lame", append(append([]string{"--quiet"}, args...), wav, out)...)
	return soundtest.Read(t, out)
}

// withPicture puts an ID3v2.3 tag with an attached picture of n bytes, all
// of them looking like frame syncs, before an MP3.
func withPicture(data []byte, n int) []byte {
	frame := append([]byte("APIC\x00\x00\x00\x00\x00\x00"), "\x00image/png\x00\x03\x00"...)
	for len(frame) < n {
		frame = append(frame, 0xFF, 0xFB, 0x90, 0x64)
	}
	binary.BigEndian.PutUint32(frame[4:], uint32(len(frame)-10))
	size := len(frame)
	tag := append([]byte("ID3\x03\x00\x00"), byte(size>>21&127), byte(size>>14&127), byte(size>>7&127), byte(size&127))
	return append(append(tag, frame...), data...)
}

// TestAlignment is the promise of this package: what went into the encoder at
// a sample comes out at that sample, and where the file lacks the tag, at the
// sample at which FFmpeg puts it.
func TestAlignment(t *testing.T) {
	const (
		tagged, untagged = true, false
		exact, loose     = true, false
	)
	cases := []struct {
		name     string
		rate     int
		channels int
		tag      bool // the file says how long the delay is
		exact    bool // FFmpeg and the decoder agree to the last bits
		encode   func(t testing.TB, c *clip.Clip) []byte
	}{
		{"CBR 128 stereo", 44100, 2, tagged, exact, with("-b", "128")},
		{"CBR 128 mono", 44100, 1, tagged, exact, with("-b", "128")},
		{"CBR 320", 44100, 2, tagged, exact, with("-b", "320")},
		{"CBR 320 at 48 kHz", 48000, 2, tagged, exact, with("-b", "320")},
		{"frames too small for the tag", 16000, 1, untagged, exact, with("-b", "16")},
		{"VBR 2", 44100, 2, tagged, exact, with("-V", "2")},
		{"VBR 9", 48000, 2, tagged, exact, with("-V", "9", "--resample", "48")},
		{"ABR 96 mono", 44100, 1, tagged, exact, with("--abr", "96")},
		{"CRC", 44100, 2, tagged, exact, with("-b", "128", "-p")},
		{"CRC VBR", 32000, 2, tagged, exact, with("-V", "4", "-p")},
		{"plain stereo", 44100, 2, tagged, exact, with("-b", "160", "-m", "s")},
		{"forced joint stereo", 44100, 2, tagged, exact, with("-b", "160", "-m", "f")},
		{"no reservoir", 44100, 2, tagged, exact, with("-b", "128", "--nores")},
		{"CBR without tag", 44100, 2, untagged, exact, with("-b", "128", "-t")},
		{"VBR without tag", 44100, 2, untagged, exact, with("-V", "4", "-t")},
		{"mono without tag, CRC", 48000, 1, untagged, exact, with("-b", "64", "-t", "-p")},
		{"MPEG-2 24 kHz", 24000, 2, tagged, loose, with("-b", "96")},
		{"MPEG-2 24 kHz plain stereo", 24000, 2, tagged, loose, with("-b", "96", "-m", "s")},
		{"MPEG-2 22.05 kHz plain stereo, padded", 22050, 2, tagged, exact, with("-b", "96", "-m", "s")},
		{"MPEG-2 22.05 kHz, padded", 22050, 2, tagged, exact, with("-b", "64")},
		{"MPEG-2 22.05 kHz mono, no tag, padded", 22050, 1, untagged, exact, with("-b", "32", "-t")},
		{"MPEG-2 22.05 kHz 160", 22050, 2, tagged, exact, with("-b", "160")},
		{"MPEG-2 16 kHz VBR, CRC", 16000, 1, tagged, exact, with("-V", "3", "-p")},
		{"MPEG-2.5 12 kHz", 12000, 2, tagged, exact, with("-b", "64")},
		{"MPEG-2.5 11.025 kHz mono, no tag", 11025, 1, untagged, exact, with("-b", "24", "-t")},
		{"MPEG-2.5 8 kHz", 8000, 1, untagged, exact, with("-b", "16")},
		{"big picture in ID3v2", 44100, 2, tagged, exact, func(t testing.TB, c *clip.Clip) []byte {
			return withPicture(lame(t, c, "-V", "2"), 1<<20)
		}},
		{"written by FFmpeg", 44100, 2, tagged, exact, func(t testing.TB, c *clip.Clip) []byte {
			return soundtest.Read(t, soundtest.Encode(t, c, "song.mp3", "-b:a", "192k"))
		}},
		{"written by FFmpeg without tag", 44100, 2, untagged, exact, func(t testing.TB, c *clip.Clip) []byte {
			return soundtest.Read(t, soundtest.Encode(t, c, "song.mp3", "-b:a", "192k", "-write_xing", "0", "-id3v2_version", "0"))
		}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			song := soundtest.Song(c.rate, c.channels, 1)
			data := c.encode(t, song)
			got, err := decode(t, context.Background(), data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.Rate != c.rate || got.Channels() != c.channels {
				t.Fatalf("decoded as %d Hz, %d channels, want %d Hz, %d", got.Rate, got.Channels(), c.rate, c.channels)
			}
			want := soundtest.Oracle(t, data, c.channels)
			if got.Len() != len(want[0]) {
				t.Errorf("decoded %d samples, FFmpeg %d", got.Len(), len(want[0]))
			}
			apart, mean := soundtest.Difference(got.Samples, want)
			if limit := map[bool]float64{exact: worstExact, loose: worstLoose}[c.exact]; apart > limit || mean > meanLoose {
				t.Errorf("difference to FFmpeg: worst %.2g, rms %.2g; the worst may be %.2g", apart, mean, limit)
			}
			const lameDelay = 576
			lag := lameDelay + decoderDelay
			if c.tag {
				lag = 0
				if got.Len() != song.Len() {
					t.Errorf("decoded %d samples of %d encoded", got.Len(), song.Len())
				}
			}
			for ch := range got.Samples {
				if l := soundtest.Lag(got.Samples[ch], song.Samples[ch], c.rate, 1200); l != lag {
					t.Errorf("channel %d is %d samples late, want %d", ch, l, lag)
				}
			}
		})
	}
}

// with returns an encoder that runs LAME with args.
func with(args ...string) func(testing.TB, *clip.Clip) []byte {
	return func(t testing.TB, c *clip.Clip) []byte { return lame(t, c, args...) }
}
