package desk

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"stillbeat/board"
)

func manyPictures(t testing.TB, n, size int) []ReadPicture {
	t.Helper()
	pics := make([]ReadPicture, n)
	for i := range pics {
		data := make([]byte, size)
		copy(data, fmt.Sprint("picture ", i))
		pics[i] = ReadPicture{Name: fmt.Sprintf("%03d.png", i), Data: data}
	}
	return pics
}

// Stopped half-way, nothing of what was to be added is in the film.
func TestPicturesStoppedHalfWayAreNotThere(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	d, err := New()
	must(t, err)
	defer d.Close()
	pics := manyPictures(t, 20, 1<<10)
	ctx, stop := context.WithCancel(context.Background())
	told := 0.0
	err = d.KeepPictures(ctx, pics, func(done float64) {
		if told = done; done >= 0.5 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || told != 0.5 {
		t.Fatalf("stopped at %g: %v", told, err)
	}
	for _, p := range pics {
		if p.in != "" || p.Data == nil {
			t.Fatalf("%s counts as stored", p.Name)
		}
	}
	must(t, d.KeepPictures(context.Background(), pics[:10], nil))
	must(t, d.AddPictures(0, pics, 1)) // ten stored ahead, ten not
	if n := len(d.Board().Panels); n != 20 {
		t.Fatalf("%d panels", n)
	}
	for _, p := range d.Board().Panels {
		if _, err := d.Media(p.Picture); err != nil {
			t.Error(err)
		}
	}
	lost := []ReadPicture{{Name: "lost.png", in: board.MediaID("00")}}
	if err := d.AddPictures(0, lost, 1); err == nil {
		t.Error("a picture of another film was laid")
	}
}

func BenchmarkKeepPictures(b *testing.B) {
	b.Setenv("XDG_CACHE_HOME", b.TempDir())
	pics := manyPictures(b, 200, 1<<20)
	b.SetBytes(200 << 20)
	for b.Loop() {
		d, err := New()
		if err != nil {
			b.Fatal(err)
		}
		if err := d.KeepPictures(context.Background(), append([]ReadPicture(nil), pics...), nil); err != nil {
			b.Fatal(err)
		}
		d.Abandon()
		d.Close()
	}
}
