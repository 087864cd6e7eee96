package share

import (
	"fmt"
	"io"
	"os"

	"stillbeat/board/internal/beside"
)

// Save writes a file of which write gives the text or bytes: it is whole at
// path when write succeeds, and else nothing new is left behind and an old file
// is still whole, as with the other exports.
func Save(path string, write func(io.Writer) error) error {
	if err := beside.File(path, func(f *os.File) error { return write(f) }); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return nil
}
