// Drawicon writes the program's icon as a PNG to the file named on the command
// line. It is run by go generate in package assets.
package main

import (
	"fmt"
	"image/png"
	"os"

	"stillbeat/assets/internal/icon"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: drawicon FILE.png")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "drawicon:", err)
		os.Exit(1)
	}
}

func write(name string) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	if err := png.Encode(f, icon.Draw()); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
