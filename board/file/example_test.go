package file_test

import (
	"fmt"
	"os"
	"path/filepath"

	"stillbeat/board"
	"stillbeat/board/file"
)

func Example() {
	folder, err := os.MkdirTemp("", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "kettle"+file.Ext)

	film, err := file.Create(path, board.New())
	if err != nil {
		fmt.Println(err)
		return
	}
	b := board.New()
	b.Title = "The kettle dances"
	fmt.Println(film.SaveBoard(b), film.Close())

	film, b, err = file.Open(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer film.Close()
	fmt.Println(b.Title)
	_, err = file.Create(path, b)
	fmt.Println(err)
	// Output:
	// <nil> <nil>
	// The kettle dances
	// create film "kettle.stillbeat": there is already a file of that name
}
