package ui

import (
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// TestWhatIsWishedForLastIsDrawnFirst: a wish that is repeated comes before
// those made since.
func TestWhatIsWishedForLastIsDrawnFirst(t *testing.T) {
	l := newLoader(openWindow(t).desk.Pictures, func(func()) {}, func() {})
	l.workers = 1000 // none is started
	for _, id := range []string{"a", "b", "c", "a", "d", "b"} {
		if l.Shot(picture.PictureShot(board.MediaID(id), 16, 9), 16, 9) != nil {
			t.Fatalf("%s is there", id)
		}
	}
	var got []string
	for _, x := range l.wishes {
		for _, id := range []string{"a", "b", "c", "d"} {
			if x.shot == picture.PictureShot(board.MediaID(id), 16, 9) {
				got = append(got, id)
			}
		}
	}
	if want := []string{"c", "a", "d", "b"}; !slices.Equal(got, want) {
		t.Errorf("the wishes are %v, want %v, the last first", got, want)
	}
}
