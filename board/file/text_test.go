package file

import (
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestTextsComeBackAsTheyWere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	b := longBoard(1, 3, 4)
	f := mustCreate(t, path, b)
	for _, text := range []string{
		"", " ", "'", `"`, `\`, "'); DROP TABLE board; --", "a\x00b", "\x00", "\x01\x1b[31m\x7f", "👩‍🎨 🫖", "茶 чай شاي",
		"e\u0301", "\u2028\u2029", "<b>&amp;</b>", "{\"panels\":[]}", "\ufffd", "\U0010ffff", "\r\n\t", strings.Repeat("w", board.MaxText),
	} {
		b.Title = text
		b.Song = &board.Song{Name: text, Media: fakeID(1), Seconds: 10}
		b.Panels = append([]board.Panel(nil), b.Panels...)
		b.Panels[0].Words = board.Words{Title: text, Action: text, Sound: text, Note: text}
		if err := f.SaveBoard(b); err != nil {
			t.Errorf("%.40q: %v", text, err)
			continue
		}
		mustClose(t, f)
		var got board.Board
		f, got = mustOpen(t, path)
		checkBoard(t, got, b)
	}
}

func TestBoardBeyondTheLimit(t *testing.T) {
	data, err := encode(strings.Repeat("w", 3<<20), 2<<20)
	if data != nil || err == nil || err.Error() != "the board takes 3 MB: a film holds at most 2 MB of words and panels" {
		t.Errorf("got %d bytes, %v", len(data), err)
	}
}

func TestSaveRefusesWhatWouldNotComeBack(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*board.Board)
		want   string
	}{
		{"a title that is not UTF-8", func(b *board.Board) { b.Title = "\xff" }, "the film's title is too long or not readable"},
		{"a title beyond the limit", func(b *board.Board) { b.Title = strings.Repeat("w", board.MaxText+1) },
			"the film's title is too long or not readable"},
		{"a song's name that is not UTF-8", func(b *board.Board) { b.Song = &board.Song{Name: "\xc3"} },
			`the song "\xc3" has an impossible name, length or place`},
		{"words that are not UTF-8", func(b *board.Board) { b.Panels[0].Note = "\xff" }, "panel 1 has a text that is too long or not readable"},
		{"a picture that is no id", func(b *board.Board) { b.Panels[0].Picture = "cup.png" },
			`panel 1: "cup.png" is not the id of a stored picture or song`},
		{"an id in capitals", func(b *board.Board) { b.Panels[0].Picture = board.MediaID(strings.Repeat("AB", 32)) },
			`panel 1: "` + strings.Repeat("AB", 32) + `" is not the id of a stored picture or song`},
		{"a song that is no id", func(b *board.Board) { b.Song = &board.Song{Media: "x"} },
			`the song: "x" is not the id of a stored picture or song`},
		{"too many onsets", func(b *board.Board) { b.Grid.Onsets = make([]board.Onset, maxTimes+1) },
			"the song has 3 beats and 500001 onsets: a film holds at most 500000 of each"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			before := longBoard(1, 3, 4)
			f := mustCreate(t, path, before)
			b := longBoard(1, 3, 4)
			c.change(&b)
			checkError(t, f.SaveBoard(b), nil, `save film "film.stillbeat": `+c.want)
			mustClose(t, f)
			_, got := mustOpen(t, path)
			checkBoard(t, got, before)
		})
	}
}
