package ui

import (
	"encoding/json"
	"image"
	"image/color"
	"image/draw"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
)

func TestKeptAidsThatMakeNoSense(t *testing.T) {
	for _, tt := range []struct {
		name, kept string
		want       aids
	}{
		{"nothing", "", aids{}},
		{"no JSON", "{{", aids{}},
		{"of another kind", `{"dot":"yes"}`, aids{}},
		{"too loud, too long", `{"click":90,"countIn":9,"dot":true}`, aids{Click: 3, CountIn: 2, Dot: true}},
		{"too soft, less than none", `{"click":-90,"countIn":-1}`, aids{Click: -24}},
		{"a mask there is not", `{"mask":"round","thirds":true}`, aids{guides: guides{Thirds: true}}},
		{"a mask", `{"mask":"4:3"}`, aids{guides: guides{Mask: "4:3"}}},
	} {
		if got := readAids(tt.kept); got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, got, tt.want)
		}
	}
	all := aids{-6, 1, true, true, board.BurnIn{Title: true}, true, guides{true, true, true, "1.85"}}
	data, err := json.Marshal(all)
	if got := readAids(string(data)); err != nil || got != all {
		t.Errorf("kept and read: %+v, want %+v", got, all)
	}
}

func TestAidsAreSwitchedAndKept(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.win.Resize(w.win.Canvas().Size().AddWidthHeight(1, 0))
	do := func(names ...string) {
		for _, name := range names {
			w.keys.named[name].run()
		}
	}
	over := w.viewer.over
	if o := over; !o.panel.back.Hidden || !o.place.back.Hidden || !o.guides.Hidden || !o.dot.Hidden {
		t.Error("something stands over the picture of a new program")
	}
	do("Words: panel number", "Words: title", "Words: bar and beat", "Title safe area", "Mask: 1:1", "Dot on the beats", "Softer click", "Count-in: two bars")
	w.seek(36) // bar 1, beat 4
	settle(t, w)
	if got := over.panel.words.Text; got != "panel 2 · b" {
		t.Errorf("at the top stands %q", got)
	}
	if got := over.place.words.Text; got != "bar 1, beat 4" {
		t.Errorf("at the foot stands %q", got)
	}
	if over.dot.Hidden || over.now.sign != onBeat || over.guides.Hidden || over.guides.Image == nil {
		t.Errorf("dot hidden %v, sign %d, guides hidden %v", over.dot.Hidden, over.now.sign, over.guides.Hidden)
	}
	small := over.dot.Size()
	w.seek(48)
	if over.now.sign != onBar || over.dot.Size().Width <= small.Width {
		t.Errorf("on a bar the sign is %d, %v large; on a beat %v", over.now.sign, over.dot.Size(), small)
	}
	w.seek(53)
	if !over.dot.Hidden {
		t.Error("the dot stays between beats")
	}
	for name, want := range map[string]bool{"Mask: 1:1": true, "No mask": false, "Thirds": false, "Title safe area": true} {
		if c := w.keys.named[name]; c.entry.Checked != want {
			t.Errorf("%q is ticked in the menu: %v, want %v", name, c.entry.Checked, want)
		}
	}
	again := newWindow(w.app, Options{Ear: clickEar{}, Mute: true, post: func(f func()) { posted <- f }}, w.desk)
	if again.aids != w.aids || again.aids.Click != -3 || again.aids.CountIn != 2 || again.clickLevel.db.Load() != -3 {
		t.Errorf("a new window has %+v, want %+v", again.aids, w.aids)
	}
	do("Nothing over the picture")
	if !over.panel.back.Hidden || !over.guides.Hidden || w.aids != (aids{Click: -3, CountIn: 2}) {
		t.Errorf("after all were taken away: %+v", w.aids)
	}
}

func TestPlatesKeepToThePicture(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	for _, title := range []string{strings.Repeat("The teapot considers the empty cup ", 20), strings.Repeat("茶壺在想茶杯", 40), "чайник"} {
		w.aids.Words = board.BurnIn{Number: true, Title: true, Timecode: true, Frame: true, Exposure: true, Beat: true}
		w.do(board.Edit{Apply: func(b board.Board) (board.Board, error) {
			b.Panels = append([]board.Panel(nil), b.Panels...)
			b.Panels[0].Title = title
			return b, nil
		}})
		w.seek(0)
		o := w.viewer.over
		for _, p := range []*plate{o.panel, o.place} {
			if at := p.back.Position(); p.back.Hidden || at.X < o.at.X || at.X+p.back.Size().Width > o.at.X+o.size.Width ||
				at.Y < o.at.Y || at.Y+p.back.Size().Height > o.at.Y+o.size.Height {
				t.Errorf("%q lies at %v, %v large, on a picture at %v, %v", p.words.Text, at, p.back.Size(), o.at, o.size)
			}
			if p.words.MinSize().Width > p.back.Size().Width {
				t.Errorf("%q is wider than its plate", p.words.Text)
			}
		}
	}
}

func TestGuidesOverThePicture(t *testing.T) {
	for _, tt := range []struct {
		name string
		g    guides
	}{
		{"safe-and-thirds", guides{Action: true, Title: true, Thirds: true}},
		{"masked", guides{Action: true, Mask: "2.39"}},
		{"upright", guides{Title: true, Thirds: true, Mask: "9:16"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			over := image.NewRGBA(image.Rect(0, 0, 320, 180))
			paintGuides(over, 1, tt.g)
			img := image.NewRGBA(over.Rect)
			draw.Draw(img, image.Rect(0, 0, 160, 180), image.Black, image.Point{}, draw.Src)
			draw.Draw(img, image.Rect(160, 0, 320, 180), image.White, image.Point{}, draw.Src)
			draw.Draw(img, img.Rect, over, image.Point{}, draw.Over)
			comparePicture(t, "testdata/guides-"+tt.name+".png", img)
		})
	}
}

func TestMaskLeavesItsShape(t *testing.T) {
	for _, scale := range []float64{1, 1.5, 2} {
		img := image.NewRGBA(image.Rect(0, 0, 1280, 720))
		paintGuides(img, scale, guides{Mask: "4:3"})
		// 4:3 in 720 lines is 960 wide: 160 go on each side.
		for x, veiled := range map[int]bool{0: true, 159: true, 162: false, 640: false, 1117: false, 1120: true, 1279: true} {
			if got := img.RGBAAt(x, 300).A > 0x80; got != veiled {
				t.Errorf("at scale %g, column %d is veiled: %v, want %v", scale, x, got, veiled)
			}
		}
	}
}

// square is a white picture with a black square.
func square(w, h int, at image.Rectangle) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(img, at, image.Black, image.Point{}, draw.Src)
	return img
}

func TestOnion(t *testing.T) {
	k := onionKey{square(160, 90, image.Rect(60, 30, 90, 60)), square(160, 90, image.Rect(20, 20, 50, 50)), square(160, 90, image.Rect(100, 40, 130, 70)), 160, 90}
	was := *k.now
	was.Pix = append([]byte(nil), k.now.Pix...)
	img := onion(k)
	comparePicture(t, "testdata/onion.png", img)
	if string(was.Pix) != string(k.now.Pix) {
		t.Error("the picture itself is drawn on")
	}
	marked := func(x0, x1, y int) (n int) {
		for x := x0; x < x1; x++ {
			if c := img.RGBAAt(x, y); c != (color.RGBA{255, 255, 255, 255}) {
				n++
			}
		}
		return n
	}
	// Without colour: one line is whole, the other has gaps.
	if before, after := marked(22, 48, 20), marked(102, 128, 40); before != 26 || after < 6 || after > 20 {
		t.Errorf("of 26 pixels of an edge, %d are marked before and %d after", before, after)
	}
	blank := onion(onionKey{nil, k.before, nil, 160, 90})
	if c := blank.RGBAAt(35, 35); c.R < 0xe0 {
		t.Errorf("over a blank panel, inside the square before it is %v", c)
	}
}

func TestOnionInTheViewer(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.seek(30)
	settle(t, w)
	plain := w.viewer.shown
	w.keys.named["Onion: the panels before and after"].run()
	settle(t, w)
	peeled := w.viewer.shown
	if plain == nil || peeled == nil || peeled == plain {
		t.Fatalf("plain %p, with the onion %p", plain, peeled)
	}
	if w.seek(31); w.viewer.shown != peeled {
		t.Error("the next frame of a panel makes a new onion")
	}
	w.keys.named["Onion: the panels before and after"].run()
	if w.viewer.shown != plain {
		t.Error("the onion stays when it is switched off")
	}
}

func BenchmarkOnion(b *testing.B) {
	k := onionKey{square(1280, 720, image.Rect(60, 30, 900, 600)), square(1280, 720, image.Rect(20, 20, 500, 500)), square(1280, 720, image.Rect(100, 40, 1300, 700)), 1280, 720}
	for b.Loop() {
		onion(k)
	}
}

func TestBeatSigns(t *testing.T) {
	b := filmOf(t, 4) // beats every 12 frames, bars every 48
	for f, want := range map[board.Frame]beatSign{0: onBar, 2: onBar, 3: noBeat, 11: noBeat, 12: onBeat, 14: onBeat, 15: noBeat, 48: onBar, 51: noBeat} {
		if got := beatSignAt(b, f); got != want {
			t.Errorf("frame %d: sign %d, want %d", f, got, want)
		}
	}
	quick := b
	quick.Grid = board.NewGrid([]float64{0, 2. / 24, 4. / 24}, nil)
	for f, want := range []beatSign{onBeat, noBeat, onBeat, noBeat, onBeat} {
		if got := beatSignAt(quick, board.Frame(f)); got != want {
			t.Errorf("beats of 2 frames, frame %d: sign %d, want %d", f, got, want)
		}
	}
	if got := beatSignAt(board.New(), 0); got != noBeat {
		t.Errorf("without beats: sign %d", got)
	}
}

// flashesOf plays a film and returns when the border was lit.
func flashesOf(b board.Board, seconds, speed float64) (at []time.Duration) {
	var x flash
	last := 0.
	start := time.Unix(1000, 0)
	for ms := 0; ms < int(seconds*1000); ms += 8 {
		now := time.Duration(ms) * time.Millisecond
		glow := x.Glow(b, b.Rate.At(now.Seconds()*speed), start.Add(now))
		if glow > last {
			at = append(at, now)
		}
		last = glow
	}
	return at
}

// A flash is switched on with a caution.
func TestFlashComesWithACaution(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	run(t, w, "Flash of the border on the beats")
	if got := w.foot.words.Text; !w.aids.Flash || !strings.Contains(got, "epilepsy") {
		t.Errorf("the foot says %q", got)
	}
	w.foot.Say("")
	if run(t, w, "Flash of the border on the beats"); w.aids.Flash || w.foot.words.Text != "" {
		t.Errorf("switched off, the foot says %q", w.foot.words.Text)
	}
}

func TestFlashesAreAtMostThreeASecond(t *testing.T) {
	b := filmOf(t, 4)
	every := func(sec float64, bar int) board.Board {
		out := b
		var beats, bars []float64
		for i := range 200 {
			beats = append(beats, float64(i)*sec)
			if i%bar == 0 {
				bars = append(bars, beats[i])
			}
		}
		out.Grid = board.NewGrid(beats, bars)
		return out
	}
	for _, tt := range []struct {
		name        string
		b           board.Board
		speed       float64
		least, most int // flashes in 6 s
	}{
		{"120 BPM", b, 1, 12, 12},
		{"160 BPM", every(0.375, 4), 1, 16, 16},
		{"240 BPM in fours: the bars alone", every(0.25, 4), 1, 6, 6},
		{"1200 BPM in twos", every(0.05, 2), 1, 10, 16},
		{"120 BPM at four times the speed", b, 4, 9, 16},
	} {
		at := flashesOf(tt.b, 6, tt.speed)
		if len(at) < tt.least || len(at) > tt.most {
			t.Errorf("%s: %d flashes in 6 s, want %d to %d", tt.name, len(at), tt.least, tt.most)
		}
		for i := 3; i < len(at); i++ {
			if at[i]-at[i-3] <= time.Second {
				t.Errorf("%s: four flashes from %v to %v", tt.name, at[i-3], at[i])
			}
		}
	}
	// One who hammers at a key that goes to a beat and off it again.
	var x flash
	lit := 0
	for i := range 50 {
		now := time.Unix(1000, 0).Add(time.Duration(i) * 20 * time.Millisecond)
		if x.Glow(b, 12, now) > 0 && (i == 0 || i%2 == 0) {
			x.Glow(b, 18, now.Add(10*time.Millisecond))
			lit++
		}
	}
	if lit > 3 {
		t.Errorf("%d flashes in a second of hammering", lit)
	}
}

// The skins are what the viewer shows on both sides of the cuts, not the bare
// pictures: sketches, framings and words are in them.
func TestTheOnionIsOfShots(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetMove([]int{0}, board.CameraMove{To: board.Framing{Width: 2}}))
	w.do(board.SetMove([]int{2}, board.CameraMove{From: board.Framing{Width: 3}}))
	w.do(board.SetPicture([]int{1}, ""))
	w.do(board.AddLetter([]int{1}, board.NewLetter(board.TitleCard, "TEA", w.board.Aspect)))
	w.do(board.SetAspect(board.Aspect{W: 1, H: 1}))
	w.keys.named["Onion: the panels before and after"].run()
	pw, ph := w.viewer.pixels()
	shot := func(i int, n board.Frame) *image.RGBA {
		img, err := w.film.Panel(i, n, pw, ph)
		if err != nil {
			t.Fatal(err)
		}
		return img
	}
	for _, tt := range []struct {
		name          string
		panel         int
		before, after *image.RGBA
	}{
		{"the first panel has one after it: its words", 0, nil, shot(1, 0)},
		{"one between two: the end of one move and the begin of the other", 1, shot(0, w.starts[1]-1), shot(2, 0)},
		{"the last panel has one before it: its words", 2, shot(1, 0), nil},
	} {
		w.seek(w.starts[tt.panel] + 1)
		settle(t, w)
		if got := w.viewer.skins; got.before != tt.before || got.after != tt.after {
			t.Errorf("%s: the skins are %p and %p, want %p and %p", tt.name, got.before, got.after, tt.before, tt.after)
		}
		if w.viewer.peeled == nil || w.viewer.shown != w.viewer.peeled {
			t.Errorf("%s: the onion is not shown", tt.name)
		}
	}
	w.do(board.SetMove([]int{0}, board.CameraMove{}))
	w.do(board.RemoveLetter(1, 0))
	w.do(board.SetPicture([]int{1}, w.board.Panels[0].Picture))
	w.seek(0)
	settle(t, w)
	if w.viewer.shown != shot(0, 0) {
		t.Error("a panel that looks like the one after it has outlines over it")
	}
}
