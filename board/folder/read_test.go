package folder

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func TestReadCanBeStopped(t *testing.T) {
	b, s := teaFilm(t)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	_, media, err := Read(ctx, written(t, b, s), func(float64) { cancel() })
	if !errors.Is(err, context.Canceled) || media != nil {
		t.Errorf("%v, media %v", err, media)
	}
}

func TestDataThatChanged(t *testing.T) {
	b, s := teaFilm(t)
	dir := written(t, b, s)
	_, media, err := Read(context.Background(), dir, nil)
	must(t, err)
	must(t, os.WriteFile(filepath.Join(dir, "song", "waltz.wav"), []byte("another"), 0o644))
	_, err = media[0].Data()
	oneSentence(t, err, `read folder "tea": "song/waltz.wav": it has changed`)
}

// A picture replaced by another under its name is the picture of the film.
func TestAReplacedPictureIsRead(t *testing.T) {
	b, s := teaFilm(t)
	dir := written(t, b, s)
	other := greyPicture(t, 99)
	must(t, os.WriteFile(filepath.Join(dir, "pictures", "001 The kettle.png"), other, 0o644))
	got, _, err := Read(context.Background(), dir, nil)
	must(t, err)
	if got.Panels[0].Picture != idOf(other) || got.Panels[3].Picture != idOf(other) {
		t.Error("the panels do not show the new picture")
	}
}

// A picture and a sketch of one file are asked for both: it cannot be right
// for each.
func TestAFileOfTwoKinds(t *testing.T) {
	dir := smallFolder(t, `"title": "one"`, `"sketch": "pictures/a.png"`)
	_, _, err := Read(context.Background(), dir, nil)
	oneSentence(t, err, `panel 1: "pictures/a.png": not a sketch`)
}

func TestSketchesThatAreDamaged(t *testing.T) {
	dir := smallFolder(t, `"title": "one"`, `"sketch": "one.sketch"`)
	file := filepath.Join(dir, "one.sketch")
	must(t, os.WriteFile(file, scrawl(t, 1), 0o644))
	b, media, err := Read(context.Background(), dir, nil)
	must(t, err)
	if b.Panels[0].Drawing().Sketch != idOf(scrawl(t, 1)) || len(media) != 4 || media[2].Kind != Sketch || media[2].Name != "one.sketch" {
		t.Errorf("the first panel is %+v, the media %+v", b.Panels[0], media)
	}
	must(t, os.WriteFile(file, scrawl(t, 1)[:20], 0o644))
	_, _, err = Read(context.Background(), dir, nil)
	oneSentence(t, err, `read folder "tea": film.json: panel 1: "one.sketch": not a sketch: it is damaged`)
}

// Links may lead round inside the folder, but not out of it.
func TestLinks(t *testing.T) {
	b, s := teaFilm(t)
	out := filepath.Join(t.TempDir(), "out.png")
	must(t, os.WriteFile(out, greyPicture(t, 3), 0o644))
	for _, c := range []struct {
		name, link, to string
		want           string
	}{
		{"inside", "pictures/001 The kettle.png", "002 IMG_0412.png", ""},
		{"out of it", "pictures/001 The kettle.png", out, "it lies outside the folder"},
		{"out of it and up", "pictures/001 The kettle.png", "../../out.png", "it lies outside the folder"},
		{"to nothing", "pictures/001 The kettle.png", "gone.png", "there is no such file"},
		{"a folder out of it", "pictures", filepath.Dir(out), "it lies outside the folder"},
		{"film.json out of it", "film.json", out, "it lies outside the folder"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := written(t, b, s)
			link := filepath.Join(dir, filepath.FromSlash(c.link))
			must(t, os.RemoveAll(link))
			must(t, os.Symlink(c.to, link))
			_, _, err := Read(context.Background(), dir, nil)
			if c.want == "" {
				must(t, err)
				return
			}
			oneSentence(t, err, `read folder "tea": film.json: `, c.want)
		})
	}
}

// Other systems may have spelt the names of files otherwise.
func TestNamesSpeltOtherwise(t *testing.T) {
	b, s := teaFilm(t)
	b.Panels[0].Title = "Thé"
	dir := written(t, b, s)
	composed, apart := filepath.Join(dir, "pictures", "001 Th\u00e9.png"), filepath.Join(dir, "pictures", "001 The\u0301.png")
	must(t, os.Rename(composed, apart))
	_, media, err := Read(context.Background(), dir, nil)
	must(t, err)
	for _, m := range media {
		_, err := m.Data()
		must(t, err)
	}
}
