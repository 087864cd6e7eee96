package audio_test

import (
	"context"
	"errors"
	"fmt"
	"os"

	"stillbeat/audio"
	"stillbeat/audio/clip"
)

func ExampleDecode() {
	data, err := os.ReadFile("../testdata/sound/click.mp3")
	if err != nil {
		fmt.Println(err)
		return
	}
	song, err := audio.Decode(context.Background(), "click.mp3", data, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%q: %d Hz, %d channel, %.2f seconds\n", song.Title, song.Rate, song.Channels(), song.Seconds())
	// Output: "Click": 44100 Hz, 1 channel, 0.50 seconds
}

// What cannot be read is named, with advice.
func ExampleDecode_refused() {
	_, err := audio.Decode(context.Background(), "waltz.mp3", []byte("MThd"), nil)
	fmt.Println(err)
	fmt.Println(errors.Is(err, clip.ErrFormat))
	// Output:
	// open song "waltz.mp3": not a sound this program reads: it is a MIDI file, which holds notes and no sound; record it as WAV, MP3, FLAC or OGG Vorbis
	// true
}

func ExampleOpen() {
	song, err := audio.Open(context.Background(), "../testdata/sound/click.ogg", func(done float64) {
		if done == 1 {
			fmt.Println("all read")
		}
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(song.Len(), "samples")
	// Output:
	// all read
	// 22050 samples
}

func ExamplePyramid_Columns() {
	square := []float32{1, 1, -1, -1, 1, 1, -1, -1}
	song := &audio.Clip{Rate: 8, Samples: [][]float32{square}}
	columns := make([]audio.Column, 4)
	for _, c := range audio.BuildPyramid(song).Columns(columns, 0, 2) {
		fmt.Println(c.Min, c.Max, c.RMS)
	}
	// Output:
	// -1 1 1
	// -1 1 1
	// 0 0 0
	// 0 0 0
}
