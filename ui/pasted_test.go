package ui

import (
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestPathsInAText(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	abs := func(p string) string { return filepath.FromSlash(p) }
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"a path", "/pictures/cup.png", []string{abs("/pictures/cup.png")}},
		{"with blanks in it and about it", "  /pictures/tea pot.png\n", []string{abs("/pictures/tea pot.png")}},
		{"several, a line each", "/a/1.png\r\n/a/2.png\r\n", []string{abs("/a/1.png"), abs("/a/2.png")}},
		{"in quotes", `"/a/tea pot.png"`, []string{abs("/a/tea pot.png")}},
		{"several in quotes on a line", `'/a/tea pot.png' '/a/cup.png'`, []string{abs("/a/tea pot.png"), abs("/a/cup.png")}},
		{"an address with escapes", "file:///a/tea%20pot%C3%A4.png", []string{abs("/a/tea potä.png")}},
		{"an address of this machine", "file://localhost/a/cup.png", []string{abs("/a/cup.png")}},
		{"an address in quotes", `"file:///a/tea%20pot.png"`, []string{abs("/a/tea pot.png")}},
		{"a list of addresses with a remark", "# copied\r\nfile:///a/1.png\r\nfile:///a/2.png\r\n", []string{abs("/a/1.png"), abs("/a/2.png")}},
		{"a file manager's list", "x-special/nautilus-clipboard\ncopy\nfile:///a/1.png", []string{abs("/a/1.png")}},
		{"from home", "~/cup.png", []string{filepath.Join(home, "cup.png")}},
		{"blanks as on a command line", `/a/tea\ pot.png`, []string{abs("/a/tea pot.png")}},
		{"nothing", "", nil},
		{"words", "a cup and a spoon", nil},
		{"a path among words", "/a/1.png\nis the first", nil},
		{"a path from here", "pictures/cup.png", nil},
		{"an address elsewhere", "file://elsewhere.example/a/cup.png", nil},
		{"a page", "https://example.com/cup.png", nil},
		{"a bad escape", "file:///a/%zz.png", nil},
		{"a quote that does not end", `"/a/cup.png`, nil},
		{"too long", strings.Repeat("/", maxPasted+1), nil},
	} {
		if got := pathsIn(c.text); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func FuzzPathsIn(f *testing.F) {
	f.Add("file:///a/%20b.png\n'/x y' \"/z\"")
	f.Fuzz(func(t *testing.T, text string) {
		for _, p := range pathsIn(text) {
			if !filepath.IsAbs(p) {
				t.Errorf("%q in %q leads nowhere", p, text)
			}
		}
	})
}

func TestPicturesArePastedByPath(t *testing.T) {
	w := openWindow(t)
	dir := t.TempDir()
	for k, path := range writePictures(t, 3) {
		name := []string{"cup 10.png", "cup 2.png", "Cup 1.png"}[k]
		if err := os.Rename(path, filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	at := func(name string) string {
		return (&url.URL{Scheme: "file", Path: filepath.ToSlash(filepath.Join(dir, name))}).String()
	}
	w.app.Clipboard().SetContent(at("cup 10.png") + "\r\n" + at("Cup 1.png") + "\r\n" + at("cup 2.png"))
	run(t, w, "Paste panels")
	settle(t, w)
	if got := titles(w); got != "Cup 1 cup 2 cup 10" {
		t.Errorf("pasted, the panels are %q", got)
	}
	w.app.Clipboard().SetContent(filepath.Join(dir, "saucer.png"))
	run(t, w, "Paste panels")
	settle(t, w)
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing says that there is no saucer.png")
	}
}

func TestFoldersAreBroughtInInTheirPlace(t *testing.T) {
	w := openWindow(t)
	dir := t.TempDir()
	within, empty := filepath.Join(dir, "b shots"), filepath.Join(dir, "c empty")
	for _, d := range []string{within, empty, filepath.Join(within, "deeper")} {
		if err := os.Mkdir(d, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	paths := writePictures(t, 5)
	for k, name := range []string{"a.png", "b shots/s10.png", "b shots/s9.png", "b shots/.hidden.png", "d.png"} {
		if err := os.Rename(paths[k], filepath.Join(dir, filepath.FromSlash(name))); err != nil {
			t.Fatal(err)
		}
	}
	for name, data := range map[string]string{"b shots/notes.txt": "words", "b shots/s11.png": "no picture", "e.txt": "words"} {
		mustWrite(t, filepath.Join(dir, filepath.FromSlash(name)), []byte(data))
	}
	var uris []fyne.URI
	for _, name := range []string{"d.png", "e.txt", "c empty", "b shots", "a.png"} {
		uris = append(uris, storage.NewFileURI(filepath.Join(dir, name)))
	}
	w.dropped(uris)
	settle(t, w)
	if got := titles(w); got != "a s9 s10 d" {
		t.Errorf("the panels are %q", got)
	}
	said := overlayText(w)
	for _, name := range []string{"c empty", "s11.png", "e.txt"} {
		if !strings.Contains(said, name) {
			t.Errorf("%s is not in the list of what could not be read: %q", name, said)
		}
	}
	if strings.Contains(said, "notes.txt") {
		t.Error("a text in a folder of pictures is complained of")
	}
}

// overlayText is all that is written on the dialog that is up.
func overlayText(w *window) string {
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	var out []string
	for _, o := range test.LaidOutObjects(top) {
		if l, ok := o.(*widget.Label); ok {
			out = append(out, l.Text)
		}
	}
	return strings.Join(out, "\n")
}
