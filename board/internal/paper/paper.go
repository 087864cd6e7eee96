// Package paper makes the program's PDF files: pages measured in millimetres
// from their upper left corner, with text in any script, lines, tints and
// pictures. The same calls make the same bytes.
package paper

import (
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-text/typesetting/font"
	"golang.org/x/text/encoding/unicode"

	"stillbeat/assets/fonts"
	"stillbeat/board/internal/letters"
)

// Size is the size of a page in millimetres.
type Size struct{ Wide, High float64 }

// The sizes of paper, upright (ISO 216; US Letter is 8.5 by 11 inches).
var (
	A4     = Size{210, 297}
	Letter = Size{215.9, 279.4}
)

// SizeNamed returns the size called "a4" or "letter", upright.
func SizeNamed(name string) (Size, error) {
	switch strings.ToLower(name) {
	case "a4":
		return A4, nil
	case "letter":
		return Letter, nil
	}
	return Size{}, fmt.Errorf("%.40q is no paper: it is a4 or letter", name)
}

// Landscape returns the size lying on its long side.
func (s Size) Landscape() Size { return Size{max(s.Wide, s.High), min(s.Wide, s.High)} }

// mm is points to a millimetre.
const mm = 72 / 25.4

// Doc is a PDF in the making. It is for one goroutine at a time. What goes
// wrong on the way is told by WriteTo.
type Doc struct {
	Size Size

	pdf      *fpdf.Fpdf
	points   float64 // size of letters the page is set to, 0: not set
	bookmark int     // level of the last one
	pictures map[string]bool
	set      map[string]setLine // lines that need shaping, by their text
	shapes   map[shapeOf]string // outlines of letters
	faces    map[*font.Font]*font.Face
}

// New begins a document. Its title is shown by programs that read it; made is
// the time it says it was made, and no other clock is asked.
func New(size Size, title string, made time.Time) *Doc {
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: size.Wide, Ht: size.High}})
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCompression(true)
	pdf.SetCatalogSort(true)
	pdf.SetProducer("Stillbeat", false)
	// UTF-16 by our own hand: the library's has no letters beyond 16 bits.
	if utf16, err := unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().String(line(title)); err == nil {
		pdf.SetTitle(utf16, false)
	}
	if made.Unix() == 0 || made.IsZero() { // the library takes no time for "now"
		made = time.Unix(1, 0)
	}
	pdf.SetCreationDate(made.UTC())
	pdf.SetModificationDate(made.UTC())
	data, err := fonts.Files.ReadFile(fonts.Usual)
	if err != nil {
		panic(err) // it is embedded
	}
	pdf.AddUTF8FontFromBytes(family, "", data)
	return &Doc{
		Size: size, pdf: pdf, bookmark: -1,
		pictures: map[string]bool{}, set: map[string]setLine{}, shapes: map[shapeOf]string{},
		faces: map[*font.Font]*font.Face{letters.Load(fonts.Usual): font.NewFace(letters.Load(fonts.Usual))},
	}
}

// family is what the library calls the usual font.
const family = "usual"

// AddPage begins the next page; what is drawn goes there.
func (d *Doc) AddPage() {
	d.pdf.AddPage()
	d.pdf.SetFont(family, "", 10)
	d.points = 10
}

// Pages returns the number of pages so far.
func (d *Doc) Pages() int { return d.pdf.PageCount() }

// EachPage goes back to each page to draw what needs their number, such as
// "page n of all". Pages count from 1. Nothing may be added but on them.
func (d *Doc) EachPage(draw func(page, of int)) {
	of := d.Pages()
	for n := 1; n <= of; n++ {
		d.pdf.SetPage(n)
		d.pdf.SetFont(family, "", 10)
		d.points = 10
		draw(n, of)
	}
}

// Bookmark lets the document's outline lead to y on this page. Level 0 is the
// top; a level that leaves one out is drawn up to the one below the last.
func (d *Doc) Bookmark(level int, text string, y float64) {
	d.bookmark = min(max(level, 0), d.bookmark+1)
	d.pdf.Bookmark(twoParts(line(text)), d.bookmark, y)
}

// twoParts writes letters beyond 16 bits as the two halves UTF-16 gives them,
// each in UTF-8, which the library puts together right.
func twoParts(text string) string {
	var b strings.Builder
	for _, r := range text {
		if r <= 0xffff {
			b.WriteRune(r)
			continue
		}
		v := r - 0x10000
		for _, half := range []rune{0xd800 + v>>10, 0xdc00 + v&0x3ff} {
			b.Write([]byte{0xe0 | byte(half>>12), 0x80 | byte(half>>6&0x3f), 0x80 | byte(half&0x3f)})
		}
	}
	return b.String()
}

// WriteTo ends the document and writes it. The errors of everything before are
// told here, and nothing is written then.
func (d *Doc) WriteTo(w io.Writer) (int64, error) {
	d.pdf.Close()
	if err := d.pdf.Error(); err != nil {
		return 0, fmt.Errorf("the PDF could not be made: %w", err)
	}
	out := &counter{to: w}
	err := d.pdf.Output(out)
	return out.n, err
}

// counter counts what passes through.
type counter struct {
	to io.Writer
	n  int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.to.Write(p)
	c.n += int64(n)
	return n, err
}
