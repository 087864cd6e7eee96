package share

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// The second half of a film as a GIF, and how large it would be as an MP4.
func ExampleGIF() {
	dir, _ := os.MkdirTemp("", "share")
	defer os.RemoveAll(dir)

	film := boardOf(board.FrameRate{Num: 12, Den: 1}, 0, 1, 2)
	pics := picture.NewCache(greys{}, 0)
	opts := Options{From: 12, Height: 180}
	err := GIF(context.Background(), filepath.Join(dir, "half.gif"), film, pics, opts)
	guess, errGuess := Estimate(context.Background(), film, pics, nil, opts)
	fmt.Println(err, errGuess, guess.Bytes > 1000)
	// Output: <nil> <nil> true
}

func ExamplePanels() {
	dir, _ := os.MkdirTemp("", "share")
	defer os.RemoveAll(dir)

	film := boardOf(board.FrameRate{Num: 12, Den: 1}, 0, 1, 2)
	folder := filepath.Join(dir, "panels")
	err := Panels(context.Background(), folder, film, picture.NewCache(greys{}, 0), Options{}, false)
	made, _ := os.ReadDir(folder)
	fmt.Println(err, made[0].Name(), made[1].Name())
	// Output: <nil> 001.png 002.png
}

func ExampleWAV() {
	dir, _ := os.MkdirTemp("", "share")
	defer os.RemoveAll(dir)

	film := withSong(boardOf(board.FrameRate{Num: 12, Den: 1}, 0, 1, 2), 0.5)
	path := filepath.Join(dir, "film.wav")
	err := WAV(context.Background(), path, film, click(), Options{})
	info, _ := os.Stat(path)
	fmt.Println(err, info.Size() == 44+2*44100*4)
	// Output: <nil> true
}
