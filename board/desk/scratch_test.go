package desk

import (
	"testing"

	"stillbeat/board"
)

func TestFilmLeftWithoutANameComesBack(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	resumed := func() *Desk {
		t.Helper()
		d, err := Resume()
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	if d := resumed(); d != nil {
		t.Fatalf("nothing was left, but %q comes back", d.Name())
	}

	empty, err := New()
	if err != nil {
		t.Fatal(err)
	}
	if err := empty.Close(); err != nil {
		t.Fatal(err)
	}
	if d := resumed(); d != nil {
		t.Error("an empty film is kept")
	}

	d, err := New()
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Do(board.SetTitle("Kettle")); err != nil {
		t.Fatal(err)
	}
	if other := resumed(); other != nil {
		t.Error("a film that is open in a window is taken for one left behind")
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	back := resumed()
	if back == nil || back.Board().Title != "Kettle" || back.Path() != "" || !back.Untitled() {
		t.Fatalf("the film left behind came back as %+v", back)
	}

	back.Abandon()
	if err := back.Do(board.SetTitle("Kettle on")); err != nil {
		t.Fatal(err)
	}
	if err := back.Close(); err != nil {
		t.Fatal(err)
	}
	again := resumed()
	if again == nil || again.Board().Title != "Kettle on" {
		t.Fatal("a film thrown away and then edited is gone")
	}
	again.Abandon()
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
	if d := resumed(); d != nil {
		t.Error("a film thrown away comes back")
	}
}
