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
	var song clip.Packed // where the samples go
	info, err := audio.Decode(context.Background(), "click.mp3", data, &song, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%q: %d Hz, %d channel, %.2f seconds\n", info.Title, song.Rate(), song.Channels(), song.Seconds())
	// Output: "Click": 44100 Hz, 1 channel, 0.50 seconds
}

// What cannot be read is named, with advice.
func ExampleDecode_refused() {
	_, err := audio.Decode(context.Background(), "waltz.mp3", []byte("MThd"), &clip.Clip{}, nil)
	fmt.Println(err)
	fmt.Println(errors.Is(err, clip.ErrFormat))
	// Output:
	// open song "waltz.mp3": not a sound this program reads: it is a MIDI file, which holds notes and no sound; record it as WAV, MP3, FLAC or OGG Vorbis
	// true
}

func ExampleOpen() {
	var song clip.Clip
	_, err := audio.Open(context.Background(), "../testdata/sound/click.ogg", &song, func(done float64) {
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

func ExamplePyramid() {
	data, err := os.ReadFile("../testdata/sound/click.wav")
	if err != nil {
		fmt.Println(err)
		return
	}
	var wave audio.Pyramid
	if _, err := audio.Decode(context.Background(), "click.wav", data, &wave, nil); err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range wave.Columns(make([]audio.Column, 3), 0, 0.6) {
		fmt.Printf("%.2f to %.2f, RMS %.3f\n", c.Min, c.Max, c.RMS)
	}
	// Output:
	// 0.00 to 0.80, RMS 0.028
	// 0.00 to 0.80, RMS 0.028
	// 0.00 to 0.00, RMS 0.000
}
