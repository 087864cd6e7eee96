package file

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"stillbeat/board"
)

// childTask makes the test program play a second program that does one of the
// tasks with a film.
const childTask, childFilm = "STILLBEAT_TEST_TASK", "STILLBEAT_TEST_FILM"

var tasks = map[string]func(path string) error{
	"open": func(path string) error { // say how opening went
		_, _, err := Open(path)
		fmt.Println(err)
		return nil
	},
	"read": func(path string) error { // say what reading found
		f, b, err := OpenReadOnly(path)
		if err == nil {
			fmt.Printf("%s: %v\n", b.Title, f.ReadOnly())
		}
		return err
	},
	"hold": func(path string) error { // have it open until killed
		_, _, err := Open(path)
		fmt.Println(err)
		time.Sleep(time.Minute)
		return err
	},
	"edit": editForever,
}

func TestMain(m *testing.M) {
	task, ok := tasks[os.Getenv(childTask)]
	if !ok {
		code := m.Run()
		for path := range longFilms {
			os.RemoveAll(filepath.Dir(path))
		}
		os.Exit(code)
	}
	if err := task(os.Getenv(childFilm)); err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
}

// child returns the command that runs a task on a film.
func child(task, path string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childTask+"="+task, childFilm+"="+path)
	cmd.Stderr = os.Stderr
	return cmd
}

// editForever makes edits that count up in the title and prints each number
// once it is saved. Some bring a picture, some a new grid; now and then steps
// are taken back and done again, and the film is copied or compacted.
func editForever(path string) error {
	f, _, err := Open(path)
	if err != nil {
		return err
	}
	h := board.RestoreHistory(f.Past(), f)
	redoAll(h)
	n, err := strconv.Atoi(h.Board().Title)
	if err != nil {
		return err
	}
	for {
		n++
		var picture board.MediaID
		switch n % 8 {
		case 1:
			ids, err := f.AddMedia(Picture, Media{Name: "photo.jpg", Data: noise(300000, uint64(n))})
			if err != nil {
				return err
			}
			picture = ids[0]
		case 3:
			for range 3 {
				h.Undo()
				if err := f.Save(h.Past()); err != nil {
					return err
				}
			}
			redoAll(h)
		case 5:
			if n%40 == 5 {
				_, err = f.Compact()
				h.Forget()
			}
		case 7:
			err = f.CopyTo(path + ".copy")
		}
		if err == nil {
			err = h.Do(board.Edit{Name: strconv.Itoa(n), Apply: func(b board.Board) (board.Board, error) {
				return numbered(b, n, picture), nil
			}})
		}
		if err == nil {
			err = f.Save(h.Past())
		}
		if err != nil {
			return err
		}
		fmt.Println(n)
	}
}

func redoAll(h *board.History) {
	for h.Redo() {
	}
}

// numbered returns the board after edit n: the number stands in the title, in
// a panel and, for some, in the grid.
func numbered(b board.Board, n int, picture board.MediaID) board.Board {
	b.Title = strconv.Itoa(n)
	b.Panels = slices.Clone(b.Panels)
	p := &b.Panels[n%len(b.Panels)]
	p.Note = "edit " + b.Title
	if picture != "" {
		p.Picture = picture
	}
	if n%8 == 4 {
		b.Grid.Tempo = float64(n)
	}
	return b
}

// lastNumber reads lines until there are no more and returns the number on
// the last whole one, or had.
func lastNumber(lines *bufio.Reader, had int) (int, error) {
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			return had, nil
		}
		if had, err = strconv.Atoi(line[:len(line)-1]); err != nil {
			return had, fmt.Errorf("the editing program said %q", line)
		}
	}
}
