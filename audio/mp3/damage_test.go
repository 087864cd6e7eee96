package mp3

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/soundtest"
)

func TestDecodeRefuses(t *testing.T) {
	song := soundtest.Song(44100, 2, 1)
	layer2 := soundtest.Read(t, soundtest.Encode(t, song, "song.mp2"))
	free := lame(t, song, "--freeformat", "-b", "320")
	good := lame(t, song, "-b", "64", "-t")
	cases := []struct {
		name string
		data []byte
		want error
		text string
	}{
		{"empty", nil, clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"text", []byte("Once upon a time"), clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"only 0xFF", bytes.Repeat([]byte{0xFF}, 5000), clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"ID3v2 tag only", withPicture(nil, 3000), clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"ID3v2 tag longer than the file", withPicture(nil, 90000)[:500], clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"first frame cut short", good[:100], clip.ErrFormat, "not a sound this program reads: there are no MP3 frames in it"},
		{"Layer II", layer2, clip.ErrFormat, "not a sound this program reads: it is MPEG audio Layer II, not an MP3; convert it to WAV, MP3, FLAC or OGG Vorbis"},
		{"free format", free, clip.ErrFormat, "not a sound this program reads: it is MPEG audio of free format; convert it to WAV"},
		{"tag frame only", lame(t, song, "-b", "128")[:417], clip.ErrEmpty, "there is no sound in it"},
		{"every frame damaged", forbiddenBlocks(t, nil), clip.ErrDamaged, "the sound is damaged: its MP3 data cannot be decoded after 0.0 seconds"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if !errors.Is(err, c.want) || err.Error() != c.text || got != nil {
				t.Errorf("Decode = %v, error %q, want %q", got, err, c.text)
			}
		})
	}
}

// forbiddenBlocks returns an MPEG-2 file without tag in which the given frames,
// all if nil, switch windows to block type 0, which ISO/IEC 11172-3, 2.4.2.7,
// forbids (from memory of its text).
func forbiddenBlocks(t testing.TB, which []int) []byte {
	data := lame(t, soundtest.Song(24000, 1, 3), "-b", "64", "-t")
	frames := scan(data)
	if which == nil {
		for i := range frames {
			which = append(which, i)
		}
	}
	for _, i := range which {
		f := frames[i]
		side := data[f.offset+headerBytes:] // these files have no CRC
		// After main_data_begin (8 bits) and one private bit:
		// part2_3_length 12, big_values 9, global_gain 8,
		// scalefac_compress 9, window_switching 1, block_type 2, mixed 1.
		const at = 8 + 1 + 12 + 9 + 8 + 9
		for k, bit := range []byte{1, 0, 0, 0} {
			n := at + k
			side[n/8] = side[n/8]&^(0x80>>(n%8)) | bit*(0x80>>(n%8))
		}
	}
	return data
}

func TestDamagedFrameIsSilentAndTheRestUnchanged(t *testing.T) {
	whole, err := decode(t, context.Background(), forbiddenBlocks(t, []int{}), nil)
	if err != nil {
		t.Fatal(err)
	}
	const bad = 60
	got, err := decode(t, context.Background(), forbiddenBlocks(t, []int{bad}), nil)
	if err != nil {
		t.Fatal(err)
	}
	if got.Len() != whole.Len() {
		t.Fatalf("%d samples, want %d", got.Len(), whole.Len())
	}
	// A frame of 576 samples overlaps the next, which may also lack data that
	// stood in it, and that one the next again; the filter bank reaches 481
	// samples further.
	const frameSamples, reach = 576, 4*576 + 481
	start := bad * frameSamples
	for i, v := range got.Samples[0] {
		if (i < start || i >= start+reach) && v != whole.Samples[0][i] {
			t.Fatalf("sample %d is %v, want %v: damage is at %d to %d", i, v, whole.Samples[0][i], start, start+reach)
		}
	}
	loudest := slices.Max(whole.Samples[0])
	if got := slices.Max(got.Samples[0][start : start+reach]); got > loudest {
		t.Errorf("the damaged frame reaches %v, the sound without damage %v", got, loudest)
	}
	if slices.Equal(got.Samples[0], whole.Samples[0]) {
		t.Error("the damaged frame sounds as if it were whole")
	}
}

func TestCutStreams(t *testing.T) {
	const rate = 44100
	data := lame(t, soundtest.Song(rate, 2, 1.3), "-b", "128", "-t", "-m", "s", "--resample", "44.1")
	whole, err := decode(t, context.Background(), data, nil)
	if err != nil {
		t.Fatal(err)
	}
	frames := scan(data)
	junk := bytes.Repeat([]byte("junk\xFF\xFB"), 300)
	cases := []struct {
		name  string
		data  []byte
		first int // frame of the whole at which it starts
		count int // frames that come out
		from  int // frame of the cut one from which it equals the whole
	}{
		{"end cut off inside a frame", data[:frames[40].offset+30], 0, 40, 0},
		{"starts inside a frame", data[frames[20].offset+7:], 21, len(frames) - 21, 8},
		{"starts at a frame that needs earlier ones", data[frames[20].offset:], 20, len(frames) - 20, 8},
		{"junk before", append(bytes.Clone(junk), data...), 0, len(frames), 0},
		{"junk after", append(bytes.Clone(data), junk...), 0, len(frames), 0},
		{"junk between", append(append(bytes.Clone(data[:frames[9].offset]), junk...), data[frames[9].offset:]...), 0, len(frames), 0},
		{"ID3v1 at the end", append(bytes.Clone(data), append([]byte("TAG"), bytes.Repeat([]byte{0xFF, 0xFB, 0x90, 0x64, 0}, 25)...)...), 0, len(frames), 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := decode(t, context.Background(), c.data, nil)
			if err != nil {
				t.Fatal(err)
			}
			if want := c.count * 1152; got.Len() != want {
				t.Fatalf("%d samples, want %d", got.Len(), want)
			}
			for ch := range got.Samples {
				for i, v := range got.Samples[ch] {
					if want := whole.Samples[ch][c.first*1152+i]; i >= c.from*1152 && v != want {
						t.Fatalf("channel %d, sample %d is %v, want %v", ch, i, v, want)
					}
					if v > 1 || v < -1 {
						t.Fatalf("channel %d, sample %d is %v: noise", ch, i, v)
					}
				}
			}
		})
	}
}

// TestStartWithoutReservoirIsQuiet: frames whose main data was cut off must
// not become noise.
func TestStartWithoutReservoirIsQuiet(t *testing.T) {
	data := lame(t, soundtest.Song(44100, 1, 2), "-b", "64", "-t")
	frames := scan(data)
	for i := 1; i < len(frames); i++ {
		f := frames[i]
		side := data[f.offset+headerBytes:]       // these files have no CRC
		if int(side[0])<<1|int(side[1])>>7 == 0 { // main_data_begin, 9 bits
			continue
		}
		got, err := decode(t, context.Background(), data[f.offset:], nil)
		if err != nil {
			t.Fatal(err)
		}
		for k, v := range got.Samples[0][:1152] {
			if v != 0 {
				t.Fatalf("cut at frame %d: sample %d is %v, want silence", i, k, v)
			}
		}
		return
	}
	t.Fatal("no frame of the test file uses the reservoir")
}

// TestCrashersOfAnotherDecoder runs files on which a decoder library is known
// to panic. They may be refused or give some sound.
func TestCrashersOfAnotherDecoder(t *testing.T) {
	paths, err := filepath.Glob("testdata/decoder-panics/*.mp3")
	if err != nil || len(paths) != 5 {
		t.Fatalf("found %d files (%v), want 5", len(paths), err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			checkDecode(t, data)
		})
	}
}

// checkDecode decodes data, whatever it is, and checks what must always hold.
func checkDecode(t *testing.T, data []byte) {
	got, err := decode(t, context.Background(), data, nil)
	if err != nil {
		if !errors.Is(err, clip.ErrFormat) && !errors.Is(err, clip.ErrDamaged) && !errors.Is(err, clip.ErrEmpty) {
			t.Fatalf("Decode: unexpected error %v", err)
		}
		return
	}
	const densest = 24 // values for each byte
	if n := got.Len() * got.Channels(); n > densest*len(data) {
		t.Fatalf("%d values from %d bytes", n, len(data))
	}
	if err := clip.CheckFormat(got.Rate, got.Channels()); err != nil {
		t.Fatal(err)
	}
	for ch, samples := range got.Samples {
		if len(samples) != got.Len() {
			t.Fatalf("channel %d has %d samples, channel 0 %d", ch, len(samples), got.Len())
		}
		for i, v := range samples {
			if !(v >= -1 && v <= 1) {
				t.Fatalf("channel %d, sample %d is %v", ch, i, v)
			}
		}
	}
}

func FuzzDecode(f *testing.F) {
	song := soundtest.Song(22050, 1, 0.2)
	f.Add(lame(f, song, "-b", "32"))
	f.Add(lame(f, song, "-b", "32", "-t", "-p"))
	f.Add(lame(f, soundtest.Song(44100, 2, 0.15), "-V", "9"))
	f.Add(lame(f, soundtest.Song(12000, 1, 0.2), "-b", "16"))
	f.Add(withPicture(lame(f, song, "-b", "16"), 64))
	paths, _ := filepath.Glob("testdata/decoder-panics/*.mp3")
	for _, path := range paths {
		f.Add(soundtest.Read(f, path))
	}
	f.Fuzz(checkDecode)
}
