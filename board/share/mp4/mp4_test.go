package mp4

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/Azunyan1111/openh264-go"
	"github.com/Eyevinn/mp4ff/avc"
)

// TestProbe checks what ffprobe reads from files of many shapes.
func TestProbe(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name          string
		width, height int
		num, den      int64
		frames        int64
		sound         *Sound
		wantW, wantH  int
		wantLevel     int
	}{
		{"film rate", 320, 180, 24, 1, 49, nil, 320, 180, 30},
		{"23.976 with sound", 1280, 720, 24000, 1001, 100, &Sound{Samples: plain{44100, noise(2, 44100*9)}}, 1280, 720, 31},
		{"29.97 with short sound", 640, 480, 30000, 1001, 77, &Sound{Samples: plain{48000, noise(1, 4800)}}, 640, 480, 30},
		{"25, rate not reduced", 320, 180, 50, 2, 40, &Sound{Samples: plain{22050, noise(1, 22050)}}, 320, 180, 30},
		{"12.5", 160, 90, 25, 2, 30, nil, 160, 90, 30},
		{"1 frame per second", 160, 90, 1, 1, 12, &Sound{Samples: plain{48000, noise(2, 48000*3)}}, 160, 90, 30},
		{"60 frames per second", 1920, 1080, 60, 1, 90, nil, 1920, 1080, 42},
		{"upright", 720, 1280, 24, 1, 24, nil, 720, 1280, 31},
		{"upright HD", 1080, 1920, 24, 1, 8, nil, 1080, 1920, 40},
		{"odd size", 181, 101, 24, 1, 24, nil, 182, 102, 30},
		{"scope", 1920, 804, 24, 1, 8, nil, 1920, 804, 40},
		{"smallest", 16, 16, 24, 1, 24, nil, 16, 16, 30},
		{"one frame with sound", 160, 90, 24, 1, 1, &Sound{Samples: plain{44100, noise(2, 44100)}}, 160, 90, 30},
		{"one frame at 23.976", 160, 90, 24000, 1001, 1, nil, 160, 90, 30},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			film := flatFilm(tt.width, tt.height, tt.num, tt.den, tt.frames)
			film.Cuts = everyNth(tt.frames, 30)
			film.Sound = tt.sound
			p := probe(t, written(t, film, Options{}))
			g := gcd(tt.num, tt.den)
			fps := fmt.Sprintf("%d/%d", tt.num/g, tt.den/g)
			if want := 1 + min(1, len(film.soundChannels())); len(p.Streams) != want {
				t.Fatalf("%d streams, want %d", len(p.Streams), want)
			}
			v := p.Streams[0]
			got := stream{CodecName: v.CodecName, Profile: v.Profile, Level: v.Level, Width: v.Width,
				Height: v.Height, PixFmt: v.PixFmt, ColorRange: v.ColorRange, ColorSpace: v.ColorSpace,
				ColorTransfer: v.ColorTransfer, ColorPrimaries: v.ColorPrimaries, AspectRatio: v.AspectRatio,
				RFrameRate: v.RFrameRate, AvgFrameRate: v.AvgFrameRate, NbFrames: v.NbFrames, StartTime: v.StartTime}
			want := stream{CodecName: "h264", Profile: "Constrained Baseline", Level: tt.wantLevel,
				Width: tt.wantW, Height: tt.wantH, PixFmt: "yuv420p", ColorRange: "tv", ColorSpace: "bt709",
				ColorTransfer: "bt709", ColorPrimaries: "bt709", AspectRatio: "1:1", RFrameRate: fps,
				AvgFrameRate: fps, NbFrames: strconv.FormatInt(tt.frames, 10), StartTime: "0.000000"}
			if got != want {
				t.Errorf("picture track\n got %+v\nwant %+v", got, want)
			}
			length := big.NewRat(tt.frames*tt.den, tt.num)
			base, _ := new(big.Rat).SetString(v.TimeBase)
			if d := new(big.Rat).Mul(base, big.NewRat(v.DurationTS, 1)); d.Cmp(length) != 0 {
				t.Errorf("picture track lasts %v s, want %v", d, length)
			}
			if want := length.FloatString(6); p.Format.Duration != want || p.Format.StartTime != "0.000000" {
				t.Errorf("file starts at %s and lasts %s s, want 0 and %s", p.Format.StartTime, p.Format.Duration, want)
			}
			if tt.sound == nil {
				return
			}
			a := p.Streams[1]
			if a.CodecName != "aac" || a.Profile != "LC" || a.Channels != 2 || a.StartTime != "0.000000" {
				t.Errorf("sound track %+v", a)
			}
			if want := strconv.Itoa(tt.sound.codedRate()); a.SampleRate != want {
				t.Errorf("sound at %s Hz, want %s", a.SampleRate, want)
			}
			seconds, _ := length.Float64()
			// Whole samples: up to one more or less than the film.
			if d, _ := strconv.ParseFloat(a.Duration, 64); math.Abs(d-seconds) > 1.0/44100 {
				t.Errorf("sound lasts %v s, want %v", d, seconds)
			}
		})
	}
}

func (f Film) soundChannels() [][]float32 {
	if f.Sound == nil {
		return nil
	}
	return f.Sound.Samples.(plain).samples
}

// TestBoxOrder checks that the index stands before the media and that the
// boxes fill the file.
func TestBoxOrder(t *testing.T) {
	film := drawnFilm(160, 90, 24, 1, 100)
	film.Sound = &Sound{Samples: plain{48000, noise(2, 48000*4)}}
	b, err := os.ReadFile(written(t, film, Options{}))
	if err != nil {
		t.Fatal(err)
	}
	var order []string
	for len(b) > 0 {
		size := binary.BigEndian.Uint32(b)
		if size < 8 || int(size) > len(b) {
			t.Fatalf("box of %d bytes in a rest of %d", size, len(b))
		}
		order = append(order, string(b[4:8]))
		b = b[size:]
	}
	if got := strings.Join(order, " "); got != "ftyp moov mdat" {
		t.Errorf("boxes %s, want ftyp moov mdat", got)
	}
}

// TestEveryFrame decodes every frame and compares it with the picture that
// stands there: held, moving, on twos, cut after one frame.
func TestEveryFrame(t *testing.T) {
	t.Parallel()
	const w, h, frames = 320, 180, 150
	film := drawnFilm(w, h, 24000, 1001, frames)
	film.Cuts = []int64{0, 1, 30, 60, 61, 62, 63, 64, 65, 66, 68, 70, 72, 74, 120, 149}
	got := decode(t, written(t, film, Options{}), w, h)
	if len(got) != frames {
		t.Fatalf("%d frames, want %d", len(got), frames)
	}
	cut := 0
	for n, frame := range got {
		if cut+1 < len(film.Cuts) && film.Cuts[cut+1] == int64(n) {
			cut++
		}
		at := film.Cuts[cut]
		if number := drawnNumber(frame, w, h); number != at {
			t.Errorf("frame %d shows picture %d, want %d", n, number, at)
		}
		// The strokes, a pixel wide, cost most of what is lost.
		want, _ := film.Picture(t.Context(), at) // the one that was written
		if db := psnr(frame, want); db < 33 {
			t.Errorf("frame %d: %.1f dB, want 33", n, db)
		}
		if held := int64(n) - at; held >= 2 && !bytes.Equal(frame, got[n-1]) {
			t.Errorf("frame %d differs from the one before, though it is held", n)
		}
	}
}

// TestSecondDecoder: H.264 decoding is exact, so another decoder must show the
// same samples.
func TestSecondDecoder(t *testing.T) {
	const w, h = 182, 102 // cropped on both sides
	film := drawnFilm(w, h, 24, 1, 300)
	film.Cuts = []int64{0, 1, 2, 3, 10, 40, 41, 43}
	path := written(t, film, Options{})
	want := tool(t, "ffmpeg", "-i", path, "-f", "rawvideo", "-")
	units := avc.ExtractNalusFromByteStream(tool(t, "ffmpeg", "-i", path, "-c", "copy", "-bsf", "h264_mp4toannexb", "-f", "h264", "-"))
	dec, err := openh264.NewDecoder(nil)
	if err != nil {
		t.Fatal(err)
	}
	defer dec.Close()
	frames := 0
	for _, unit := range units {
		img, err := dec.Decode(append([]byte{0, 0, 0, 1}, unit...))
		if err != nil {
			t.Fatal(err)
		}
		if img == nil { // a parameter set
			continue
		}
		for i, plane := range [][]uint8{img.Y, img.Cb, img.Cr} {
			pw, ph, stride := w, h, img.YStride
			if i > 0 {
				pw, ph, stride = w/2, h/2, img.CStride
			}
			for y := range ph {
				if !bytes.Equal(plane[y*stride:y*stride+pw], want[:pw]) {
					t.Fatalf("frame %d, plane %d, row %d: the decoders differ", frames, i, y)
				}
				want = want[pw:]
			}
		}
		frames++
	}
	if frames != 300 || len(want) != 0 {
		t.Errorf("%d frames and %d bytes over, want 300 and 0", frames, len(want))
	}
}

// TestHeldFrameSize: a panel held for a minute costs next to nothing.
func TestHeldFrameSize(t *testing.T) {
	p, err := newPlan(drawnFilm(1280, 720, 24, 1, 24), Options{})
	if err != nil {
		t.Fatal(err)
	}
	c, err := newCoder(p)
	if err != nil {
		t.Fatal(err)
	}
	defer c.close()
	for range 300 {
		if n := len(c.held()); n > 16 {
			t.Fatalf("a held frame takes %d bytes, want 16 at most", n)
		}
	}
}

// TestQuality: the finer the quality, the larger the file and the closer the picture.
func TestQuality(t *testing.T) {
	const w, h = 320, 180
	var sizes []int64
	var db []float64
	for _, q := range []Quality{Small, Standard, Fine} {
		path := written(t, drawnFilm(w, h, 24, 1, 4), Options{Quality: q})
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		sizes = append(sizes, info.Size())
		db = append(db, psnr(decode(t, path, w, h)[3], drawing(w, h, 0)))
	}
	for i := range 2 {
		if sizes[i] >= sizes[i+1] || db[i] >= db[i+1] {
			t.Errorf("sizes %v and closeness %.1f dB do not both rise", sizes, db)
		}
	}
}

// TestKeyFrames: a player can jump to each panel, and into long holds and moves.
func TestKeyFrames(t *testing.T) {
	film := drawnFilm(160, 90, 10, 1, 260)
	film.Cuts = []int64{0, 30, 32, 34, 140}
	for f := int64(200); f < 260; f++ {
		film.Cuts = append(film.Cuts, f)
	}
	out := tool(t, "ffprobe", "-select_streams", "v", "-show_entries", "packet=flags", "-of", "csv=p=0", written(t, film, Options{}))
	var keys []int
	for n, line := range strings.Fields(string(out)) {
		if strings.HasPrefix(line, "K") {
			keys = append(keys, n)
		}
	}
	// 30, 140 and 200 follow a hold of half a second or more; 130 is ten
	// seconds into the film after 30; from 200 on each frame moves, and a key
	// picture comes every two seconds.
	want := []int{0, 30, 130, 140, 200, 220, 240}
	if fmt.Sprint(keys) != fmt.Sprint(want) {
		t.Errorf("key pictures at %v, want %v", keys, want)
	}
}

// TestTenMinutes writes a long film: every frame is there.
func TestTenMinutes(t *testing.T) {
	film := drawnFilm(64, 48, 30000, 1001, 18000)
	film.Cuts = everyNth(film.Frames, 900)
	v := probe(t, written(t, film, Options{})).Streams[0]
	if v.Duration != "600.600000" || v.NbFrames != "18000" {
		t.Errorf("%s frames in %s s, want 18000 in 600.6", v.NbFrames, v.Duration)
	}
}

// TestUltraHD writes 3840x2160 and finds its flat colours again.
func TestUltraHD(t *testing.T) {
	t.Parallel()
	film := flatFilm(3840, 2160, 24, 1, 2)
	film.Cuts = []int64{0, 1}
	path := written(t, film, Options{})
	if v := probe(t, path).Streams[0]; v.Level != 51 || v.Width != 3840 || v.Height != 2160 {
		t.Errorf("level %d, %dx%d, want 51, 3840x2160", v.Level, v.Width, v.Height)
	}
	for n, frame := range decode(t, path, 3840, 2160) {
		want := flatColour(int64(n))
		for _, at := range []int{0, 3 * (1000*3840 + 2000), 3 * (2159*3840 + 3839)} {
			if d := distance(frame[at:at+3], want); d > 3 {
				t.Errorf("frame %d at %d: %v, want %v", n, at, frame[at:at+3], want)
			}
		}
	}
}

// TestLargeFile: with 64-bit places the file reads as well as without.
func TestLargeFile(t *testing.T) {
	film := drawnFilm(160, 90, 24, 1, 30)
	film.Sound = &Sound{Samples: plain{48000, noise(2, 48000)}}
	p, err := newPlan(film, Options{})
	if err != nil {
		t.Fatal(err)
	}
	p.large = true
	path := t.TempDir() + "/film.mp4"
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := writeFilm(t.Context(), f, film, p, Options{}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := decode(t, path, 160, 90)
	if len(got) != 30 || len(heard(t, path)) < 48000 {
		t.Errorf("%d frames and %d samples, want 30 and 60000", len(got), len(heard(t, path)))
	}
}
