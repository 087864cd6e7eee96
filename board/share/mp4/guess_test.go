package mp4

import (
	"context"
	"errors"
	"image"
	"os"
	"strings"
	"testing"
)

// films of different kinds, for guesses: none of them is coded whole to guess.
func guessed() map[string]Film {
	held := drawnFilm(320, 180, 24, 1, 24*30)
	held.Cuts = everyNth(held.Frames, 36)
	moving := drawnFilm(320, 180, 24, 1, 200)
	moving.Cuts = everyNth(moving.Frames, 1)
	mixed := drawnFilm(320, 180, 25, 1, 600)
	mixed.Cuts = everyNth(300, 50)
	for n := int64(300); n < 340; n++ {
		mixed.Cuts = append(mixed.Cuts, n)
	}
	mixed.Cuts = append(mixed.Cuts, 400, 500)
	sounding := drawnFilm(320, 180, 24, 1, 24*20)
	sounding.Cuts = everyNth(sounding.Frames, 24)
	sounding.Sound = &Sound{Samples: plain{44100, noise(2, 20*44100)}}
	return map[string]Film{"held panels": held, "one long move": moving, "both": mixed, "with sound": sounding}
}

// TestEstimate compares guesses with the files: each is as near as it says.
func TestEstimate(t *testing.T) {
	for name, film := range guessed() {
		for _, q := range []Quality{Small, Fine} {
			g, err := Estimate(t.Context(), film, Options{Quality: q})
			if err != nil {
				t.Fatal(err)
			}
			info, err := os.Stat(written(t, film, Options{Quality: q}))
			if err != nil {
				t.Fatal(err)
			}
			if off := info.Size() - g.Bytes; off > g.Within || -off > g.Within {
				t.Errorf("%s, quality %d: %d bytes, guessed %d within %d", name, q, info.Size(), g.Bytes, g.Within)
			}
			if g.Within > g.Bytes/2 {
				t.Errorf("%s, quality %d: a guess of %d within %d says little", name, q, g.Bytes, g.Within)
			}
		}
	}
}

// TestEstimateIsBounded: a film ten times as long takes no more drawings.
func TestEstimateIsBounded(t *testing.T) {
	var calls [2]int
	for i, frames := range []int64{2400, 24000} {
		film := flatFilm(64, 48, 24, 1, frames)
		film.Cuts = everyNth(frames, 1)
		draw := film.Picture
		film.Picture = func(ctx context.Context, n int64) (*image.RGBA, error) { calls[i]++; return draw(ctx, n) }
		if _, err := Estimate(t.Context(), film, Options{}); err != nil {
			t.Fatal(err)
		}
	}
	if most := sampledParts * (1 + sampledAfter); calls[0] > most || calls[1] > most {
		t.Errorf("%v drawings, at most %d are needed", calls, most)
	}
}

// TestUnder writes films that keep to a size: none is larger, none much
// smaller than it might be, and they are whole.
func TestUnder(t *testing.T) {
	for name, film := range guessed() {
		info, err := os.Stat(written(t, film, Options{}))
		if err != nil {
			t.Fatal(err)
		}
		parts := []float64{0.5}
		if name == "both" {
			parts = append(parts, 0.9, 1.5)
		}
		for _, part := range parts {
			under := int64(part * float64(info.Size()))
			last := 0.0
			path := written(t, film, Options{Under: under, Progress: func(done float64) {
				if done < last || done > 1 {
					t.Errorf("%s: it is told %.3f after %.3f", name, done, last)
				}
				last = done
			}})
			got, err := os.Stat(path)
			if err != nil {
				t.Fatal(err)
			}
			if got.Size() > under || float64(got.Size()) < 0.7*float64(under) {
				t.Errorf("%s: %d bytes, want at most %d and not much less", name, got.Size(), under)
			}
			t.Logf("%s: %.1f %% of %d bytes", name, 100*float64(got.Size())/float64(under), under)
			if n := len(decode(t, path, film.Width, film.Height)); int64(n) != film.Frames {
				t.Errorf("%s: %d frames, want %d", name, n, film.Frames)
			}
			if last != 1 {
				t.Errorf("%s: at the end it is told %.3f", name, last)
			}
		}
	}
}

// TestUnderWithRoom: a film with more room than it can use is as fine as Fine.
func TestUnderWithRoom(t *testing.T) {
	film := guessed()["held panels"]
	a, errA := os.ReadFile(written(t, film, Options{Quality: Fine}))
	b, errB := os.ReadFile(written(t, film, Options{Under: 1e9}))
	if errA != nil || errB != nil || string(a) != string(b) {
		t.Errorf("%d bytes and %d, want the same file (%v, %v)", len(a), len(b), errA, errB)
	}
}

// TestUnderTooLittle: a size nobody can keep to is refused, and says what the
// film takes.
func TestUnderTooLittle(t *testing.T) {
	dir := t.TempDir()
	for _, under := range []int64{1, 100, 20000} {
		err := Write(t.Context(), dir+"/film.mp4", guessed()["with sound"], Options{Under: under})
		if !errors.Is(err, ErrTooSmall) || !strings.Contains(err.Error(), "at 320x180 it takes about") {
			t.Errorf("under %d: error %v, want %v", under, err, ErrTooSmall)
		}
	}
	alone(t, dir)
}

// TestSoundOfFewBits: at each bit rate the sound starts where it should.
func TestSoundOfFewBits(t *testing.T) {
	const at = 22050
	samples := make([]float32, 44100)
	for i := range 400 {
		samples[at+i] = float32(1 - 2*(i/20%2))
	}
	for _, bits := range soundBits {
		film := flatFilm(64, 48, 24, 1, 24)
		film.Sound = &Sound{Samples: plain{44100, [][]float32{samples}}}
		p, err := newPlan(film, Options{})
		if err != nil {
			t.Fatal(err)
		}
		p.audioBits = bits
		f, err := os.Create(t.TempDir() + "/film.mp4")
		if err != nil {
			t.Fatal(err)
		}
		if err := writeFilm(t.Context(), f, film, p, Options{}); err != nil {
			t.Fatal(err)
		}
		f.Close()
		first := -1
		for i, v := range heard(t, f.Name()) {
			if v > 0.25 || v < -0.25 {
				first = i
				break
			}
		}
		if first < at-300 || first > at+300 { // AAC spreads an attack
			t.Errorf("at %d bits a second the sound begins at sample %d, want %d", bits, first, at)
		}
	}
}

// TestLevelForBits: a film of more bits needs a higher level (ISO/IEC 14496-10,
// table A-1, the bit rates as FFmpeg's h264_levels.c lists them).
func TestLevelForBits(t *testing.T) {
	for _, tt := range []struct {
		w, h int
		bits int64
		want int
	}{
		{640, 360, 10000000, 30}, {640, 360, 10000001, 31}, {1280, 720, 14000000, 31}, {1280, 720, 14000001, 32},
		{1920, 1080, 20000000, 40}, {1920, 1080, 20000001, 41}, {1920, 1080, 50000001, 50}, {3840, 2160, 240000001, 52},
	} {
		if got, err := levelFor(tt.w, tt.h, 24, 1, tt.bits); got != tt.want || err != nil {
			t.Errorf("%dx%d with %d bits a second: level %d, %v; want %d", tt.w, tt.h, tt.bits, got, err, tt.want)
		}
	}
	if got := busiest([]uint32{1, 2, 30, 4, 5, 60}, 2); got != 8*65 {
		t.Errorf("the busiest two take %d bits, want %d", got, 8*65)
	}
}
