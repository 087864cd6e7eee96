package file

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"path/filepath"
	"sync"
	"testing"

	"stillbeat/board"
)

func TestMediaComeBackAndAreStoredOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	f := mustCreate(t, path, board.New())
	cup, tune := noise(100000, 1), noise(300000, 2)
	ids, err := f.AddMedia(Picture, Media{Name: "cup 'n' 茶\x00.png", Data: cup}, Media{Name: "same.png", Data: bytes.Clone(cup)}, Media{Name: "\xff.png", Data: []byte{0}})
	if err != nil {
		t.Fatal(err)
	}
	songs, err := f.AddMedia(Song, Media{Name: "tune.mp3", Data: tune}, Media{Name: "again.png", Data: cup})
	if err != nil {
		t.Fatal(err)
	}
	ids = append(ids, songs...)
	hash := sha256.Sum256(cup)
	if want := board.MediaID(hex.EncodeToString(hash[:])); ids[0] != want || ids[1] != want || ids[4] != want {
		t.Errorf("ids %q, want the SHA-256 %q three times", ids, want)
	}
	mustClose(t, f)
	f, _ = mustOpen(t, path)
	for i, want := range []struct {
		name string
		data []byte
	}{{"cup 'n' 茶\x00.png", cup}, {"cup 'n' 茶\x00.png", cup}, {"\ufffd.png", []byte{0}}, {"tune.mp3", tune}} {
		data, err := f.Media(ids[i])
		if err != nil || !bytes.Equal(data, want.data) {
			t.Errorf("Media(%.8s) = %d bytes, %v, want %d bytes", ids[i], len(data), err, len(want.data))
		}
		if name, err := f.MediaName(ids[i]); err != nil || name != want.name {
			t.Errorf("MediaName(%.8s) = %q, %v, want %q", ids[i], name, err, want.name)
		}
	}
	if n := countRows(t, f, "content"); n != 3 {
		t.Errorf("%d contents are stored, want 3", n)
	}
}

func countRows(t *testing.T, f *File, table string) int {
	t.Helper()
	var n int
	if err := f.db.QueryRow(`SELECT count(*) FROM ` + table).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

func TestAddMediaIsAllOrNothing(t *testing.T) {
	good := Media{Name: "cup.png", Data: noise(1000, 1)}
	for _, c := range []struct {
		name string
		kind string
		bad  Media
		want string
	}{
		{"an empty picture", Picture, Media{Name: "void.png", Data: nil}, `add to film "film.stillbeat": the picture "void.png" is empty`},
		{"a song beyond the limit", Song, Media{Name: "long.wav", Data: make([]byte, MaxMedia+1)},
			`add to film "film.stillbeat": the song "long.wav" has 512 MB: a film takes at most 512 MB in one file`},
		{"an unknown kind", "smell", good, `add to film "film.stillbeat": "smell" is no kind of media`},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
			_, err := f.AddMedia(c.kind, good, c.bad)
			checkError(t, err, nil, c.want)
			if n := countRows(t, f, "media"); n != 0 {
				t.Errorf("%d media are stored, want none", n)
			}
		})
	}
}

func TestMediaThatIsNotThere(t *testing.T) {
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
	const want = `read from film "film.stillbeat": it does not hold the picture or song "000000000000"`
	_, err := f.Media(fakeID(0))
	checkError(t, err, fs.ErrNotExist, want)
	_, err = f.MediaName(fakeID(0))
	checkError(t, err, fs.ErrNotExist, want)
}

func TestMediaDamagedOnDisk(t *testing.T) {
	film, ids := goodFilm(t)
	picture := noise(9000, 1)
	at := bytes.Index(film, picture[:100])
	if at < 0 {
		t.Fatal("the picture is not in the file")
	}
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, changed(film, at+7, ^picture[7]))
	f, _ := mustOpen(t, path)
	if data, err := f.Media(ids[0]); data != nil || !errors.Is(err, ErrDamaged) {
		t.Errorf("got %d bytes, %v, want %v", len(data), err, ErrDamaged)
	}
	if _, err := f.Media(ids[1]); err != nil {
		t.Errorf("the song, which is not damaged: %v", err)
	}
}

func TestManyGoroutines(t *testing.T) {
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
	data := noise(50000, 1)
	ids, err := f.AddMedia(Picture, Media{Name: "cup.png", Data: data})
	if err != nil {
		t.Fatal(err)
	}
	var group sync.WaitGroup
	for i := range 8 {
		group.Go(func() {
			for range 4 {
				if got, err := f.Media(ids[0]); err != nil || !bytes.Equal(got, data) {
					t.Errorf("reading: %d bytes, %v", len(got), err)
				}
				if err := f.SaveBoard(longBoard(i+1, 5+i, 5)); err != nil {
					t.Errorf("saving: %v", err)
				}
				if _, err := f.AddMedia(Picture, Media{Name: "x", Data: noise(100, uint64(i))}); err != nil {
					t.Errorf("adding: %v", err)
				}
			}
		})
	}
	group.Wait()
}
