package ui

import (
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"

	"stillbeat/audio"
	"stillbeat/audio/clip"
	"stillbeat/board"
	"stillbeat/board/desk"
)

// clickEar hears every song as 20 seconds of 120 BPM in fours.
type clickEar struct{}

func (clickEar) Hear(context.Context, desk.SongFile, desk.Wish, desk.Progress) (*desk.Heard, error) {
	var beats, downs []float64
	for i := range 40 {
		beats = append(beats, float64(i)*0.5)
		if i%4 == 0 {
			downs = append(downs, float64(i)*0.5)
		}
	}
	g := board.NewGrid(beats, downs)
	g.Tempo, g.Confidence, g.Metre = 120, 1, 4
	return &desk.Heard{Rate: 8000, Channels: 1, Seconds: 20, Grid: g, Sound: twentySeconds{}, Waveform: flatWave()}, nil
}

// twentySeconds is a sound in which there is nothing.
type twentySeconds struct{ board.Silence }

func (twentySeconds) Rate() int { return 8000 }
func (twentySeconds) Len() int  { return 20 * 8000 }

// flatWave is its waveform.
func flatWave() []byte {
	var p audio.Pyramid
	p.Begin(clip.Info{Rate: 8000, Channels: 1})
	p.Add([][]float32{make([]float32, 20*8000)})
	p.End()
	data, err := p.MarshalBinary()
	if err != nil {
		panic(err)
	}
	return data
}

// posted holds what goroutines want done on the window's: the test's own.
var posted = make(chan func(), 10000)

// openWindow opens an empty film in a window without a screen.
func openWindow(t *testing.T) *window {
	t.Helper()
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	a := test.NewTempApp(t)
	a.Settings().SetTheme(newPaperTheme())
	d, err := desk.New()
	if err != nil {
		t.Fatal(err)
	}
	w := newWindow(a, Options{Ear: clickEar{}, Mute: true, post: func(f func()) { posted <- f }}, d)
	w.win.Resize(fyne.NewSize(1100, 700))
	t.Cleanup(func() {
		settle(t, w)
		w.desk.Close()
	})
	return w
}

// idle reports whether a loader has drawn all that was wished for, and told.
func idle(l *loader) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.workers == 0 && !l.told
}

// settle does what was posted until no job is under way, no picture is being
// drawn, and nothing more comes.
func settle(t *testing.T, w *window) {
	t.Helper()
	end := time.After(20 * time.Second)
	for {
		select {
		case f := <-posted:
			f()
		case <-time.After(60 * time.Millisecond):
			if !w.jobs.Busy() && idle(w.loader) {
				return
			}
		case <-end:
			t.Fatal("a job does not end")
		}
	}
}

func writePictures(t *testing.T, n int) []string {
	t.Helper()
	var paths []string
	for i := range n {
		img := image.NewRGBA(image.Rect(0, 0, 32, 18))
		for p := range 32 * 18 {
			img.Set(p%32, p/32, color.RGBA{uint8(i * 40), 80, 120, 255})
		}
		path := filepath.Join(t.TempDir(), string(rune('a'+i))+".png")
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
		paths = append(paths, path)
	}
	return paths
}

func bringIn(t *testing.T, w *window, pictures int) {
	t.Helper()
	song := filepath.Join(t.TempDir(), "song.wav")
	if err := os.WriteFile(song, []byte("any bytes"), 0o600); err != nil {
		t.Fatal(err)
	}
	w.bringSong(song)
	settle(t, w)
	w.bringPictures(writePictures(t, pictures))
	settle(t, w)
	if got := len(w.board.Panels); got != pictures {
		t.Fatalf("%d panels, want %d; the foot says %q", got, pictures, w.foot.words.Text)
	}
}

func press(w *window, x, y float64) {
	w.timeline.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary,
		PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))}})
}

func dragTo(w *window, x, y float64) {
	w.timeline.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))}})
}

func TestMainJobInTheWindow(t *testing.T) {
	w := openWindow(t)
	if !w.welcome.root.Visible() {
		t.Error("an empty film does not say what to do first")
	}
	bringIn(t, w, 4)
	if w.welcome.root.Visible() {
		t.Error("the welcome stands over the film")
	}
	for i, want := range []board.Frame{0, 24, 48, 72, 96} {
		if w.starts[i] != want {
			t.Errorf("start %d is frame %d, want %d (every 2nd beat)", i, w.starts[i], want)
		}
	}

	// Drag the start of panel 2 to 3 frames before beat 3: it lands on it.
	v := &w.timeline.view
	press(w, v.frameX(24), v.lineY())
	dragTo(w, v.frameX(33), v.lineY())
	if v.drag == nil || !v.drag.landing {
		t.Fatalf("near a beat the start does not land: %+v", v.drag)
	}
	w.timeline.MouseUp(nil)
	if s := w.board.Panels[1].Start; s.Anchor != (board.Anchor{Beat: 3, Of: 1}) || w.starts[1] != 36 {
		t.Errorf("start of panel 2 = %+v at frame %d, want beat 3, frame 36", s, w.starts[1])
	}
	w.desk.Undo()
	if w.starts[1] != 24 {
		t.Errorf("after undo the start is frame %d, want 24", w.starts[1])
	}

	// Free two starts off the beat, then snap all.
	w.do(board.SetStart(1, board.Free(22./24)))
	w.do(board.SetStart(2, board.Free(51./24)))
	w.snap(board.ToBeat)
	for i, want := range []board.Frame{0, 24, 48, 72, 96} {
		if w.starts[i] != want {
			t.Errorf("snapped: start %d is frame %d, want %d", i, w.starts[i], want)
		}
	}
}

func TestFilesDroppedOnTheWindow(t *testing.T) {
	w := openWindow(t)
	pictures := writePictures(t, 2)
	song := filepath.Join(t.TempDir(), "tune.WAV")
	wrong := filepath.Join(t.TempDir(), "letter.txt")
	for _, path := range []string{song, wrong} {
		if err := os.WriteFile(path, []byte("words"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var uris []fyne.URI
	for _, path := range []string{pictures[1], song, wrong, pictures[0]} {
		uris = append(uris, storage.NewFileURI(path))
	}
	w.dropped(uris)
	settle(t, w)
	if w.board.Song == nil || w.board.Song.Name != "tune.WAV" {
		t.Errorf("the song dropped is not under the film: %+v", w.board.Song)
	}
	if len(w.board.Panels) != 2 || w.board.Panels[0].Title != "a" {
		t.Errorf("panels %+v, want those of a.png and b.png, in this order", w.board.Panels)
	}
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing says that letter.txt is not a picture")
	}
}

func TestFrameRateIsTyped(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.header.rate.SetText("12.5")
	if got := w.board.Rate; got != (board.FrameRate{Num: 25, Den: 2}) {
		t.Errorf("typed 12.5: the rate is %v", got)
	}
	if w.starts[1] != 13 { // 1 s x 12.5, rounded
		t.Errorf("beat 2 is frame %d at 12.5 fps, want 13", w.starts[1])
	}
	w.header.rate.SetText("many")
	if got := w.board.Rate.String(); got != "12.5" {
		t.Errorf("a word changed the rate to %s", got)
	}
	if w.header.rate.Text != "12.5" || w.foot.words.Text == "" {
		t.Errorf("field %q, foot %q: want the old rate and a sentence", w.header.rate.Text, w.foot.words.Text)
	}
}

func TestPlayingShowsTheFrameThatSounds(t *testing.T) {
	w := openWindow(t)
	w.bringPictures(writePictures(t, 3)) // no song: the clock is the master
	settle(t, w)
	w.seek(0)
	w.togglePlay()
	if w.playing == nil {
		t.Fatal("space does not play")
	}
	time.Sleep(150 * time.Millisecond)
	lead := w.paint.lead()
	before := w.board.Rate.At(w.player.Position() + lead)
	w.tick(w.playing)
	after := w.board.Rate.At(w.player.Position() + lead)
	if w.at < before || w.at > after || w.at == 0 {
		t.Errorf("playhead at frame %d, the sound between %d and %d", w.at, before, after)
	}
	w.togglePlay()
	if w.playing != nil || w.player.Playing() {
		t.Error("space does not stop")
	}
}

func TestCardWritesOnThePanel(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(1)
	w.card.Focus(w.win.Canvas())
	test.Type(w.card.title, "!")
	if got := w.board.Panels[1].Title; got != "b!" && got != "!b" {
		t.Errorf("typed in the title field: the title is %q", got)
	}
	w.win.Canvas().Unfocus()
	if w.desk.Undo(); w.board.Panels[1].Title != "b" {
		t.Errorf("one undo leaves the title %q, want b", w.board.Panels[1].Title)
	}
	w.card.frames.SetText("36")
	w.card.frames.OnDone()
	if got := w.starts[2] - w.starts[1]; got != 36 {
		t.Errorf("typed a hold of 36 frames: it is %d", got)
	}
	w.card.frames.SetText("-4")
	w.card.frames.OnDone()
	if got := w.starts[2] - w.starts[1]; got != 36 || w.card.frames.Text != "36" {
		t.Errorf("an impossible hold left %d frames and %q in the field", got, w.card.frames.Text)
	}
}

func TestFilmIsAsItWasAfterReopening(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetTitle("Tea"))
	path := filepath.Join(t.TempDir(), "tea.stillbeat")
	if err := w.desk.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	w.do(board.SetHold([]int{0}, 30)) // kept without asking
	want := w.board
	if err := w.desk.Flush(); err != nil {
		t.Fatal(err)
	}
	w.openFilm("")
	w.openFilm(path)
	settle(t, w)
	got := w.board
	if got.Title != "Tea" || len(got.Panels) != 3 || w.starts[1] != 30 || got.Panels[2] != want.Panels[2] || got.Song == nil {
		t.Errorf("reopened: %+v, want %+v", got, want)
	}
	if w.timeline.view.wave == nil {
		t.Error("the waveform is not there after reopening")
	}
}

func TestEveryKeyHasOneCommand(t *testing.T) {
	w := openWindow(t)
	seen := map[string]string{}
	for _, c := range w.commands {
		if c.key == "" {
			continue
		}
		k := c.keyName()
		if other := seen[k]; other != "" {
			t.Errorf("%s does both %q and %q", k, other, c.name)
		}
		seen[k] = c.name
	}
	if len(seen) < 25 {
		t.Errorf("only %d keys", len(seen))
	}
}

func TestCommandsOnAnEmptyFilmDoNoHarm(t *testing.T) {
	w := openWindow(t)
	for _, c := range w.commands {
		if c.name == "" || c.do == nil || c.menu == "File" || c.menu == "Help" {
			continue
		}
		c.run()
		for w.win.Canvas().Overlays().Top() != nil {
			w.win.Canvas().Overlays().Top().Hide()
		}
	}
	if err := w.board.Check(); err != nil {
		t.Error(err)
	}
}

func TestNothingIsClippedInASmallWindow(t *testing.T) {
	w := openWindow(t)
	// 1100 x 700 less the window manager's border and the menu.
	fits := func(when string) {
		t.Helper()
		if least := w.body.MinSize(); least.Width > 1090 || least.Height > 620 {
			t.Errorf("%s the window needs %v, want at most 1090 x 620 below its menu", when, least)
		}
	}
	fits("empty")
	bringIn(t, w, 3)
	fits("with a film")
	if got := w.timeline.Size().Width; math.Abs(float64(got)-1100) > 20 {
		t.Errorf("the timeline is %g wide in a window of 1100", got)
	}
}
