package ui

import (
	"image"
	"math"
	"os/exec"
	"path/filepath"
	"testing"

	"stillbeat/board"
	"stillbeat/board/share"
)

// meansOf returns the mean colours of n x n parts of a picture, a byte a channel.
func meansOf(img *image.RGBA, n int) []byte {
	var out []byte
	for row := range n {
		for column := range n {
			var sum [3]int
			count := 0
			for y := row * img.Rect.Dy() / n; y < (row+1)*img.Rect.Dy()/n; y++ {
				for x := column * img.Rect.Dx() / n; x < (column+1)*img.Rect.Dx()/n; x++ {
					c := img.RGBAAt(x, y)
					sum[0], sum[1], sum[2], count = sum[0]+int(c.R), sum[1]+int(c.G), sum[2]+int(c.B), count+1
				}
			}
			for _, s := range sum {
				out = append(out, byte(s/count))
			}
		}
	}
	return out
}

// meanApart is the mean difference of two rows of bytes.
func meanApart(a, b []byte) float64 {
	sum := 0.
	for i := range a {
		sum += math.Abs(float64(a[i]) - float64(b[i]))
	}
	return sum / float64(len(a))
}

// decoded returns the pictures of a film that ffmpeg gets out of a file, one
// after the other, as bytes of red, green, blue and alpha.
func decoded(t *testing.T, path, filters string) []byte {
	t.Helper()
	film, err := exec.Command("ffmpeg", "-v", "error", "-i", path, "-vf", filters+"scale=flags=accurate_rnd+full_chroma_int+full_chroma_inp,format=rgba",
		"-fps_mode", "passthrough", "-f", "rawvideo", "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return film
}

// What the viewer shows at a frame is what the MP4 has there and what the GIF
// shows at that time, as ffmpeg decodes them: in films of several shapes, while
// the camera moves, on ones and on twos, and while one panel gives way to
// another.
func TestTheViewerShowsWhatIsExported(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Fatal("ffmpeg is needed to look into what is exported")
	}
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetRate(board.FrameRate{Num: 8, Den: 1}))
	w.do(board.SetMove([]int{0}, board.CameraMove{From: board.Framing{Width: 3}}))
	w.do(board.SetMove([]int{1}, board.CameraMove{To: board.Framing{At: board.Point{X: 0.4}, Width: 2}, Spacing: board.SlowInOut}))
	w.do(board.SetTransition([]int{2}, board.Transition{Kind: board.Dissolve, Frames: 6}))
	w.do(board.AddLetter([]int{2}, board.NewLetter(board.TitleCard, "TEA", w.board.Aspect)))
	w.do(board.SetPanelStep([]int{1}, 2))
	silent := func() board.Board { b := w.board; b.Song = nil; return b }
	const parts = 8
	for _, tt := range []struct {
		shape board.Aspect
		w, h  int
	}{{board.Aspect{}, 320, 180}, {board.Aspect{W: 9, H: 16}, 180, 320}, {board.Aspect{W: 239, H: 100}, 478, 200}} {
		w.do(board.SetAspect(tt.shape))
		settle(t, w)
		path := filepath.Join(t.TempDir(), "film.mp4")
		if err := share.MP4(t.Context(), path, silent(), w.desk.Pictures, nil, share.Options{Width: tt.w, Height: tt.h}); err != nil {
			t.Fatal(err)
		}
		film := decoded(t, path, "")
		size := 4 * tt.w * tt.h
		if got, want := len(film)/size, int(w.lastFrame()); got != want {
			t.Fatalf("%s: %d frames, want %d", w.board.Aspect, got, want)
		}
		exported := func(f board.Frame) []byte {
			return meansOf(&image.RGBA{Pix: film[int(f)*size:][:size], Stride: 4 * tt.w, Rect: image.Rect(0, 0, tt.w, tt.h)}, parts)
		}
		path = filepath.Join(t.TempDir(), "film.gif")
		gw, gh := tt.w/2, tt.h/2
		if err := share.GIF(t.Context(), path, silent(), w.desk.Pictures, share.Options{Width: gw, Height: gh}); err != nil {
			t.Fatal(err)
		}
		turning := decoded(t, path, "fps=100,") // a picture for each hundredth of a second, in which GIFs count
		turned := func(f board.Frame) []byte {
			n := int(100 * (w.board.Rate.Seconds(f) + w.board.Rate.Seconds(1)/2))
			size := 4 * gw * gh
			if last := len(turning)/size - 1; f == w.lastFrame()-1 && n > last {
				n = last // where the last picture holds, none follows it
			}
			return meansOf(&image.RGBA{Pix: turning[n*size:][:size], Stride: 4 * gw, Rect: image.Rect(0, 0, gw, gh)}, parts)
		}
		changes, most := 0, 0.
		for f := range w.lastFrame() {
			w.seek(f)
			if f == 0 || w.viewer.shot != w.film.Shot(f-1) {
				settle(t, w)
				changes++
			}
			most = max(most, meanApart(exported(0), exported(f)))
			if off := meanApart(meansOf(w.viewer.shown, parts), exported(f)); off > 3 {
				t.Errorf("%s, frame %d: what the viewer shows and what is exported are %.1f of 255 apart", w.board.Aspect, f, off)
			}
			if off := meanApart(meansOf(w.viewer.shown, parts), turned(f)); off > 4 {
				t.Errorf("%s, frame %d: what the viewer shows and the GIF are %.1f of 255 apart", w.board.Aspect, f, off)
			}
		}
		if changes < 14 || most < 15 {
			t.Errorf("%s: the film changes on %d frames, by %.1f at most", w.board.Aspect, changes, most)
		}
	}
}
