package mp4_test

import (
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"

	"stillbeat/board/share/mp4"
)

// A film of two panels, one second each, with a second of silence and then
// sound.
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
		Sound: &mp4.Sound{Rate: 48000, Samples: [][]float32{make([]float32, 48000)}, Start: 1},
	}
	fmt.Println(mp4.Write(context.Background(), filepath.Join(dir, "film.mp4"), film, mp4.Options{}))
	// Output:
	// drawing frame 0
	// drawing frame 24
	// <nil>
}
