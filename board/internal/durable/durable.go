// Package durable brings to the disk what the system still keeps in memory.
package durable

import (
	"os"
	"runtime"
)

// Folder makes the names in a folder durable, where the system can.
func Folder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}
