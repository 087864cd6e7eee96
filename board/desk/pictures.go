package desk

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// ReadPicture is a picture file that was found to be a picture.
type ReadPicture struct {
	Name string // file name
	Data []byte // nil once it is in a film

	in board.MediaID // under which it is in that film, "" if in none
}

// atOnce is how many pictures are read at a time at most: each may take four
// bytes for each of its pixels.
const atOnce = 4

// NewPictures reads the pictures at paths, in their order. Those that cannot be
// read, be it only some of their pixels, are told of in the second result, one
// sentence each, and the others come in; only a cancelled context gives the
// third.
func NewPictures(ctx context.Context, paths []string, p Progress) ([]ReadPicture, []error, error) {
	var (
		pics = make([]ReadPicture, len(paths))
		errs = make([]error, len(paths))
		next = make(chan int)
		told sync.Mutex
		done int
		work sync.WaitGroup
	)
	for range min(atOnce, runtime.GOMAXPROCS(0), len(paths)) {
		work.Go(func() {
			for i := range next {
				pics[i], errs[i] = readPicture(paths[i])
				told.Lock()
				done++
				p.report(float64(done) / float64(len(paths)))
				told.Unlock()
			}
		})
	}
	for i := 0; i < len(paths) && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	work.Wait()
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	var (
		good []ReadPicture
		bad  []error
	)
	for i, path := range paths {
		if errs[i] != nil {
			bad = append(bad, fmt.Errorf("open picture %q: %w", nameOf(path), errs[i]))
			continue
		}
		good = append(good, pics[i])
	}
	return good, bad, nil
}

// readPicture reads a picture and looks at all its pixels: a damaged one is
// found now and not when the film is watched.
func readPicture(path string) (ReadPicture, error) {
	data, err := readFile(path, maxPicture)
	if err != nil {
		return ReadPicture{}, err
	}
	if _, err := picture.Decode(data); err != nil {
		return ReadPicture{}, err
	}
	return ReadPicture{Name: nameOf(path), Data: data}, nil
}

// otherPictures are what names of pictures end in that are not read: a telephone's,
// those of cameras as they come off the sensor, of paint programs and of drawings.
var otherPictures = []string{".heic", ".heif", ".avif", ".jxl", ".jp2", ".dng", ".cr2", ".cr3", ".nef", ".arw", ".orf", ".rw2", ".raf",
	".psd", ".xcf", ".kra", ".ora", ".tga", ".exr", ".svg"}

// WithFolders puts in place of each folder the pictures in it, in natural order;
// folders without any, those that cannot be read and pictures of other kinds in
// them are told of. What is no picture is passed over.
func WithFolders(paths []string) (files []string, bad []error) {
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil || !info.IsDir() {
			files = append(files, path) // reading it tells what is wrong
			continue
		}
		name := filepath.Base(path)
		entries, err := os.ReadDir(path)
		if err != nil {
			bad = append(bad, fmt.Errorf("open folder %q: it cannot be read", name))
			continue
		}
		var within, others []string
		for _, e := range entries {
			ext := strings.ToLower(filepath.Ext(e.Name()))
			switch {
			case e.IsDir() || strings.HasPrefix(e.Name(), "."):
			case slices.Contains(picture.Extensions, ext):
				within = append(within, filepath.Join(path, e.Name()))
			case slices.Contains(otherPictures, ext):
				others = append(others, e.Name())
			}
		}
		SortNaturally(others)
		for _, other := range others {
			bad = append(bad, fmt.Errorf("open picture %q: %w", nameOf(other), picture.ErrFormat))
		}
		if len(within)+len(others) == 0 {
			bad = append(bad, fmt.Errorf("open folder %q: there are no pictures in it", name))
		}
		SortNaturally(within)
		files = append(files, within...)
	}
	return files, bad
}

// titleOf makes a panel title of a picture's file name.
func titleOf(name string) string {
	t := strings.TrimSuffix(name, filepath.Ext(name))
	return strings.TrimSpace(strings.ReplaceAll(t, "_", " "))
}
