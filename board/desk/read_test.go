package desk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board/picture"
)

// sparse makes a file of a size without its bytes.
func sparse(t *testing.T, name string, size int64) string {
	t.Helper()
	path := writeFile(t, name, nil)
	must(t, os.Truncate(path, size))
	return path
}

func TestSongsThatCannotBeRead(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "songs")
	must(t, os.Mkdir(folder, 0o755))
	unreadable := errors.New(`read song "waltz.mp3": not a sound file`)
	for _, c := range []struct {
		name string
		path string
		ear  fakeEar
		want string
	}{
		{"missing", filepath.Join(folder, "waltz.mp3"), fakeEar{}, `open song "waltz.mp3": there is no such file`},
		{"in a folder that is a file", filepath.Join(writeFile(t, "a", []byte("b")), "waltz.mp3"), fakeEar{}, `open song "waltz.mp3": not a directory`},
		{"a folder", folder, fakeEar{}, `open song "songs": it is a folder, not a file`},
		{"a device", "/dev/null", fakeEar{}, `open song "null": it is not an ordinary file`},
		{"empty", writeFile(t, "waltz.mp3", nil), fakeEar{}, `open song "waltz.mp3": the file is empty`},
		{"too large by a byte", sparse(t, "waltz.wav", maxSong+1), fakeEar{}, `open song "waltz.wav": the file is 512.1 MB: the most is 512 MB`},
		{"not a song", writeFile(t, "waltz.mp3", []byte("x")), fakeEar{fails: unreadable}, `read song "waltz.mp3": not a sound file`},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := NewSong(context.Background(), c.path, c.ear, Wish{}, nil)
			checkError(t, err, c.want)
			heard, err := Listen(context.Background(), c.path, c.ear, nil)
			checkError(t, err, c.want)
			if s != nil || heard != nil {
				t.Error("there is a song beside the error")
			}
		})
	}
}

func TestNewSong(t *testing.T) {
	var told []float64
	s, err := NewSong(context.Background(), writeFile(t, "waltz.mp3", []byte("la la")), fakeEar{}, Wish{Samples: true}, func(done float64) { told = append(told, done) })
	must(t, err)
	if s.Name != "waltz.mp3" || string(s.Data) != "la la" || s.Seconds != 8 || len(s.Grid.Beats) != 16 || s.Sound == nil {
		t.Errorf("%q with %q, %v s, %d beats and sound %v", s.Name, s.Data, s.Seconds, len(s.Grid.Beats), s.Sound)
	}
	if got := fmt.Sprint(told); got != "[0.02 1]" {
		t.Errorf("progress was %s", got)
	}
}

func TestListenKeepsNothing(t *testing.T) {
	s, err := Listen(context.Background(), writeFile(t, "waltz.mp3", []byte("la la")), fakeEar{}, nil)
	must(t, err)
	if s.Name != "waltz.mp3" || s.Title != "la la" || s.Data != nil || s.Sound != nil || len(s.Grid.Beats) != 16 {
		t.Errorf("%q called %q with %d bytes, %d beats and sound %v", s.Name, s.Title, len(s.Data), len(s.Grid.Beats), s.Sound)
	}
}

func TestNewSongCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() {
		_, err := NewSong(ctx, writeFile(t, "waltz.mp3", []byte("x")), fakeEar{waits: true}, Wish{}, nil)
		done <- err
	}()
	cancel()
	if err := <-done; !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func TestNewPicturesKeepsTheGood(t *testing.T) {
	folder := t.TempDir()
	cup, spoon := writeFile(t, "cup.png", pictureOf(t, 10)), writeFile(t, "spoon_02.png", pictureOf(t, 20))
	paths := []string{
		cup, filepath.Join(folder, "gone.png"), folder, writeFile(t, "notes.jpg", []byte("props")),
		writeFile(t, "cut.png", pictureOf(t, 1)[:20]), writeFile(t, "scratched.png", scratched(t)), sparse(t, "huge.png", maxPicture+1), spoon,
	}
	var last float64
	good, bad, err := NewPictures(context.Background(), paths, func(done float64) { last = done })
	must(t, err)
	if len(good) != 2 || good[0].Name != "cup.png" || good[1].Name != "spoon_02.png" || last != 1 {
		t.Errorf("%d came in: %v", len(good), good)
	}
	want := []string{
		`open picture "gone.png": there is no such file`,
		fmt.Sprintf(`open picture %q: it is a folder, not a file`, filepath.Base(folder)),
		`open picture "notes.jpg": not a PNG, JPEG, GIF, WebP, BMP or TIFF picture`,
		`open picture "cut.png": the picture is damaged (it is cut short)`,
		`open picture "scratched.png": the picture is damaged (flate: corrupt input before offset 1)`,
		`open picture "huge.png": the file is 256.1 MB: the most is 256 MB`,
	}
	if len(bad) != len(want) {
		t.Fatalf("%d sentences, want %d: %v", len(bad), len(want), bad)
	}
	for i, w := range want {
		checkError(t, bad[i], w)
	}
	if !errors.Is(bad[2], picture.ErrFormat) {
		t.Errorf("%v is not %v", bad[2], picture.ErrFormat)
	}

	d := newDeskForTest(t) // the good ones are laid all the same
	must(t, d.AddPictures(0, good, 1))
	checkPicture(t, d, 0, 10)
	checkPicture(t, d, 1, 20)
	if got := d.Board().Panels[1].Title; got != "spoon 02" {
		t.Errorf("the panel is called %q", got)
	}
}

// scratched returns a picture whose header is whole and whose pixels are not.
func scratched(t *testing.T) []byte {
	t.Helper()
	data := slices.Clone(pictureOf(t, 30))
	at := bytes.Index(data, []byte("IDAT"))
	for i := at + 6; i < at+10; i++ {
		data[i] ^= 0x55
	}
	if _, _, err := picture.Probe(data); err != nil {
		t.Fatalf("its header is hurt: %v", err)
	}
	return data
}

// TestNewPicturesKeepsTheOrder: several are read at once.
func TestNewPicturesKeepsTheOrder(t *testing.T) {
	var paths []string
	for i := range 40 {
		paths = append(paths, writeFile(t, fmt.Sprintf("lamp %d.png", i), pictureOf(t, uint8(i))))
	}
	last := 0.
	good, bad, err := NewPictures(context.Background(), paths, func(done float64) {
		if done <= last {
			t.Errorf("progress goes from %v to %v", last, done)
		}
		last = done
	})
	if len(good) != 40 || bad != nil || err != nil || last != 1 {
		t.Fatalf("%d came in, %v, %v, progress %v", len(good), bad, err, last)
	}
	for i, pic := range good {
		if pic.Name != filepath.Base(paths[i]) {
			t.Errorf("at place %d there is %s", i, pic.Name)
		}
	}
}

func TestNewPicturesCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cup := writeFile(t, "cup.png", pictureOf(t, 10))
	good, bad, err := NewPictures(ctx, []string{cup, cup, cup}, func(float64) { cancel() })
	if !errors.Is(err, context.Canceled) || good != nil || bad != nil {
		t.Errorf("got %v, %v, %v", good, bad, err)
	}
}

// TestNamesThatAreNotText brings in files whose names are not UTF-8, as old
// disks hold them; a board takes no such text.
func TestNamesThatAreNotText(t *testing.T) {
	path := filepath.Join(t.TempDir(), "caf\xe9.png")
	if err := os.WriteFile(path, pictureOf(t, 10), 0o644); err != nil {
		t.Logf("this disk takes no such name: %v", err)
		return
	}
	d := newDeskForTest(t)
	good, bad, err := NewPictures(context.Background(), []string{path}, nil)
	if len(good) != 1 || bad != nil || err != nil {
		t.Fatalf("got %v, %v, %v", good, bad, err)
	}
	must(t, d.AddPictures(0, good, 1))
	song, err := NewSong(context.Background(), path, fakeEar{}, Wish{}, nil)
	must(t, err)
	must(t, d.LaySong(song))
	if got := d.Board(); got.Panels[0].Title != "caf\uFFFD" || got.Song.Name != "caf\uFFFD.png" {
		t.Errorf("panel %q, song %q", got.Panels[0].Title, got.Song.Name)
	}
}

func TestProgressParts(t *testing.T) {
	var none Progress
	none.report(1)
	none.Part(0, 0.5).report(1)
	var got []string
	p := Progress(func(done float64) { got = append(got, fmt.Sprintf("%.2f", done)) })
	half := p.Part(0.5, 1)
	half.report(0)
	half.Part(0, 0.5).report(1)
	half.report(1)
	if s := strings.Join(got, " "); s != "0.50 0.75 1.00" {
		t.Errorf("got %s", s)
	}
}
