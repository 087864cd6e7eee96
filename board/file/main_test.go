package file

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"testing"
)

// childTask makes the test program play a second program that uses a film:
// "open" says how opening went, "edit" edits until it is killed.
const childTask, childFilm = "STILLBEAT_TEST_TASK", "STILLBEAT_TEST_FILM"

func TestMain(m *testing.M) {
	path := os.Getenv(childFilm)
	switch os.Getenv(childTask) {
	case "":
		os.Exit(m.Run())
	case "open":
		_, _, err := Open(path)
		fmt.Println(err)
	case "edit":
		if err := editForever(path); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
	}
}

// child returns the command that runs a task on a film.
func child(task, path string) *exec.Cmd {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childTask+"="+task, childFilm+"="+path)
	cmd.Stderr = os.Stderr
	return cmd
}

// editForever saves boards whose titles count up and prints each number once
// it is saved. Some edits bring a picture, some a new grid, some compact the
// film or copy it.
func editForever(path string) error {
	f, b, err := Open(path)
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(b.Title)
	if err != nil {
		return err
	}
	for {
		n++
		b.Title = strconv.Itoa(n)
		switch n % 8 {
		case 1:
			ids, err := f.AddMedia(Picture, Media{"photo.jpg", noise(300000, uint64(n))})
			if err != nil {
				return err
			}
			b.Panels[n%len(b.Panels)].Picture = ids[0]
		case 3:
			b.Grid.Tempo = float64(n)
		case 5:
			_, err = f.Compact()
		case 7:
			err = f.CopyTo(path + ".copy")
		}
		if err == nil {
			err = f.SaveBoard(b)
		}
		if err != nil {
			return err
		}
		fmt.Println(n)
	}
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
