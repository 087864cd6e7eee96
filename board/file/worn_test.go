package file

import (
	"fmt"
	"path/filepath"
	"testing"

	"stillbeat/board"
)

// wornFilm returns the bytes of a film with pictures, a song and a history,
// the boards of that history by their JSON, and the ids of its media.
func wornFilm(t testing.TB, steps int) (film []byte, boards map[string]bool, ids []board.MediaID) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "worn"+Ext)
	f := mustCreate(t, path, longBoard(8, 30, 40))
	var pictures []Media
	for i := range 8 {
		pictures = append(pictures, Media{Name: fmt.Sprintf("%d.png", i), Data: noise(6000, uint64(i))})
	}
	ids, err := f.AddMedia(Picture, pictures...)
	if err != nil {
		t.Fatal(err)
	}
	songs, err := f.AddMedia(Song, Media{Name: "waltz.mp3", Data: noise(9000, 99)})
	if err != nil {
		t.Fatal(err)
	}
	ids = append(ids, songs...)
	h := board.RestoreHistory(f.Past(), f)
	boards = map[string]bool{}
	note := func() {
		boards[jsonOf(t, h.Board())] = true
		if err := f.Save(h.Past()); err != nil {
			t.Fatal(err)
		}
	}
	do := func(e board.Edit) {
		if err := h.Do(e); err != nil {
			t.Fatal(err)
		}
		note()
	}
	for i := range 8 {
		do(board.SetPicture([]int{i}, ids[i]))
	}
	do(board.SetSong(&board.Song{Name: "waltz.mp3", Media: ids[8], Seconds: 60}, h.Board().Grid))
	for i := range steps {
		do(board.SetTitle(fmt.Sprint("take ", i)))
		h.Close()
	}
	do(board.MoveBeat(3, h.Board().Grid.Beats[3].Time+0.01))
	if err := f.SetSetting("zoom", "2.5"); err != nil {
		t.Fatal(err)
	}
	mustClose(t, f)
	return mustRead(t, path), boards, ids
}

func jsonOf(t testing.TB, b board.Board) string {
	t.Helper()
	text, err := newText(b, text{})
	if err != nil {
		t.Fatal(err)
	}
	return string(text.board) + string(text.grid)
}
