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

// The history of a film is on disk with it: a History begun from it undoes
// what was done before the film was closed.
func ExampleFile_Save() {
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
	history := board.RestoreHistory(film.Past(), film)
	fmt.Println(history.Do(board.SetTitle("The kettle dances")))
	fmt.Println(film.Save(history.Past()), film.Close())

	film, _, err = file.OpenReadOnly(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer film.Close()
	history = board.RestoreHistory(film.Past(), film)
	fmt.Println(history.UndoName(), history.Undo(), history.Board().Title == "")
	fmt.Println(film.Save(history.Past()))
	// Output:
	// <nil>
	// <nil> <nil>
	// film title true true
	// save film "kettle.stillbeat": it was opened to be read only, so it is only shown here; a copy can be saved
}
