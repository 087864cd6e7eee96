package mp4_test

import (
	"context"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"

	"stillbeat/board/share/mp4"
)

// hum is a sound that is worked out as it is read.
type hum struct{}

func (hum) Rate() int     { return 48000 }
func (hum) Channels() int { return 1 }
func (hum) Read(dst [][]float32, at int) {
	for i := range dst[0] {
		dst[0][i] = float32(0.1 * math.Sin(2*math.Pi*50/48000*float64(max(0, at+i))))
	}
}

// A film of two panels, one second each, with a second of silence and then
// a hum.
func ExampleWrite() {
	dir, err := os.MkdirTemp("", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	film := mp4.Film{
		Num: 24, Den: 1, Frames: 48, Width: 640, Height: 360,
		Cuts: []int64{0, 24},
		Picture: func(_ context.Context, frame int64) (*image.RGBA, error) {
			fmt.Println("drawing frame", frame)
			return image.NewRGBA(image.Rect(0, 0, 640, 360)), nil
		},
		Sound: &mp4.Sound{Samples: hum{}, Start: 1},
	}
	fmt.Println(mp4.Write(context.Background(), filepath.Join(dir, "film.mp4"), film, mp4.Options{}))
	// Output:
	// drawing frame 0
	// drawing frame 24
	// <nil>
}
