package folder_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"stillbeat/board"
	"stillbeat/board/folder"
)

func Example() {
	at, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(at)

	film := board.New()
	film.Title = "Tea dance"
	tune := func(board.MediaID) ([]byte, string, error) { return []byte("fLaC..."), "waltz.flac", nil }
	film.Song = &board.Song{Name: "waltz.flac", Media: "waltz", Seconds: 60}
	dir := filepath.Join(at, "tea")
	if err := folder.Write(context.Background(), dir, film, tune, nil); err != nil {
		fmt.Println(err)
		return
	}

	b, media, err := folder.Read(context.Background(), dir, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	data, err := media[0].Data()
	fmt.Println(b.Title, b.Song.Name, len(data), err)
	// Output: Tea dance waltz.flac 7 <nil>
}
