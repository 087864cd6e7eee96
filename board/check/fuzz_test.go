package check

import (
	"context"
	"image"
	"testing"

	"stillbeat/board"
)

// Any frames at any rate are screened without a panic; what fails is in the
// film, and what is found as a run is found as the worst second too.
func FuzzFlashes(f *testing.F) {
	f.Add([]byte{0, 255, 0, 255, 0, 255, 0, 255}, int64(24), int64(1), uint8(1), false)
	f.Add([]byte{0, 0, 0, 255, 0, 0, 9, 63, 63, 101, 34, 34}, int64(30000), int64(1001), uint8(3), true)
	f.Add([]byte{255}, int64(120), int64(1), uint8(200), true)
	f.Fuzz(func(t *testing.T, data []byte, num, den int64, w uint8, loop bool) {
		rate := board.FrameRate{Num: num, Den: den}
		size := image.Pt(int(w)%20+1, 3)
		if rate.Check() != nil || len(data) == 0 || len(data) > 400 {
			return
		}
		frames := func(n board.Frame) (*image.RGBA, error) {
			img := image.NewRGBA(image.Rectangle{Max: size})
			for i := range img.Pix {
				img.Pix[i] = data[(int(n)+i)%len(data)]
			}
			return img, nil
		}
		o := FlashOptions{Rate: rate, Length: board.Frame(len(data)), Loop: loop}
		found, err := Flashes(context.Background(), frames, o)
		if err != nil {
			t.Fatal(err)
		}
		fails := [rules]bool{}
		for _, r := range found.Flashes {
			if r.Span.Start < 0 || r.Span.End > o.Length || r.Span.Len() < 1 {
				t.Fatalf("%+v lies outside %d frames", r, o.Length)
			}
			if r.KeptUp {
				continue
			}
			fails[r.Rule] = true
			if r.Changes <= MostChanges || r.Changes > found.Most[r.Rule] || r.Share <= quarter || r.Share > 1 {
				t.Fatalf("%+v, worst second %v", r, found.Most)
			}
		}
		for r := range fails {
			if fails[r] == found.Passes(Rule(r)) {
				t.Fatalf("by rule %d it passes and fails: %v, %+v", r, found.Most, found.Flashes)
			}
		}
	})
}
