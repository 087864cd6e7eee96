package file

import (
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"stillbeat/board"
)

func init() { tasks["fill"] = fillUp }

// fillUp edits a film until it may not grow, goes on in memory, and prints
// what it is told and the number of the last edit that was saved; then there is
// room again and the rest is saved. It stands for a full disk and for a quota.
func fillUp(path string) error {
	signal.Ignore(syscall.SIGXFSZ)
	f, b, err := Open(path)
	if err != nil {
		return err
	}
	size, err := f.size()
	if err != nil {
		return err
	}
	var was syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		return err
	}
	limit := syscall.Rlimit{Cur: uint64(size) + 200_000, Max: was.Max}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	h := board.RestoreHistory(board.NewPast(b), f)
	saved, told := 0, "nothing"
	for n := 1; n <= 60; n++ {
		if err := h.Do(board.SetTitle(strconv.Itoa(n) + " " + hex.EncodeToString(noise(9900, uint64(n))))); err != nil {
			return err
		}
		h.Close()
		if err := f.Save(h.Past()); err != nil {
			told = err.Error()
			continue
		}
		saved = n
	}
	_, err = f.AddMedia(Picture, Media{Name: "photo.jpg", Data: noise(400_000, 1)})
	fmt.Printf("%s\n%v\n", told, err)
	if saved == 0 || saved == 60 {
		return fmt.Errorf("%d edits were saved", saved)
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		return err
	}
	return f.Save(h.Past())
}

func TestQuotaUsedUp(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustClose(t, mustCreate(t, path, longBoard(3, 5, 5)))
	said := strings.Split(ask(t, "fill", path), "\n")
	want := []string{
		`save film "film.stillbeat": the disk is full or its quota used up`,
		`add to film "film.stillbeat": the disk is full or its quota used up`,
	}
	if !slices.Equal(said, want) {
		t.Errorf("said is %q", said)
	}
	f, b := mustOpen(t, path)
	if !strings.HasPrefix(b.Title, "60 ") {
		t.Errorf("the film holds %.20q, want edit 60", b.Title)
	}
	h := board.RestoreHistory(f.Past(), f)
	if steps := len(trail(t, h)) - 1; steps < 1 {
		t.Errorf("%d steps are on disk", steps)
	}
	checkWhole(t, f)
}

func TestCompactWithoutRoom(t *testing.T) {
	f, b, path := filmWithPicture(t)
	h := board.RestoreHistory(board.NewPast(b), f)
	if err := h.Do(board.SetTitle("take 2")); err != nil {
		t.Fatal(err)
	}
	mustSave(t, f, h)
	defer func(was func(string) (int64, bool)) { freeSpace = was }(freeSpace)
	freeSpace = func(string) (int64, bool) { return 50_000, true }
	before := mustRead(t, path)
	_, err := f.Compact()
	checkError(t, err, syscall.ENOSPC, fmt.Sprintf(`compact film "film.stillbeat": that takes up to %d MB beside the film for a moment, and the disk has 0 MB free`, 2*len(before)>>20+1))
	if !f.Holds(h.Past().Steps[1].ID) {
		t.Error("the history is dropped")
	}
	mustClose(t, f)
	checkUntouched(t, path, before)
}

// TestFolderThatCannotBeWrittenTo has no room for the journal: nothing is
// saved, and the film can be copied elsewhere.
func TestFolderThatCannotBeWrittenTo(t *testing.T) {
	film, _ := goodFilm(t)
	folder := publicFolder(t)
	path := filepath.Join(folder, "film"+Ext)
	mustWrite(t, path, film)
	elsewhere := publicFolder(t)
	for name, mode := range map[string]fs.FileMode{path: 0o666, folder: 0o555, elsewhere: 0o777} {
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
	}
	to := filepath.Join(elsewhere, "copy"+Ext)
	asNobody(t, func() {
		f, b, err := Open(path)
		if err != nil {
			t.Error(err)
			return
		}
		defer f.Close()
		b.Title = "not here"
		checkError(t, f.SaveBoard(b), fs.ErrPermission, `save film "film.stillbeat": the file or its folder cannot be written to`)
		if err := f.CopyTo(to); err != nil {
			t.Error(err)
		}
	})
	checkUntouched(t, path, film)
	mustOpen(t, to)
}
