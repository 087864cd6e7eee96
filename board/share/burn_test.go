package share

import (
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Only what words stood over is drawn anew while a shot is held: whatever words
// come one after the other, a frame is as if it were drawn alone.
func TestWordsOverAHeldShot(t *testing.T) {
	b, pics := lively(t, board.Aspect{}), picture.NewCache(cards{}, 0)
	span := board.Span{End: b.Frames()}
	kept := newReel(b, pics, span, 320, 180, Options{})
	for k, over := range []picture.Burn{
		{Place: "00:00:00:00"}, {Place: "00:00:00:01"}, {}, {Note: "the lid\nstays\non\nthe pot"}, {Place: "1"},
		{Mark: "draft", Place: "2"}, {Panel: "3\nof a long title that takes two lines of the picture's foot"}, {Safe: true, Note: "Щg"}, {Place: "чайник 茶"}, {Note: "g\ng"}, {Place: "5"},
	} {
		n := board.Frame(k / 6 * 12) // a cut between
		img, err := kept.shown.Frame(n, 320, 180)
		if err != nil {
			t.Fatal(err)
		}
		want := picture.NewFilm(pics, b)
		alone, err := want.Frame(n, 320, 180)
		if err != nil {
			t.Fatal(err)
		}
		fresh := slices.Clone(alone.Pix)
		all := *alone
		all.Pix = fresh
		over.Paint(&all, b.Aspect)
		if !slices.Equal(kept.under(img, kept.shown.Shot(n), over).Pix, fresh) {
			t.Errorf("%d: %+v leaves something of what was before", k, over)
		}
	}
}
