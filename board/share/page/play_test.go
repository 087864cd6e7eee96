package page

import (
	"fmt"
	"image/color"
	"math/rand/v2"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// seen is what a page shows.
type seen struct {
	Time    float64
	Frame   board.Frame
	Picture string
	Pixels  []int // red, green and blue in the middle
	Hurt    bool
}

// look waits until the picture of the shown frame is there.
const look = `(async () => {
  const want = String(film.changes[changeAt(frame)][1]);
  for (let i = 0; i < 400 && $("screen").dataset.picture !== want; i++) await new Promise((r) => setTimeout(r, 5));
  const p = screen2d.getImageData(film.width / 2, film.height / 2, 1, 1).data;
  return {Time: now(), Frame: Number($("screen").dataset.frame), Picture: $("screen").dataset.picture, Pixels: [p[0], p[1], p[2]], Hurt: "hurt" in window};
})()`

func (b *browser) look() (s seen) {
	b.t.Helper()
	b.eval(look, &s)
	if s.Hurt {
		b.t.Fatal("a text of the film was run")
	}
	return s
}

// shows fails unless the page shows the picture the film has at a frame.
func (s seen) shows(t *testing.T, film *picture.Film, want board.Frame) {
	t.Helper()
	img, err := film.Frame(want, 960, 540)
	if err != nil {
		t.Fatal(err)
	}
	c := img.At(480, 270).(color.RGBA)
	for i, v := range []uint8{c.R, c.G, c.B} {
		if d := s.Pixels[i] - int(v); d > 6 || d < -6 {
			t.Errorf("at frame %d the picture is %v, the film's is %v", want, s.Pixels, c)
			return
		}
	}
}

// Wherever the sound is, the picture is the film's at that second: the last
// frame begun.
func TestThePictureIsTheFilmsAtTheSecondHeard(t *testing.T) {
	br := newBrowser(t)
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, rate := range []board.FrameRate{{Num: 24, Den: 1}, {Num: 30000, Den: 1001}, {Num: 12, Den: 1}} {
		b := danceFilm(rate)
		film := picture.NewFilm(picture.NewCache(flats{}, 0), b)
		path, _ := written(t, b, clicks{}, Options{})
		br.open(path, 1280, 800, false)
		length := rate.Seconds(b.Frames())
		for range 50 {
			at := rnd.Float64() * length
			br.eval(fmt.Sprintf(`new Promise((done) => { sound.addEventListener("seeked", done, {once: true}); sound.currentTime = %v; }).then(() => show(frameAt(now())))`, at), nil)
			s := br.look()
			want := min(rate.At(s.Time), b.Frames()-1)
			if d := s.Time - at; s.Frame != want || d > 0.001 || d < -0.001 {
				t.Fatalf("%v fps: asked for %v s, at %v s frame %d is shown, want %d", rate, at, s.Time, s.Frame, want)
			}
			s.shows(t, film, want)
		}
		for f := range b.Frames() { // stepping lands on each frame, and the sound with it
			br.eval(fmt.Sprintf("seek(%d)", f), nil)
			if s := br.look(); s.Frame != f || rate.At(s.Time) != f {
				t.Fatalf("%v fps: stepped to frame %d, %d is shown with the sound at frame %d", rate, f, s.Frame, rate.At(s.Time))
			}
		}
	}
	br.clean()
}

// While it plays, each frame shown lies between the seconds heard before and
// after it was worked out; at the end the film stops on its last frame.
func TestPlaying(t *testing.T) {
	br := newBrowser(t)
	for _, c := range []struct {
		name  string
		sound board.Sound
	}{{"with sound", clicks{}}, {"by the clock", nil}} {
		t.Run(c.name, func(t *testing.T) {
			b := danceFilm(board.FrameRate{Num: 24, Den: 1})
			path, _ := written(t, b, c.sound, Options{Silent: c.sound == nil})
			br.t = t
			br.open(path, 1280, 800, false)
			br.key(" ")
			var got [][3]float64
			br.eval(`(async () => {
			  const out = [];
			  for (let i = 0; i < 400 && out.length < 20; i++) {
			    await new Promise((r) => setTimeout(r, 50));
			    const before = now();
			    show(frameAt(now()));
			    out.push([before, frame, now()]);
			  }
			  return out;
			})()`, &got)
			if len(got) < 20 || got[19][0] < got[0][0]+0.5 {
				t.Fatalf("it does not play: %v", got)
			}
			for _, g := range got {
				if f := board.Frame(g[1]); f < b.Rate.At(g[0]) || f > b.Rate.At(g[2]) {
					t.Errorf("between %v and %v s frame %d is shown", g[0], g[2], f)
				}
			}
			br.eval(fmt.Sprintf("stop(), seek(%d), play()", b.Frames()-6), nil)
			br.eval(`(async () => { for (let i = 0; i < 400 && playing; i++) await new Promise((r) => setTimeout(r, 10)); })()`, nil)
			var end struct {
				Playing bool
				Frame   board.Frame
				Button  string
			}
			br.eval(`({Playing: playing, Frame: frame, Button: $("play").textContent})`, &end)
			if end.Playing || end.Frame != b.Frames()-1 || end.Button != "Play" {
				t.Errorf("at the end it is %+v", end)
			}
		})
	}
	br.t = t
	br.clean()
}

// Clicks of the sound are heard in the browser where they are in the film.
func TestTheSoundStartsWithTheFilm(t *testing.T) {
	br := newBrowser(t)
	path, made := written(t, danceFilm(board.FrameRate{Num: 24, Den: 1}), clicks{}, Options{})
	br.open(path, 1280, 800, false)
	var at []float64
	br.eval(`(async () => {
	  const bytes = Uint8Array.from(atob($("sound").textContent), (c) => c.charCodeAt(0));
	  const heard = await new OfflineAudioContext(1, 44100, 44100).decodeAudioData(bytes.buffer);
	  const s = heard.getChannelData(0), out = [];
	  for (let i = 0; i < s.length; i++) if (Math.abs(s[i]) > 0.3) { out.push(i / heard.sampleRate); i += 11025; }
	  return out;
	})()`, &at)
	if len(at) != 18 || made.SoundBytes == 0 {
		t.Fatalf("%d clicks are heard at %v, want 18", len(at), at)
	}
	for k, s := range at {
		if d := s - float64(k)/2; d < -0.002 || d > 0.002 {
			t.Errorf("click %d is heard at %v s", k, s)
		}
	}
}

func TestKeysAndButtonsStep(t *testing.T) {
	br := newBrowser(t)
	b := danceFilm(board.FrameRate{Num: 24, Den: 1})
	path, _ := written(t, b, clicks{}, Options{})
	br.open(path, 1280, 800, false)
	for _, c := range []struct {
		key, button string
		from, want  board.Frame
	}{
		{"ArrowRight", "frame-on", 0, 1}, {"ArrowRight", "frame-on", 209, 209}, {"ArrowLeft", "frame-back", 0, 0}, {"ArrowLeft", "frame-back", 30, 29},
		{"Shift+ArrowRight", "beat-on", 0, 12}, {"Shift+ArrowRight", "beat-on", 205, 209}, {"Shift+ArrowLeft", "beat-back", 25, 24},
		{"Shift+ArrowLeft", "beat-back", 24, 12}, {"PageDown", "panel-on", 3, 30}, {"PageDown", "panel-on", 190, 209},
		{"PageUp", "panel-back", 40, 30}, {"PageUp", "panel-back", 30, 0}, {"PageUp", "panel-back", 0, 0},
		{"End", "", 7, 209}, {"Home", "", 7, 0},
	} {
		br.eval(fmt.Sprintf("seek(%d)", c.from), nil)
		br.key(c.key)
		if s := br.look(); s.Frame != c.want {
			t.Errorf("%s on frame %d leads to %d, want %d", c.key, c.from, s.Frame, c.want)
		}
		if c.button != "" {
			br.eval(fmt.Sprintf(`seek(%d), $(%q).click()`, c.from, c.button), nil)
			if s := br.look(); s.Frame != c.want {
				t.Errorf("%s on frame %d leads to %d, want %d", c.button, c.from, s.Frame, c.want)
			}
		}
	}
	br.eval(`$("text").focus(), seek(5)`, nil)
	br.key("ArrowRight")
	br.key("Home")
	if s := br.look(); s.Frame != 5 {
		t.Errorf("keys in the note lead to frame %d", s.Frame)
	}
	br.clean()
}

// A page with a caution shows nothing of the film before it was read.
func TestTheCautionComesFirst(t *testing.T) {
	br := newBrowser(t)
	path, _ := written(t, danceFilm(board.FrameRate{Num: 24, Den: 1}), clicks{}, Options{Caution: "It flashes <b>fast</b> from 0:03 on."})
	br.open(path, 1280, 800, false)
	state := func() (s struct {
		Hidden, Playing bool
		Picture, Text   string
		Frame           board.Frame
	}) {
		br.eval(`({Hidden: $("caution").hidden, Playing: playing, Picture: $("screen").dataset.picture || "", Text: $("caution-text").textContent, Frame: frame})`, &s)
		return s
	}
	br.key(" ")
	br.key("ArrowRight")
	br.key("End")
	br.eval(`$("panel-on").click(), $("play").click()`, nil)
	br.shot("caution")
	if s := state(); s.Hidden || s.Playing || s.Picture != "" || s.Frame != 0 || s.Text != "It flashes <b>fast</b> from 0:03 on." {
		t.Errorf("before it was read: %+v", s)
	}
	br.key(" ") // the button has the focus by now
	br.look()
	if s := state(); !s.Hidden || s.Picture != "0" {
		t.Errorf("after it was read: %+v", s)
	}
	br.clean()
}
