package printed

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

func TestBoardGolden(t *testing.T) {
	for name, o := range map[string]Options{
		"a4.txt":     {Wave: hum},
		"letter.txt": {PerPage: 2, Paper: "letter", Landscape: true},
	} {
		var out strings.Builder
		for _, page := range pages(t, pdfOf(t, teaTable(t), o)) {
			for _, l := range strings.Split(page, "\n") {
				if l = strings.Join(strings.Fields(l), " "); l != "" {
					out.WriteString(l + "\n")
				}
			}
			out.WriteString("--\n")
		}
		golden(t, name, out.String())
	}
}

func TestPaperIsAsAsked(t *testing.T) {
	for _, c := range []struct {
		o    Options
		want string
	}{
		{Options{}, "595.28 x 841.89 pts (A4)"},
		{Options{Landscape: true}, "841.89 x 595.28 pts (A4)"},
		{Options{Paper: "letter"}, "612 x 792 pts (letter)"},
		{Options{Paper: "letter", Landscape: true}, "792 x 612 pts (letter)"},
	} {
		info := poppler(t, pdfOf(t, many(t, 7), c.o), "pdfinfo", "FILE")
		for _, want := range []string{c.want, "Pages:           3\n", "Title:           Many cups\n"} {
			if !strings.Contains(info, want) {
				t.Errorf("%+v: pdfinfo says\n%swant %q", c.o, info, want)
			}
		}
	}
}

var actions = regexp.MustCompile(`action-(\d+)-`)

func TestEveryPanelIsOnOnePageInOrder(t *testing.T) {
	const n = 25
	b := many(t, n)
	for per := 1; per <= MostPerPage; per++ {
		all := pages(t, pdfOf(t, b, Options{PerPage: per, Landscape: per%2 == 0}))
		if want := 1 + (n+per-1)/per; len(all) != want {
			t.Errorf("%d a page: %d pages, want %d", per, len(all), want)
		}
		next := 1
		for k, page := range all {
			if want := fmt.Sprintf("%d/%d", k+1, len(all)); !strings.Contains(page, want) || !strings.Contains(page, "Many cups") {
				t.Errorf("%d a page: page %d lacks the title or its number %s", per, k+1, want)
			}
			for _, m := range actions.FindAllStringSubmatch(page, -1) {
				if got, _ := strconv.Atoi(m[1]); got != next || k != 1+(got-1)/per {
					t.Errorf("%d a page: panel %d is on page %d where %d should be", per, got, k+1, next)
				}
				next++
			}
		}
		if next != n+1 {
			t.Errorf("%d a page: %d panels are printed, want %d", per, next-1, n)
		}
	}
}

var wordBox = regexp.MustCompile(`<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>`)

// Words of any length and script stay within the margins.
func TestNothingIsWrittenOutsideTheMargins(t *testing.T) {
	long := strings.Repeat("teapot", 60)
	b := do(t, teaTable(t), board.SetTitle(long+" "+long), board.Write([]int{0, 1, 2, 3}, "words", func(w *board.Words) {
		w.Title, w.Action, w.Sound = long, strings.Repeat("الكوب يدور ببطء ", 40), strings.Repeat("ティーポットが回る。", 60)
		w.Note, w.Camera, w.Size = strings.Repeat("चायदानी धीरे घूमती है ", 40), long, long
	}), board.SetHeading(0, long), board.SetHeading(2, strings.Repeat("الكوب ", 50)))
	b.Song = &board.Song{Name: long + ".wav", Seconds: 12}
	if err := b.Check(); err != nil {
		t.Fatal(err)
	}
	for _, per := range []int{1, 4, 12} {
		const wide, high, edge = 595.28, 841.89, margin * 72 / 25.4
		boxes := wordBox.FindAllStringSubmatch(poppler(t, pdfOf(t, b, Options{PerPage: per, Wave: hum}), "pdftotext", "-bbox", "FILE", "-"), -1)
		if len(boxes) < 100 {
			t.Fatalf("%d words", len(boxes))
		}
		for _, m := range boxes {
			var at [4]float64
			for k := range at {
				at[k], _ = strconv.ParseFloat(m[k+1], 64)
			}
			if at[0] < edge-1 || at[2] > wide-edge+1 || at[1] < edge-1 || at[3] > high-edge+3 {
				t.Errorf("%d a page: %q lies at %v", per, m[5], at)
			}
		}
	}
}

// pdfimages tells the dots to an inch that a picture is printed with.
func TestPicturesAreSharpAndStoredOnce(t *testing.T) {
	data := pdfOf(t, inPairs(many(t, 8)), Options{PerPage: 4})
	objects := map[string]bool{}
	drawn := 0
	for _, l := range strings.Split(poppler(t, data, "pdfimages", "-list", "FILE"), "\n")[2:] {
		f := strings.Fields(l)
		if len(f) < 14 {
			continue
		}
		drawn++
		objects[f[10]] = true
		for _, at := range []int{12, 13} {
			if dpi, _ := strconv.Atoi(f[at]); dpi < 298 || dpi > 302 {
				t.Errorf("a picture is printed at %d dots to an inch, want 300: %s", dpi, l)
			}
		}
		if f[8] != "jpeg" {
			t.Errorf("a picture is stored as %s", f[8])
		}
	}
	if drawn != 8 || len(objects) != 4 {
		t.Errorf("%d pictures are drawn and %d stored, want 8 and 4", drawn, len(objects))
	}
}

// The film lasts 97 frames, 4.04 s; its song begins half a second in, is cut by
// one second at its beginning and ends with the third.
func TestTheWaveformIsWhatIsHeard(t *testing.T) {
	b := do(t, teaTable(t), board.SlideSong(0.5), board.TrimSong(1, 9), board.SetHold([]int{0}, 24))
	var asked []string
	o := Options{Wave: func(from, to float64, n int) []Peak {
		asked = append(asked, fmt.Sprintf("%.3f to %.3f", from, to))
		return hum(from, to, n)
	}}
	with := pdfOf(t, b, o)
	if got := strings.Join(asked, ", "); got != "1.000 to 3.000" {
		t.Errorf("it asks for the song from %s, want 1.000 to 3.000", got)
	}
	if bytes.Equal(with, pdfOf(t, b, Options{Wave: func(_, _ float64, n int) []Peak { return make([]Peak, n) }})) {
		t.Error("a song that hums looks like silence")
	}
}

func outline(t *testing.T, data []byte) string {
	t.Helper()
	dir := t.TempDir()
	poppler(t, data, "pdftohtml", "-xml", "-i", "-q", "FILE", filepath.Join(dir, "out"))
	xml, err := os.ReadFile(filepath.Join(dir, "out.xml"))
	if err != nil {
		t.Fatal(err)
	}
	_, after, _ := strings.Cut(string(xml), "<outline>")
	var out []string
	for _, m := range regexp.MustCompile(`(</?outline>)|page="(\d+)">(.*?)<`).FindAllStringSubmatch(after, -1) {
		out = append(out, m[1]+m[2]+" "+m[3])
	}
	return strings.Join(out, "|")
}

func TestBookmarks(t *testing.T) {
	got := outline(t, pdfOf(t, teaTable(t), Options{PerPage: 2}))
	want := "2 Scene 1 The table|<outline> |2 Shot 1-1|</outline> |3 Scene 2 The sink|<outline> |3 Shot 2-2|3 Shot 2-3 Close|</outline> |</outline> "
	if got != want {
		t.Errorf("scenes: the outline is\n%s\nwant\n%s", got, want)
	}
	one := do(t, teaTable(t), board.Open([]int{2}, board.OpensShot))
	if got, want := outline(t, pdfOf(t, one, Options{PerPage: 2})), "2 Shot 1 The table|3 Shot 2 The sink|3 Shot 3 Close|</outline> "; got != want {
		t.Errorf("one scene: the outline is\n%s\nwant\n%s", got, want)
	}
}

func TestTheSameFilmMakesTheSameBoard(t *testing.T) {
	b := teaTable(t)
	first := pdfOf(t, b, Options{PerPage: 12, Wave: hum})
	if !bytes.Equal(first, pdfOf(t, b, Options{PerPage: 12, Wave: hum})) {
		t.Error("two boards of one film differ")
	}
}

func TestProgressAndCancelling(t *testing.T) {
	var told []float64
	pdfOf(t, many(t, 4), Options{Progress: func(done float64) { told = append(told, done) }})
	if fmt.Sprint(told) != "[0.25 0.5 0.75 1]" {
		t.Errorf("it tells %v", told)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cards := 0
	var out bytes.Buffer
	err := Board(ctx, &out, many(t, 20), picture.NewCache(rings{}, 0), Options{Progress: func(float64) {
		if cards++; cards == 3 {
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) || cards != 3 || out.Len() > 0 {
		t.Errorf("cancelled at the third card: %v after %d cards, %d bytes", err, cards, out.Len())
	}
}

func TestWhatCannotBePrinted(t *testing.T) {
	lost := many(t, 3)
	lost.Panels[1].Picture = "gone"
	for _, c := range []struct {
		name string
		b    board.Board
		o    Options
		is   error
		want string
	}{
		{"no panels", board.New(), Options{}, ErrEmpty, "the film has no panels to print"},
		{"too many a page", many(t, 1), Options{PerPage: 13}, nil, "13 panels on a page: it takes 1 to 12"},
		{"fewer than none", many(t, 1), Options{PerPage: -1}, nil, "-1 panels on a page: it takes 1 to 12"},
		{"another paper", many(t, 1), Options{Paper: "a3"}, nil, `"a3" is no paper: it is a4 or letter`},
		{"a picture that is gone", lost, Options{}, fs.ErrNotExist, "panel 2: "},
	} {
		var out bytes.Buffer
		err := Board(context.Background(), &out, c.b, picture.NewCache(rings{}, 0), c.o)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || c.is != nil && !errors.Is(err, c.is) || out.Len() > 0 {
			t.Errorf("%s: %v, %d bytes; want %s", c.name, err, out.Len(), c.want)
		}
	}
}

// 100 panels with pictures of their own, six to a page.
func BenchmarkBoard(b *testing.B) {
	film := many(b, 100)
	for i := range film.Panels {
		film.Panels[i].Picture = ring(i)
		if _, err := (rings{}).Media(ring(i)); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		pdfOf(b, film, Options{Wave: hum})
	}
}

func Example() {
	b, _ := board.Paste(0, []board.Panel{{Words: board.Words{Action: "The cup turns"}}}, []board.Frame{48}).Apply(board.New())
	var out bytes.Buffer
	err := Board(context.Background(), &out, b, picture.NewCache(nil, 0), Options{PerPage: 4, Landscape: true})
	fmt.Println(out.String()[:5], err)
	// Output: %PDF- <nil>
}
