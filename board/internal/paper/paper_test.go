package paper_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"stillbeat/board/internal/paper"
)

// ISO 216: A4 is 210 by 297 mm, 595.28 by 841.89 points; US Letter 8.5 by 11
// inches, 612 by 792 points.
func TestPagesHaveTheirSize(t *testing.T) {
	for _, c := range []struct {
		name string
		size paper.Size
		want string
	}{
		{"A4 upright", paper.A4, "595.28 x 841.89 pts (A4)"},
		{"A4 lying", paper.A4.Landscape(), "841.89 x 595.28 pts (A4)"},
		{"Letter upright", paper.Letter, "612 x 792 pts (letter)"},
		{"Letter lying", paper.Letter.Landscape(), "792 x 612 pts (letter)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := page(c.size)
			d.AddPage()
			info := poppler(t, bytesOf(t, d), "pdfinfo", "FILE")
			for _, want := range []string{c.want, "Pages:           2\n", "Title:           Cup and spoon\n", "Producer:        Stillbeat\n"} {
				if !strings.Contains(info, want) {
					t.Errorf("pdfinfo says\n%swant %q", info, want)
				}
			}
		})
	}
}

func TestPaperIsNamed(t *testing.T) {
	for name, want := range map[string]paper.Size{"a4": paper.A4, "A4": paper.A4, "Letter": paper.Letter} {
		if got, err := paper.SizeNamed(name); err != nil || got != want {
			t.Errorf("%q is %v, %v", name, got, err)
		}
	}
	if _, err := paper.SizeNamed("a3"); err == nil || err.Error() != `"a3" is no paper: it is a4 or letter` {
		t.Errorf("a3: %v", err)
	}
}

// words are lines in the scripts the fonts have.
var words = []string{
	"The cup turns (twice) \\ slowly, 50% of it", "Žluťoučký kůň, naïve café", "Η κούπα γυρίζει", "Чашка поворачивается",
	"الكوب يدور ببطء", "הכוס מסתובבת לאט", "चायदानी धीरे घूमती है", "茶壶慢慢转", "ティーポットが回る", "주전자가 돈다", "กาน้ำชาหมุน", "Թեյնիկ", "ჩაიდანი",
}

func TestTextIsFoundInEveryScript(t *testing.T) {
	d := page(paper.A4)
	for i, w := range words {
		d.Text(20, 20+float64(i)*9, w, paper.Style{Points: 12})
		d.Text(120, 20+float64(i)*9, fmt.Sprint("line ", i), paper.Style{Bold: true})
	}
	text := poppler(t, bytesOf(t, d), "pdftotext", "-enc", "UTF-8", "FILE", "-")
	// Marks of direction and the order of marks on one letter are the reader's.
	plain := regexp.MustCompile(`[\x{200e}\x{200f}\x{202a}-\x{202e}]`).ReplaceAllString(text, "")
	for _, w := range words {
		if !strings.Contains(plain, w) {
			t.Errorf("%q is not in\n%s", w, plain)
		}
	}
}

func TestTheSameCallsMakeTheSameBytes(t *testing.T) {
	make := func() []byte {
		d := page(paper.Letter)
		for i, w := range words {
			d.Text(20, 20+float64(i)*9, w, paper.Style{})
		}
		for i := range 12 { // of one width, which the library does not order
			if err := d.Picture(fmt.Sprint(i), plainPicture(40, 30+i, color.RGBA{uint8(i), 9, 9, 255}), paper.Box{Wide: 10, High: 10}); err != nil {
				t.Fatal(err)
			}
		}
		d.Bookmark(0, "Shot 1", 0)
		return bytesOf(t, d)
	}
	first := make()
	for range 4 {
		if again := make(); !bytes.Equal(first, again) {
			t.Fatal("two documents from the same calls differ")
		}
	}
	if now := time.Now().UTC().Format("D:20060102"); bytes.Contains(first, []byte(now)) {
		t.Error("today's date is in the file")
	}
	if !bytes.Contains(first, []byte("D:20260301120000")) {
		t.Error("the given time is not in the file")
	}
	d := paper.New(paper.A4, "", time.Time{})
	if got := bytesOf(t, d); !bytes.Contains(got, []byte("D:19700101")) {
		t.Error("without a time, the file has one of a clock")
	}
}

func plainPicture(wide, high int, c color.RGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	for i := range wide * high {
		img.SetRGBA(i%wide, i/wide, c)
	}
	return img
}

func TestAPictureIsInTheFileOnce(t *testing.T) {
	red, clear := color.RGBA{200, 0, 0, 255}, color.RGBA{0, 60, 0, 60}
	var asJPEG, asPNG bytes.Buffer
	if err := jpeg.Encode(&asJPEG, plainPicture(33, 20, red), nil); err != nil {
		t.Fatal(err)
	}
	deep := image.NewRGBA64(image.Rect(0, 0, 34, 20))
	if err := png.Encode(&asPNG, deep); err != nil {
		t.Fatal(err)
	}
	d := page(paper.A4)
	at := paper.Box{X: 10, Y: 10, Wide: 30, High: 20}
	for range 3 {
		for _, err := range []error{
			d.Picture("red", plainPicture(32, 20, red), at),
			d.Picture("clear", plainPicture(31, 20, clear), at),
			d.PictureFile("photo", asJPEG.Bytes(), at),
			d.PictureFile("deep", asPNG.Bytes(), at),
		} {
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	if !d.Has("red") || d.Has("blue") {
		t.Error("Has does not tell what is there")
	}
	data := bytesOf(t, d)
	if !bytes.Contains(data, asJPEG.Bytes()) {
		t.Error("the JPEG was written anew")
	}
	list := poppler(t, data, "pdfimages", "-list", "FILE")
	for _, c := range []struct {
		of, kind string
	}{{"31 20", ""}, {"32 20", "jpeg"}, {"33 20", "jpeg"}, {"34 20", ""}} {
		seen := map[string]bool{}
		for _, row := range strings.Split(list, "\n") {
			f := strings.Fields(row)
			if len(f) > 11 && f[3]+" "+f[4] == c.of {
				seen[f[10]] = true
				if c.kind != "" && f[8] != c.kind {
					t.Errorf("a picture of %s is %s, want %s", c.of, f[8], c.kind)
				}
			}
		}
		if len(seen) != 1 {
			t.Errorf("the picture of %s is %d objects, want 1\n%s", c.of, len(seen), list)
		}
	}
}

func TestBadPicturesAreRefusedAndTheRestIsWritten(t *testing.T) {
	d := page(paper.A4)
	for _, data := range []string{"", "no picture", "\xff\xd8\xff", "\x89PNG\r\n\x1a\n"} {
		err := d.PictureFile("cup", []byte(data), paper.Box{Wide: 10, High: 10})
		if err == nil || !strings.HasPrefix(err.Error(), "the picture cup: ") {
			t.Errorf("%q: %v", data, err)
		}
	}
	d.Text(10, 10, "still here", paper.Style{})
	if text := poppler(t, bytesOf(t, d), "pdftotext", "FILE", "-"); !strings.Contains(text, "still here") {
		t.Errorf("the text is %q", text)
	}
}

func TestBookmarksAndNumbersOfPages(t *testing.T) {
	d := page(paper.A4)
	d.Bookmark(0, "Shot 1 \U0001F375 čaj", 10)
	d.Bookmark(3, "Panel 1A", 40) // one below the last
	d.AddPage()
	d.Bookmark(0, "Shot 2", 10)
	d.EachPage(func(n, of int) {
		d.Text(200, 290, fmt.Sprintf("%d/%d", n, of), paper.Style{Points: 8, Align: paper.Right})
	})
	data := bytesOf(t, d)
	for n, want := range map[string]string{"1": "1/2", "2": "2/2"} {
		if text := poppler(t, bytes.Clone(data), "pdftotext", "-f", n, "-l", n, "FILE", "-"); strings.TrimSpace(text) != want {
			t.Errorf("page %s says %q, want %q", n, text, want)
		}
	}
	dir := t.TempDir()
	poppler(t, data, "pdftohtml", "-xml", "-i", "-q", "FILE", filepath.Join(dir, "out"))
	xml, err := os.ReadFile(filepath.Join(dir, "out.xml"))
	if err != nil {
		t.Fatal(err)
	}
	outline := string(xml[bytes.Index(xml, []byte("<outline>")):])
	want := "<outline>\n<item page=\"1\">Shot 1 \U0001F375 čaj</item>\n<outline>\n<item page=\"1\">Panel 1A</item>\n</outline>\n<item page=\"2\">Shot 2</item>\n</outline>"
	if !strings.HasPrefix(outline, want) {
		t.Errorf("the outline is\n%s\nwant\n%s", outline, want)
	}
}
