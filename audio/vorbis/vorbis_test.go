package vorbis

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
		return Decode(ctx, data, s, progress)
	})
}

// encode writes c with the program oggenc, from WAV.
func encode(t testing.TB, c *clip.Clip, args ...string) []byte {
	t.Helper()
	wav := soundtest.Encode(t, c, "song.wav", "-c:a", "pcm_s16le")
	out := filepath.Join(t.TempDir(), "song.ogg")
	soundtest.Run(t, nil, "oggenc", append(append([]string{"--quiet"}, args...), wav, "-o", out)...)
	return soundtest.Read(t, out)
}

func TestDecodeEqualsFFmpeg(t *testing.T) {
	cases := []struct {
		name     string
		rate     int
		channels int
		args     []string
		title    string
	}{
		{"stereo, quality 5", 44100, 2, []string{"-q", "5"}, ""},
		{"mono, quality 0", 44100, 1, []string{"-q", "0"}, ""},
		{"quality 10 at 48 kHz", 48000, 2, []string{"-q", "10"}, ""},
		{"8 kHz", 8000, 1, []string{"-q", "3"}, ""},
		{"quadraphonic", 48000, 4, []string{"-q", "3"}, ""},
		{"managed bit rate", 44100, 2, []string{"--managed", "-b", "96"}, ""},
		{"title", 22050, 2, []string{"-t", "Löffeltanz"}, "Löffeltanz"},
		{"with skeleton", 44100, 1, []string{"-k"}, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			song := soundtest.Song(c.rate, c.channels, 1)
			data := encode(t, song, c.args...)
			got, err := decode(t, context.Background(), data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got.Rate != c.rate || got.Channels() != c.channels || got.Title != c.title {
				t.Fatalf("decoded as %d Hz, %d channels, title %q", got.Rate, got.Channels(), got.Title)
			}
			if got.Len() != song.Len() {
				t.Errorf("%d samples of %d encoded", got.Len(), song.Len())
			}
			// FFmpeg does not cut the end of a sound of a single page.
			want := soundtest.Oracle(t, data, c.channels)
			if worst, _ := soundtest.Difference(got.Samples, want); worst > 1e-5 || len(want[0]) < got.Len() {
				t.Errorf("%d samples differ from the %d of FFmpeg by %.2g", got.Len(), len(want[0]), worst)
			}
			if lag := soundtest.Lag(got.Samples[0], song.Samples[0], c.rate, 300); lag != 0 {
				t.Errorf("%d samples late", lag)
			}
		})
	}
}

// pages splits an Ogg file.
func pages(t *testing.T, data []byte) (all [][]byte) {
	for len(data) > 0 {
		p, err := parsePage(data)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, data[:p.size])
		data = data[p.size:]
	}
	return all
}

// seal puts the right checksum into a page.
func seal(page []byte) []byte {
	binary.LittleEndian.PutUint32(page[22:], pageChecksum(page))
	return page
}

func TestDecodeUnusualFiles(t *testing.T) {
	const rate = 44100
	data := encode(t, soundtest.Song(rate, 1, 4), "-s", "1")
	other := encode(t, soundtest.Song(rate, 1, 1), "-s", "2")
	whole, err := decode(t, context.Background(), data, nil)
	if err != nil {
		t.Fatal(err)
	}
	all := pages(t, data)
	if len(all) < 6 {
		t.Fatalf("the test file has %d pages, too few to cut", len(all))
	}
	middle := append(bytes.Join(all[:2], nil), bytes.Join(all[4:], nil)...) // headers, then later sound
	cases := []struct {
		name    string
		data    []byte
		samples int // -1: fewer than the whole
		from    int // sample of the whole at which it starts
	}{
		{"whole", data, 4 * rate, 0},
		{"ID3v2 tag before", append([]byte("ID3\x03\x00\x00\x00\x00\x00\x04pads"), data...), 4 * rate, 0},
		{"junk after", append(bytes.Clone(data), bytes.Repeat([]byte("TAG"), 50)...), 4 * rate, 0},
		{"cut inside a page", data[:len(data)*2/3], -1, 0},
		{"last page missing", bytes.Join(all[:len(all)-1], nil), -1, 0},
		{"chained", append(bytes.Clone(data), other...), 5 * rate, 0},
		{"start cut off", middle, -1, -1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if c.samples >= 0 && got.Len() != c.samples || c.samples < 0 && (got.Len() == 0 || got.Len() >= whole.Len()) {
				t.Fatalf("%d samples, want %d", got.Len(), c.samples)
			}
			n := min(got.Len(), whole.Len())
			a, b := got.Samples[0][:n], whole.Samples[0][:n]
			if c.from < 0 { // compare the ends, after the first blocks
				a, b = a[n-5000:], whole.Samples[0][whole.Len()-5000:]
			}
			if !slices.Equal(a, b) {
				t.Error("differs from the whole")
			}
		})
	}
}

func TestDecodeRefuses(t *testing.T) {
	song := soundtest.Song(44100, 1, 1)
	data := encode(t, song)
	stereo := encode(t, soundtest.Song(44100, 2, 0.3))
	opus := soundtest.Read(t, soundtest.Encode(t, soundtest.Song(48000, 1, 0.3), "song.opus"))
	flipped := bytes.Clone(data)
	flipped[len(data)-100] ^= 1
	all := pages(t, data)
	emptied := seal(append(bytes.Clone(all[0][:28]), bytes.Repeat([]byte{0xFF}, 30)...))
	cases := []struct {
		name string
		data []byte
		want error
		text string // part of the sentence
	}{
		{"empty", nil, clip.ErrFormat, "there is no Vorbis sound in it"},
		{"text", []byte("Once upon a time"), clip.ErrDamaged, "cannot be decoded"},
		{"Opus", opus, clip.ErrFormat, "there is no Vorbis sound in it"},
		{"headers only", bytes.Join(all[:2], nil), clip.ErrEmpty, "there is no sound in it"},
		{"first page only", all[0], clip.ErrEmpty, "there is no sound in it"},
		{"first page of nothing", emptied, clip.ErrFormat, "there is no Vorbis sound in it"},
		{"one flipped bit", flipped, clip.ErrDamaged, "its Ogg Vorbis data cannot be decoded"},
		{"5.1 with a floor the decoder cannot read", encode(t, soundtest.Song(48000, 6, 0.3)), clip.ErrFormat, "convert it to WAV"},
		{"parts that differ", append(bytes.Clone(data), stereo...), clip.ErrFormat, "its parts differ in sample rate or channels"},
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
	data := encode(t, soundtest.Song(44100, 1, 3))
	var calls []float64
	if _, err := decode(t, context.Background(), data, func(done float64) { calls = append(calls, done) }); err != nil {
		t.Fatal(err)
	}
	if len(calls) < 5 || !slices.IsSorted(calls) || calls[len(calls)-1] != 1 {
		t.Errorf("progress = %v, want five values rising to 1", calls)
	}
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	_, err := decode(t, ctx, data, func(float64) { n++; cancel() })
	if !errors.Is(err, context.Canceled) || n != 1 {
		t.Errorf("Decode = %v after %d reports, want context.Canceled after 1", err, n)
	}
}

// bitWriter packs bits as Vorbis does.
type bitWriter struct {
	data []byte
	used uint
}

func (w *bitWriter) put(v uint32, bits uint) {
	for i := range bits {
		if w.used%8 == 0 {
			w.data = append(w.data, 0)
		}
		w.data[w.used/8] |= byte(v>>i&1) << (w.used % 8)
		w.used++
	}
}

// book starts a setup header with one code book of the given shape.
func book(dimensions, entries uint32, lengths ...uint32) *bitWriter {
	w := &bitWriter{}
	w.put(0, 8) // one book
	w.put(0x564342, 24)
	w.put(dimensions, 16)
	w.put(entries, 24)
	w.put(0, 2) // neither ordered nor sparse
	for _, l := range lengths {
		w.put(l-1, 5)
	}
	return w
}

func TestCheckSetup(t *testing.T) {
	plain := func(w *bitWriter) []byte { w.put(0, 4); w.put(0, 8); return w.data }
	ordered := &bitWriter{}
	ordered.put(0, 8)
	ordered.put(0x564342, 24)
	ordered.put(1, 16)
	ordered.put(4, 24)
	ordered.put(1, 1) // ordered
	ordered.put(0, 5) // from length 1
	stuck := &bitWriter{data: bytes.Clone(ordered.data), used: ordered.used}
	for _, n := range []struct{ n, bits uint32 }{{1, 3}, {1, 2}, {2, 2}} { // lengths 1, 2, 3, 3
		ordered.put(n.n, uint(n.bits))
	}
	vectors := book(65535, 4, 2, 2, 2, 2)
	vectors.put(2, 4)  // lookup with all values
	vectors.put(0, 64) // smallest, step
	vectors.put(0, 5)  // one bit each, no sum
	cube := book(3, 27, cubeLengths()...)
	cube.put(1, 4)  // lookup by dimension
	cube.put(0, 64) // smallest, step
	cube.put(0, 5+3)
	cases := []struct {
		name string
		data []byte
		want error
	}{
		{"complete tree", plain(book(1, 4, 2, 2, 2, 2)), nil},
		{"complete tree, uneven", plain(book(1, 3, 1, 2, 2)), nil},
		{"single entry", plain(book(1, 1, 1)), nil},
		{"ordered", plain(ordered), nil},
		{"ordered, never ending", stuck.data, errSetup},
		{"gap in the tree", plain(book(1, 3, 2, 2, 2)), errSetup},
		{"too many words", plain(book(1, 3, 1, 1, 1)), errSetup},
		{"no dimensions", plain(book(0, 2, 1, 1)), errSetup},
		{"no entries", plain(book(1, 0)), errSetup},
		{"entries that are not there", plain(book(1, 1<<13)), errSetup},
		{"too many entries", plain(book(1, 1<<24-1)), errSetup},
		{"values that are not there", vectors.data, errSetup},
		{"a root that the decoder misses", cube.data, errUnsupported},
		{"no pattern", make([]byte, 100), errSetup},
		{"empty", nil, errSetup},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if err := checkSetup(c.data); !errors.Is(err, c.want) {
				t.Errorf("checkSetup = %v, want %v", err, c.want)
			}
		})
	}
}

// cubeLengths returns the lengths of 27 code words that form a complete tree.
func cubeLengths() []uint32 {
	return append(slices.Repeat([]uint32{5}, 22), 4, 4, 4, 4, 4)
}

func FuzzDecode(f *testing.F) {
	data := encode(f, soundtest.Song(8000, 1, 0.2), "-q", "0")
	f.Add(data)
	f.Add(encode(f, soundtest.Song(44100, 2, 0.1), "-t", "x"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := decode(t, context.Background(), resealed(data), nil)
		if err != nil {
			if got != nil {
				t.Fatalf("a clip comes with the error %v", err)
			}
			return
		}
		for ch, samples := range got.Samples {
			if len(samples) != got.Len() {
				t.Fatalf("channel %d has %d samples, channel 0 %d", ch, len(samples), got.Len())
			}
			for i, v := range samples {
				if !(v >= -256 && v <= 256) {
					t.Fatalf("channel %d, sample %d is %v", ch, i, v)
				}
			}
		}
	})
}

// resealed returns data with the checksums of its pages made right, so that
// changes reach the decoder.
func resealed(data []byte) []byte {
	data = bytes.Clone(data)
	for rest := data; ; {
		p, err := parsePage(rest)
		if errors.Is(err, errPageBad) && p.size > 0 {
			seal(rest[:p.size])
		} else if err != nil {
			return data
		}
		rest = rest[p.size:]
	}
}
