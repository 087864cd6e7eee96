package folder

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"golang.org/x/text/unicode/norm"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Read reads the film in the folder dir: its board, checked, and its song,
// pictures and sketches, each once, in the order of the film. Their bytes are not kept in
// memory: Data reads them again. What is wrong is told in one sentence that
// names the file: not a film (ErrNotFilm), one of a newer version (ErrNewer),
// and whatever else keeps the film from coming back whole. progress may be
// nil.
func Read(ctx context.Context, dir string, progress func(done float64)) (board.Board, []Medium, error) {
	abs, err := filepath.Abs(dir)
	if err == nil {
		dir = abs
	}
	b, media, err := read(ctx, dir, progress)
	if err != nil {
		return board.Board{}, nil, fmt.Errorf("read folder %q: %w", filepath.Base(dir), err)
	}
	return b, media, nil
}

func read(ctx context.Context, dir string, progress func(float64)) (board.Board, []Medium, error) {
	if info, err := os.Stat(dir); err != nil {
		return board.Board{}, nil, plain(err)
	} else if !info.IsDir() {
		return board.Board{}, nil, fmt.Errorf("%w: it is a file", ErrNotFilm)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return board.Board{}, nil, plain(err)
	}
	defer root.Close()
	text, err := readFile(root, filmFile, maxJSON)
	if errors.Is(err, fs.ErrNotExist) {
		return board.Board{}, nil, fmt.Errorf("%w: it holds no %s", ErrNotFilm, filmFile)
	}
	if err != nil {
		return board.Board{}, nil, fmt.Errorf("%s: %w", filmFile, err)
	}
	doc, err := parse(text)
	if err != nil {
		return board.Board{}, nil, fmt.Errorf("%s: %w", filmFile, err)
	}
	r := reader{
		root: root, dir: dir, step: steps{ctx: ctx, progress: progress, total: doc.files()},
		names: map[string]string{}, files: map[use]board.MediaID{}, known: map[board.MediaID]bool{},
	}
	for _, n := range doc.Names {
		r.names[n.File] = n.Name
	}
	b, err := doc.board(r.id)
	if err != nil {
		return board.Board{}, nil, fmt.Errorf("%s: %w", filmFile, err)
	}
	return b, r.media, ctx.Err()
}

// use is a file and what it is taken for: it must be right for each.
type use struct {
	file string
	kind Kind
}

// files counts the files the document names, by their uses.
func (d document) files() int {
	seen := map[use]bool{}
	for _, p := range d.Panels {
		seen[use{p.Picture, Picture}] = true
		seen[use{p.Sketch, Sketch}] = true
	}
	if d.Song != nil {
		seen[use{d.Song.File, Song}] = true
	}
	for _, k := range []Kind{Picture, Sketch, Song} {
		delete(seen, use{"", k})
	}
	return len(seen)
}

// reader makes ids of the files that a document names.
type reader struct {
	root  *os.Root
	dir   string
	step  steps
	names map[string]string
	files map[use]board.MediaID // read already
	known map[board.MediaID]bool
	media []Medium
}

func (r *reader) id(file string, kind Kind) (board.MediaID, error) {
	if id, ok := r.files[use{file, kind}]; ok {
		return id, nil
	}
	m, err := r.medium(file, kind)
	if err = r.step.done(err); err != nil {
		return "", fmt.Errorf("%q: %w", file, err)
	}
	r.files[use{file, kind}] = m.ID
	if !r.known[m.ID] {
		r.known[m.ID] = true
		r.media = append(r.media, m)
	}
	return m.ID, nil
}

func (r *reader) medium(file string, kind Kind) (Medium, error) {
	m := Medium{Name: path.Base(file), Kind: kind, folder: r.dir, file: file}
	if name, ok := r.names[file]; ok {
		m.Name = name
	}
	if len(m.Name) > board.MaxText {
		return m, errors.New("the name it was brought in by is too long")
	}
	data, err := readFile(r.root, file, maxMedium)
	if err != nil {
		return m, err
	}
	switch kind {
	case Picture:
		_, _, err = picture.Probe(data)
	case Sketch:
		_, err = board.DecodeSketch(data)
	}
	m.ID = idOf(data)
	return m, err
}

// Data returns the bytes of a medium, which must not have changed
// since the folder was read.
func (m Medium) Data() ([]byte, error) {
	data, err := m.data()
	if err != nil {
		return nil, fmt.Errorf("read folder %q: %q: %w", filepath.Base(m.folder), m.file, err)
	}
	return data, nil
}

func (m Medium) data() ([]byte, error) {
	root, err := os.OpenRoot(m.folder)
	if err != nil {
		return nil, plain(err)
	}
	defer root.Close()
	data, err := readFile(root, m.file, maxMedium)
	if err == nil && idOf(data) != m.ID {
		err = errors.New("it has changed since the folder was read")
	}
	return data, err
}

func idOf(data []byte) board.MediaID {
	sum := sha256.Sum256(data)
	return board.MediaID(hex.EncodeToString(sum[:]))
}

// readFile reads a file of at most limit bytes by its path in the folder,
// with slashes. No path and no link leads out of the folder.
func readFile(root *os.Root, file string, limit int64) ([]byte, error) {
	if !fs.ValidPath(file) || strings.Contains(file, `\`) || file == "." {
		return nil, errors.New("it is no path inside the folder: write names with / between them")
	}
	name, info, err := find(root, file)
	switch {
	case err != nil:
		return nil, plain(err)
	case !info.Mode().IsRegular():
		return nil, errors.New("it is not an ordinary file")
	case info.Size() > limit:
		return nil, fmt.Errorf("it has %d MB: the most is %d MB", info.Size()>>20, limit>>20)
	case info.Size() == 0:
		return nil, errors.New("it is empty")
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	data := make([]byte, info.Size())
	if _, err := io.ReadFull(f, data); err != nil {
		return nil, plain(err)
	}
	return data, nil
}

// find returns the name in the system under which a file is there. Archives
// and disks made on a Mac may spell é as e and an accent, which other systems
// take for another name (Unicode Standard Annex 15).
func find(root *os.Root, file string) (name string, info fs.FileInfo, err error) {
	for _, spelt := range []string{file, norm.NFC.String(file), norm.NFD.String(file)} {
		name = filepath.FromSlash(spelt)
		if info, err = root.Stat(name); !errors.Is(err, fs.ErrNotExist) {
			return name, info, err
		}
	}
	return name, info, err
}
