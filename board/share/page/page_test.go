package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share"
)

func pageText(t *testing.T, b board.Board, sound board.Sound, opts Options) string {
	t.Helper()
	path, _ := written(t, b, sound, opts)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// Each look is in the page once, however often it comes up; of a dissolve each
// frame is.
func TestPicturesAreThereOnce(t *testing.T) {
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	path, made := written(t, b, clicks{}, Options{})
	// Seven panels of six colours, and the ten frames of the dissolve.
	if made.Pictures != 16 || made.Width != 960 || made.Height != 540 || made.PictureBytes == 0 || made.SoundBytes == 0 {
		t.Errorf("it holds %+v", made)
	}
	data, err := os.ReadFile(path)
	if n := bytes.Count(data, []byte(`<script type="text/plain" id="p`)); err != nil || n != 16 {
		t.Errorf("there are %d pictures in the page, %v", n, err)
	}
	_, low := written(t, b, nil, Options{Silent: true, Height: 180, Quality: 30})
	if low.Width != 320 || low.SoundBytes != 0 || low.PictureBytes >= made.PictureBytes {
		t.Errorf("low and silent it holds %+v", low)
	}
}

// No text ends an element or begins one: the page has the elements of its shell
// and those of the film's data, whatever the film says.
func TestTextsStayTexts(t *testing.T) {
	plain := danceFilm(board.FrameRate{Num: 24, Den: 1})
	plain.Title = "Tea"
	for i := range plain.Panels {
		plain.Panels[i].Words = board.Words{}
	}
	tags := regexp.MustCompile(`<[/!]?[a-zA-Z-]+`)
	want := tags.FindAllString(pageText(t, plain, nil, Options{Silent: true}), -1)
	for _, text := range hostile {
		b := danceFilm(board.FrameRate{Num: 24, Den: 1})
		b.Title = text
		b = edited(t, b, board.TakeRemarks([]board.Remark{{ID: "a", Author: text, Panel: 1, Text: text}}), board.AnswerRemark("a", text))
		got := tags.FindAllString(pageText(t, b, nil, Options{Silent: true, Caution: text, Name: text}), -1)
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("with %q the page has other elements", text)
		}
	}
}

// The page asks for nothing and its policy allows nothing else than what it
// has: no address is in it.
func TestNothingIsFetched(t *testing.T) {
	text := pageText(t, danceFilm(board.FrameRate{Num: 24, Den: 1}), nil, Options{Silent: true})
	if found := regexp.MustCompile(`(?i)(https?:|//[a-z]|@import|url\()[^"]{0,40}`).FindString(style + shell); found != "" {
		t.Errorf("it names %q", found)
	}
	for _, want := range []string{"default-src &#39;none&#39;", "script-src &#39;sha256-", "form-action &#39;none&#39;"} {
		if !strings.Contains(text, want) {
			t.Errorf("the policy has no %s", want)
		}
	}
	if strings.Contains(text[:strings.Index(text, "<title>")], "unsafe") {
		t.Error("the policy allows what is unsafe")
	}
}

func TestNamesOfFilesOfNotes(t *testing.T) {
	for in, want := range map[string]string{
		"dance": "dance", "": "film", "../../x": "x", `a/b\c:d*?"<>|`: "abcd", "お茶": "お茶", "...": "film", "a\u202eb\x00": "ab",
		strings.Repeat("é", 200): strings.Repeat("é", 80),
	} {
		if got := saveName(in, ""); got != want+".notes.json" {
			t.Errorf("%q becomes %q", in, got)
		}
	}
}

func TestWhatCannotBeWritten(t *testing.T) {
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	long := b
	long.End = board.Free(10000)
	moving := board.New()
	moving.NextID, moving.End = 2, board.Free(200)
	moving.Panels = []board.Panel{{ID: 1, Picture: "c010203", Drawn: &board.Drawn{Travel: board.CameraMove{To: board.Framing{Width: 0.5}}}}}
	gone := b
	gone.Panels = append([]board.Panel{}, b.Panels...)
	gone.Panels[2].Picture = "lost"
	stopped, stop := context.WithCancel(context.Background())
	stop()
	for _, c := range []struct {
		name  string
		ctx   context.Context
		b     board.Board
		sound board.Sound
		opts  Options
		is    error
		says  string
	}{
		{"no panels", nil, board.New(), nil, Options{}, share.ErrEmpty, "no panels"},
		{"no sound", nil, b, nil, Options{}, share.ErrNoSong, "not loaded"},
		{"sound too long", nil, long, clicks{}, Options{}, nil, "more than 150 MB"},
		{"too many pictures", nil, moving, nil, Options{}, nil, "would have 4800 pictures, the most are 3000"},
		{"too high", nil, b, nil, Options{Height: 5000}, nil, "the most are 2160"},
		{"no quality", nil, b, nil, Options{Quality: 101}, nil, "the quality 101"},
		{"a picture that is lost", nil, gone, nil, Options{Silent: true}, nil, "panel 3"},
		{"stopped", stopped, b, nil, Options{Silent: true}, context.Canceled, ""},
	} {
		ctx := c.ctx
		if ctx == nil {
			ctx = context.Background()
		}
		_, err := Write(ctx, io.Discard, c.b, picture.NewCache(flats{}, 0), c.sound, c.opts)
		if err == nil || c.is != nil && !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
	}
	broken := errors.New("the disk is full")
	if _, err := Write(context.Background(), failing{broken}, b, picture.NewCache(flats{}, 0), nil, Options{Silent: true}); !errors.Is(err, broken) {
		t.Errorf("a full disk: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

func ExampleWrite() {
	film := board.New()
	film.Title, film.NextID, film.End = "Tea", 2, board.Free(2)
	film.Panels = []board.Panel{{ID: 1, Picture: "cc8a050", Words: board.Words{Title: "The cup"}}}
	var page bytes.Buffer
	made, err := Write(context.Background(), &page, film, picture.NewCache(flats{}, 0), nil, Options{Height: 360})
	fmt.Println(made.Pictures, made.Width, made.Height, err)
	// Output: 1 640 360 <nil>
}

func BenchmarkWrite(b *testing.B) {
	film := danceFilm(board.FrameRate{Num: 24, Den: 1})
	cache := picture.NewCache(flats{}, 0)
	for b.Loop() {
		if _, err := Write(context.Background(), io.Discard, film, cache, nil, Options{Silent: true}); err != nil {
			b.Fatal(err)
		}
	}
}
