package main

import (
	"io"

	"stillbeat/board/beside"
)

// writeFile puts data at path: whole, or not at all.
func writeFile(path string, data []byte) error {
	return beside.Save(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}
