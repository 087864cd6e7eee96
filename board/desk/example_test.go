package desk_test

import (
	"fmt"
	"os"
	"path/filepath"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func ExampleCreate() {
	folder, err := os.MkdirTemp("", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "kettle.stillbeat")

	film, err := desk.Create(path, board.New())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(film.Do(board.SetTitle("The kettle dances")), film.Name())
	film.Undo()
	fmt.Println(film.Name(), "- redo:", film.RedoName())
	film.Redo()
	fmt.Println(film.Close())

	film, err = desk.Open(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer film.Close()
	fmt.Println(film.Name())
	// Output:
	// <nil> The kettle dances
	// kettle - redo: film title
	// <nil>
	// The kettle dances
}
