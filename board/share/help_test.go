package share

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// cards is a source of pictures with something to see in each corner: the id
// "c3" is card 3.
type cards struct{}

func (cards) Media(id board.MediaID) ([]byte, error) {
	k := uint8(id[len(id)-1] - '0')
	img := image.NewRGBA(image.Rect(0, 0, 192, 192))
	for i := range 16 {
		c := color.RGBA{40 + 13*k*uint8(i%4)%180, 60 + 11*uint8(i), 200 - 17*k, 255}
		draw.Draw(img, image.Rect(i%4*48, i/4*48, i%4*48+48, i/4*48+48), image.NewUniform(c), image.Point{}, draw.Src)
	}
	var out bytes.Buffer
	err := png.Encode(&out, img)
	return out.Bytes(), err
}

// lively returns two seconds of film with a move of the camera, a dissolve, a
// fade, words and notes, on twos.
func lively(t testing.TB, aspect board.Aspect) board.Board {
	t.Helper()
	b := board.New()
	for i := range 4 {
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(float64(i) / 2), Picture: board.MediaID("c" + string(rune('1'+i)))})
		b.NextID++
	}
	b.End = board.Free(2)
	return edited(t, b,
		board.SetAspect(aspect),
		board.SetMove([]int{1}, board.CameraMove{To: board.Framing{At: board.Point{X: 0.1, Y: -0.1}, Width: 0.6}}),
		board.SetTransition([]int{2}, board.Transition{Kind: board.Dissolve, Frames: 6}),
		board.SetTransition([]int{3}, board.Transition{Kind: board.Fade, Frames: 4}),
		board.Write([]int{0, 2}, "words", func(w *board.Words) { w.Title, w.Note = "Чайник и чашка", "the lid stays on" }),
		board.SetFrameNote(15, "steam"),
	)
}

func edited(t testing.TB, b board.Board, edits ...board.Edit) board.Board {
	t.Helper()
	for _, e := range edits {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
	}
	return b
}

// decodedFrames decodes every frame of a film to RGBA.
func decodedFrames(t *testing.T, path string, w, h int) []*image.RGBA {
	t.Helper()
	out := tool(t, "ffmpeg", "-v", "error", "-i", path, "-map", "0:v", "-fps_mode", "passthrough",
		"-sws_flags", "bicubic+accurate_rnd+full_chroma_int", "-f", "rawvideo", "-pix_fmt", "rgba", "-")
	size := 4 * w * h
	if len(out)%size != 0 {
		t.Fatalf("%d bytes are no whole number of frames of %dx%d", len(out), w, h)
	}
	var all []*image.RGBA
	for ; len(out) > 0; out = out[size:] {
		all = append(all, &image.RGBA{Pix: out[:size], Stride: 4 * w, Rect: image.Rect(0, 0, w, h)})
	}
	return all
}

// apart is the root of the mean square difference of two pictures, in levels.
func apart(a, b *image.RGBA) float64 {
	sum, n := 0.0, 0
	for i := range a.Pix {
		if i%4 != 3 {
			d := float64(a.Pix[i]) - float64(b.Pix[i])
			sum += d * d
			n++
		}
	}
	return math.Sqrt(sum / float64(n))
}

// lightApart is apart for luma alone.
func lightApart(a, b *image.RGBA) float64 {
	sum := 0.0
	for i := 0; i < len(a.Pix); i += 4 {
		d := 0.0
		for c, weight := range []float64{0.2126, 0.7152, 0.0722} { // ITU-R BT.709-6, 3.2
			d += weight * (float64(a.Pix[i+c]) - float64(b.Pix[i+c]))
		}
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(a.Pix)/4))
}

// seen returns frame n of a film as it is to be written, drawn apart from what
// writes it.
func seen(t *testing.T, b board.Board, pics *picture.Cache, n board.Frame, w, h int, over picture.Burn) *image.RGBA {
	t.Helper()
	img, err := picture.NewFilm(pics, b).Frame(n, w, h)
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewRGBA(img.Rect)
	draw.Draw(out, out.Rect, img, image.Point{}, draw.Src)
	over.Paint(out, b.Aspect)
	return out
}
