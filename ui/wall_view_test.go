package ui

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// wallThumb returns the pictures of a film's panels, ready at any size, each of
// one colour.
func wallThumb(b board.Board) func(picture.Shot, int, int) *image.RGBA {
	type key struct {
		shot picture.Shot
		w, h int
	}
	ready, film := map[key]*image.RGBA{}, picture.NewFilm(nil, b)
	long := map[picture.Shot]int{} // the id
	for i, p := range b.Panels {
		long[film.PanelShot(i, 0)] = len(p.Picture)
	}
	return func(s picture.Shot, w, h int) *image.RGBA {
		k := key{s, w, h}
		if ready[k] == nil {
			img := image.NewRGBA(image.Rect(0, 0, w, h))
			pen{img, 1}.fill(0, 0, float64(w), float64(h), color.RGBA{byte(40 * long[s]), 0x70, 0x90, 0xff})
			ready[k] = img
		}
		return ready[k]
	}
}

// apply does edits to a board.
func apply(t testing.TB, b board.Board, edits ...board.Edit) board.Board {
	t.Helper()
	for _, e := range edits {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

// scenesOf returns a board of two scenes: shots of 2 and 3 panels, then one
// of 4.
func scenesOf(t testing.TB) board.Board {
	t.Helper()
	return apply(t, board.New(), board.Insert(0, make([]board.Panel, 9), 1),
		board.Open([]int{2}, board.OpensShot), board.Open([]int{5}, board.OpensScene),
		board.SetHeading(0, "Kitchen"), board.SetHeading(2, "The cup"), board.SetHeading(5, "夕方"))
}

func wallOf(b board.Board, w, h, perRow float64) *wallView {
	v := newWallView(wallThumb(b))
	v.setBoard(b, b.Starts(), picture.NewFilm(nil, b), nil)
	v.zoom = perRow
	v.resize(w, h)
	return &v
}

// layout writes the rows of the wall: headings, brackets and numbers.
func (v *wallView) layout() string {
	var out strings.Builder
	for _, r := range v.rows {
		if r.heading {
			fmt.Fprintf(&out, "== scene %s\n", v.named[v.order[r.from]].Scene)
			continue
		}
		for _, b := range v.brackets(r, v.size()) {
			begin, end := map[bool]string{true: "[", false: "…"}[b.begins], map[bool]string{true: "]", false: "…"}[b.ends]
			fmt.Fprintf(&out, "%sshot %s%s ", begin, v.named[b.shot].Shot, end)
		}
		out.WriteString("|")
		for pos := r.from; pos < r.to; pos++ {
			out.WriteString(" " + v.numbers[v.order[pos]])
		}
		out.WriteString("\n")
	}
	return out.String()
}

func TestWallGroupsShotsAndScenes(t *testing.T) {
	v := wallOf(scenesOf(t), 1000, 600, 4)
	want := `== scene 1
[shot 1] [shot 2… | 1-1A 1-1B 1-2A 1-2B
…shot 2] | 1-2C
== scene 2
[shot 3] | 2-3A 2-3B 2-3C 2-3D
`
	if got := v.layout(); got != want {
		t.Errorf("wall:\n%s\nwant:\n%s", got, want)
	}
	plain := wallOf(filmOf(t, 1, 1, 1, 1, 1), 1000, 600, 3)
	if plain.hasScenes() || plain.hasShots() || len(plain.rows) != 2 {
		t.Errorf("five panels without shots, three in a row: %+v", plain.rows)
	}
	// Only the second scene and a panel of the first are found.
	v.fits, v.only = []bool{1: true, 6: true, 7: true, 8: false}, true
	v.pick()
	want = "== scene 1\n[shot 1] | 1-1B\n== scene 2\n[shot 3] | 2-3B 2-3C\n"
	if got := v.layout(); got != want {
		t.Errorf("narrowed:\n%s\nwant:\n%s", got, want)
	}
}

func TestWallFindsWhatIsUnderThePointer(t *testing.T) {
	for _, perRow := range []float64{3, 7, 16, 40} {
		v := wallOf(scenesOf(t), 1000, 300, perRow)
		s := v.size()
		for pos, i := range v.order {
			v.reveal(i)
			x, y := v.card(pos)
			y -= v.scroll
			if y < 0 || y+s.pic > v.height+s.caption+s.gap {
				t.Errorf("%g a row: card %d is not in sight after reveal: y %g", perRow, i, y)
			}
			if got := v.panelAt(x+s.w/2, y+s.pic/2); got != i {
				t.Errorf("%g a row: under the middle of card %d is %d", perRow, i, got)
			}
			if got := v.panelAt(x+s.w+s.gap/2, y+s.pic/2); got != -1 {
				t.Errorf("%g a row: behind card %d is %d, want none", perRow, i, got)
			}
		}
		if got := v.panelAt(5, v.height-1); got != -1 {
			t.Errorf("%g a row: in the margin is %d", perRow, got)
		}
	}
}

func TestWallCaretStandsWhereCardsLand(t *testing.T) {
	v := wallOf(scenesOf(t), 1000, 900, 4) // rows 0 1 2 3 | 4 || 5 6 7 8
	s := v.size()
	tests := []struct {
		name    string
		card    int     // pointer beside this card
		along   float64 // widths of a card along it
		before  int
		stands  int
		behind  bool
		because string
	}{
		{name: "left half", card: 1, along: 0.3, before: 1, stands: 1},
		{name: "right half of the last in a row", card: 3, along: 0.8, before: 4, stands: 3, behind: true},
		{name: "first of the next row, same shot", card: 4, along: 0.2, before: 4, stands: 4},
		{name: "before a shot: the end of the one before", card: 2, along: 0.1, before: 2, stands: 1, behind: true},
		{name: "before a scene: the end of the one before", card: 5, along: 0.1, before: 5, stands: 4, behind: true},
		{name: "behind the last card of a short row", card: 4, along: 2.5, before: 5, stands: 4, behind: true},
		{name: "behind the film", card: 8, along: 0.9, before: 9, stands: 8, behind: true},
		{name: "before the film", card: 0, along: -0.5, before: 0, stands: 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			x, y := v.card(tt.card)
			got := v.gapAt(x+tt.along*s.w, y+s.pic/2)
			if want := (wallGap{tt.before, tt.stands, tt.behind}); got != want {
				t.Errorf("gapAt = %+v, want %+v", got, want)
			}
		})
	}
}

func TestWallZoomKeepsTheCardUnderThePointer(t *testing.T) {
	b := apply(t, board.New(), board.Insert(0, make([]board.Panel, 1500), 1))
	v := wallOf(b, 1400, 700, 12)
	v.scrollTo(v.end / 2)
	const y = 300.0
	under := func() (x float64, i int, part float64) { // the sixth card of the row there, or its last
		r, _ := v.nearestCards(y + v.scroll)
		k := min(5, r.to-r.from-1)
		return v.size().left + float64(k)*v.size().pitch() + 4, v.order[r.from+k], (y + v.scroll - r.top) / r.height
	}
	for _, factor := range []float64{1.2, 1.2, 0.5, 0.9, 1.3, 0.2, 10, 0.7} {
		before := v.perRow()
		x, i, part := under()
		v.zoomed(factor, x, y, true)
		if n := v.perRow(); n < leastPerRow || n > mostPerRow || n == before {
			t.Errorf("zoomed by %g: %d in a row, before %d", factor, n, before)
		}
		r := v.rows[v.rowOf(i)]
		if got := (y + v.scroll - r.top) / r.height; math.Abs(got-part)*r.height > 1 {
			t.Errorf("zoomed by %g to %d in a row: the pointer is at %.2f of the row of card %d, before at %.2f", factor, v.perRow(), got, i, part)
		}
	}
}

func TestWallWalksByKeys(t *testing.T) {
	v := wallOf(scenesOf(t), 1000, 600, 4) // rows 0 1 2 3 | 4 || 5 6 7 8
	for _, tt := range []struct{ from, rows, along, want int }{
		{from: 1, rows: 1, want: 4}, {from: 4, rows: 1, want: 5}, {from: 8, rows: -1, want: 4},
		{from: 7, rows: -2, want: 2}, {from: 2, rows: -1, want: 2}, {from: 6, rows: 5, want: 6}, {from: 6, rows: -9, want: 1},
		{from: 3, along: 1, want: 4}, {from: 5, along: -1, want: 4}, {from: 8, along: 1, want: 8}, {from: 3, along: -9, want: 0},
	} {
		got := v.beside(tt.from, tt.along)
		if tt.rows != 0 {
			got = v.rowsFrom(tt.from, tt.rows)
		}
		if got != tt.want {
			t.Errorf("from %d by %d rows, %d cards: %d, want %d", tt.from, tt.rows, tt.along, got, tt.want)
		}
	}
	if empty := wallOf(board.New(), 1000, 600, 4); empty.beside(-1, 1) != -1 || empty.rowsFrom(-1, 1) != -1 {
		t.Error("an empty wall has a panel to go to")
	}
}

func TestWallPaintsEveryPixel(t *testing.T) {
	full := scenesOf(t)
	for i := range full.Panels {
		full.Panels[i].Picture = board.MediaID("xx"[:i%3])
		full.Panels[i].Marks = board.Marks{Rig: i%2 == 0, Plate: i%3 == 0}
	}
	for _, b := range []board.Board{board.New(), full} {
		for _, scale := range []float64{1, 1.25, 1.5, 2} {
			for _, perRow := range []float64{3, 9, 40} {
				v := wallOf(b, 801, 417, perRow)
				v.fits = make([]bool, len(b.Panels))
				for _, scroll := range []float64{0, 57, 1e6} {
					v.scrollTo(scroll)
					v.caret = wallGap{before: 1, pos: 0, after: true}
					v.carried = wallCarried{[]int{0}, 790, 400}
					if len(b.Panels) == 0 {
						v.caret, v.carried = noGap, wallCarried{}
					}
					img := image.NewRGBA(image.Rect(0, 0, int(801*scale), int(417*scale)))
					v.paint(img, float64(img.Rect.Dx())/801)
					for i := 3; i < len(img.Pix); i += 4 {
						if img.Pix[i] != 0xff {
							t.Fatalf("%d panels, %g in a row at %g, scrolled to %g: pixel %d, %d is not painted", len(b.Panels), perRow, scale, v.scroll, i/4%img.Rect.Dx(), i/4/img.Rect.Dx())
						}
					}
				}
			}
		}
	}
}

func TestWallAsksOnlyForPicturesInSight(t *testing.T) {
	b := apply(t, board.New(), board.Insert(0, make([]board.Panel, 200), 1))
	for i := range b.Panels {
		b.Panels[i].Picture = board.MediaID(fmt.Sprint(i))
	}
	v := wallOf(b, 1000, 500, 5)
	var asked []string
	name := map[picture.Shot]string{}
	for i := range b.Panels {
		name[v.film.PanelShot(i, 0)] = fmt.Sprint(i)
	}
	v.thumbs.get = func(s picture.Shot, w, h int) *image.RGBA { asked = append(asked, name[s]); return nil }
	v.scrollTo(v.rows[20].top)
	v.paint(image.NewRGBA(image.Rect(0, 0, 1000, 500)), 1)
	inSight := v.inSight()
	var want []string
	for pos := inSight[len(inSight)-1].to - 1; pos >= inSight[0].from; pos-- {
		want = append(want, fmt.Sprint(pos))
	}
	slices.Sort(asked)
	slices.Sort(want)
	if !slices.Equal(asked, want) || len(want) > 25 {
		t.Errorf("asked for %q, in sight are %q", asked, want)
	}
}

func TestStretchedPictureStandsIn(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 2, 2))
	for i, c := range []color.RGBA{{1, 0, 0, 255}, {2, 0, 0, 255}, {3, 0, 0, 255}, {4, 0, 0, 255}} {
		src.SetRGBA(i%2, i/2, c)
	}
	dst := image.NewRGBA(image.Rect(0, 0, 4, 3))
	stretch(dst, image.Rect(-2, -1, 4, 3), src) // its left and upper part is out of sight
	var got [][]byte
	for y := range 3 {
		row := []byte{}
		for x := range 4 {
			row = append(row, dst.RGBAAt(x, y).R)
		}
		got = append(got, row)
	}
	if want := "[[1 2 2 2] [3 4 4 4] [3 4 4 4]]"; fmt.Sprint(got) != want {
		t.Errorf("stretched: %v, want %s", got, want)
	}
}

func TestFindPanels(t *testing.T) {
	b := scenesOf(t)
	words := board.Words{Title: "Steam", Action: "the lid LIFTS", Sound: "hiss", Note: "wire", Size: "CU", Camera: "push in", Marks: board.Marks{Rig: true}}
	b = apply(t, b, board.Write([]int{3}, "words", func(w *board.Words) { *w = words }))
	for _, tt := range []struct {
		typed string
		want  []int
	}{
		{"steam", []int{3}}, {"lifts lid", []int{3}}, {"HISS", []int{3}}, {"wire", []int{3}}, {"push", []int{3}},
		{"rig", []int{3}}, {"2-3", []int{5, 6, 7, 8}}, {"1-2b", []int{3}}, {"the cup", []int{2, 3, 4}},
		{"kitchen", []int{0, 1, 2, 3, 4}}, {"夕", []int{5, 6, 7, 8}}, {"kitchen steam", []int{3}}, {"steam nothing", nil},
		{"steamthe", nil},
	} {
		if got := foundList(findPanels(b, b.Numbers(), tt.typed)); !slices.Equal(got, tt.want) {
			t.Errorf("%q is found on %v, want %v", tt.typed, got, tt.want)
		}
	}
	if findPanels(b, b.Numbers(), "  ") != nil {
		t.Error("spaces are a search")
	}
	fits := []bool{false, true, false, true}
	for _, tt := range []struct{ from, by, want int }{{-1, 1, 1}, {1, 1, 3}, {3, 1, 1}, {1, -1, 3}, {0, -1, 3}, {2, -1, 1}} {
		if got := nextFound(fits, tt.from, tt.by); got != tt.want {
			t.Errorf("from %d by %d: %d, want %d", tt.from, tt.by, got, tt.want)
		}
	}
	if got := nextFound([]bool{false}, 0, 1); got != -1 {
		t.Errorf("nothing fits: %d", got)
	}
}

// TestWallLooks compares a small wall with its picture; with UPDATE_PICTURES=1
// it paints that anew.
func TestWallLooks(t *testing.T) {
	b := filmOf(t, 2, 2, 4, 2, 2, 2, 2)
	b = apply(t, b, board.Open([]int{2}, board.OpensShot), board.Open([]int{5}, board.OpensScene),
		board.SetHeading(0, "Kitchen"), board.SetHeading(2, "The cup"),
		board.SetStart(1, board.Free(0.9)), board.SetStart(3, board.Start{Anchor: board.Anchor{Beat: 7, Part: 1, Of: 2}}),
		board.Write([]int{1}, "words", func(w *board.Words) { w.Title, w.Rig, w.Plate = "Steam rises", true, true }))
	for i := range b.Panels {
		b.Panels[i].Picture = board.MediaID("xxxxx"[:i%6])
	}
	v := wallOf(b, 640, 420, 4)
	v.chosen, v.selected = 1, []int{1, 2}
	v.fits = []bool{true, true, true, false, true, true, true}
	v.caret = v.gapAt(30, 300)
	img := image.NewRGBA(image.Rect(0, 0, 640, 420))
	v.paint(img, 1)
	comparePicture(t, "testdata/wall.png", img)
}

// comparePicture compares a painted picture with one on disk, with a small
// tolerance.
func comparePicture(t *testing.T, path string, got *image.RGBA) {
	t.Helper()
	if os.Getenv("UPDATE_PICTURES") != "" {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, got); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != got.Bounds() {
		t.Fatalf("the picture is %v, want %v", got.Bounds(), want.Bounds())
	}
	other := 0
	for y := range got.Rect.Dy() {
		for x := range got.Rect.Dx() {
			a, b := got.RGBAAt(x, y), color.RGBAModel.Convert(want.At(x, y)).(color.RGBA)
			off := func(p, q byte) bool { return max(p, q)-min(p, q) > 12 }
			if off(a.R, b.R) || off(a.G, b.G) || off(a.B, b.B) {
				other++
			}
		}
	}
	if most := got.Rect.Dx() * got.Rect.Dy() / 1000; other > most {
		t.Errorf("%d pixels are not as in %s, at most %d may be; UPDATE_PICTURES=1 paints it anew", other, path, most)
	}
}
