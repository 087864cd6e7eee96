package check

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// scenes is a source of photographs of 1280 x 720, another for each id.
type scenes [][]byte

func newScenes(b *testing.B, n int) scenes {
	out := make(scenes, n)
	for k := range out {
		img := image.NewYCbCr(image.Rect(0, 0, 1280, 720), image.YCbCrSubsampleRatio420)
		for y := range 720 {
			for x := range 1280 {
				img.Y[img.YOffset(x, y)] = uint8(x/(k+3)*7 + y/5 + k*40)
			}
		}
		for i := range img.Cb {
			img.Cb[i], img.Cr[i] = 120, 135
		}
		var data bytes.Buffer
		if err := jpeg.Encode(&data, img, nil); err != nil {
			b.Fatal(err)
		}
		out[k] = data.Bytes()
	}
	return out
}

func (s scenes) Media(id board.MediaID) ([]byte, error) {
	var k int
	_, err := fmt.Sscan(string(id), &k)
	return s[k%len(s)], err
}

// tenMinutes is a film of so many panels in ten minutes at 24 fps.
func tenMinutes(b *testing.B, panels int) board.Board {
	film := board.New()
	for i := range panels {
		film.Panels = append(film.Panels, board.Panel{ID: film.NextID, Picture: board.MediaID(fmt.Sprint(i)), Start: board.Free(600 * float64(i) / float64(panels))})
		film.NextID++
	}
	film.End = board.Free(600)
	if err := film.Check(); err != nil {
		b.Fatal(err)
	}
	return film
}

func BenchmarkRun(b *testing.B) {
	pictures := newScenes(b, 8)
	held := tenMinutes(b, 1000)
	moving := held
	moving.Panels = append([]board.Panel(nil), held.Panels...)
	for i := range moving.Panels {
		switch i % 4 {
		case 1:
			moving.Panels[i].Into = board.Transition{Kind: board.Dissolve, Frames: 8}
		case 2:
			moving.Panels[i].Drawn = &board.Drawn{Travel: board.CameraMove{To: board.Framing{Width: 0.5}}}
		}
	}
	kept := picture.NewCache(pictures, 0)
	for _, c := range []struct {
		name string
		film board.Board
		kept bool
	}{{"ten minutes of 1000 held panels", held, false}, {"once more", held, true}, {"with dissolves and camera moves", moving, false}} {
		b.Run(c.name, func(b *testing.B) {
			if c.kept {
				if _, err := Run(context.Background(), c.film, Options{Pictures: kept}); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				pics := kept
				if !c.kept {
					pics = picture.NewCache(pictures, 0)
				}
				if _, err := Run(context.Background(), c.film, Options{Pictures: pics}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// Judging alone, of frames that all change everywhere.
func BenchmarkFlashes(b *testing.B) {
	var frames []*image.RGBA
	for _, v := range []uint8{0, 255, 90, 180, 30, 210} {
		frames = append(frames, filled(192, 108, color.RGBA{v, v / 2, v / 3, 255}))
	}
	for b.Loop() {
		_, err := Flashes(context.Background(), func(n board.Frame) (*image.RGBA, error) { return frames[int(n)%len(frames)], nil },
			FlashOptions{Rate: board.FrameRate{Num: 24, Den: 1}, Length: 240})
		if err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/240, "µs/frame")
}
