package picture

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"github.com/go-text/typesetting/font"

	"stillbeat/board"
)

// scripts has a few words in each script that has a font: "where is the salt?"
// or, where the tests' author has no such words, letters of the script.
var scripts = map[string]string{
	"Latin": "Où est le sel ? Đâu là muối? Gdzie jest sól?", "Greek": "Πού είναι το αλάτι;", "Cyrillic": "Где соль? Ї ґ",
	"Arabic": "أين الملح؟", "Hebrew": "איפה המלח?", "Devanagari": "नमक कहाँ है?", "Bengali": "লবণ কোথায়?",
	"Tamil": "உப்பு எங்கே?", "Telugu": "ఉప్పు ఎక్కడ?", "Thai": "เกลืออยู่ที่ไหน", "Armenian": "Որտեղ է աղը", "Georgian": "სად არის მარილი?",
	"Ethiopic": "ጨው የት አለ?", "Gujarati": "મીઠું ક્યાં છે?", "Gurmukhi": "ਲੂਣ ਕਿੱਥੇ ਹੈ?", "Kannada": "ಉಪ್ಪು ಎಲ್ಲಿದೆ?",
	"Malayalam": "ഉപ്പ് എവിടെ?", "Sinhala": "ලුණු කොහෙද?", "Khmer": "អំបិល", "Lao": "ເກືອຢູ່ໃສ", "Myanmar": "ဆားဘယ်မှာလဲ",
	"Chinese": "盐在哪里？鹽在哪裡？", "Japanese": "塩はどこですか。シオ", "Korean": "소금은 어디에 있나요?", "signs": "→ ← ♪ ✓ “—” … €",
}

func TestEveryScriptHasItsLetters(t *testing.T) {
	for name, text := range scripts {
		b := set(text, 100)
		if b.missing || b.lines != 1 || b.wide <= 0 {
			t.Errorf("%s: missing %v, %d lines, %.2f ems", name, b.missing, b.lines, b.wide)
		}
		o := &outline{}
		b.outline(o, pt{100, 75}, 20, 0)
		if _, area := inked(o); area < 40 {
			t.Errorf("%s: %.1f pixels are inked", name, area)
		}
	}
	for _, text := range []string{"\U0001F9C2", "a\U000F0000b"} {
		if !set(text, 100).missing {
			t.Errorf("%q is missing in no font", text)
		}
	}
}

// The widths of letters in the font's own table: the advance of H in Noto Sans
// 2.000 is 741 of 1000 units, of i 258, of a space 260.
func TestAdvances(t *testing.T) {
	for text, want := range map[string]float64{"H": 0.741, "i": 0.258, "H H": 0.741*2 + 0.260} {
		if got := set(text, 100).wide; math.Abs(got-want) > 0.001 {
			t.Errorf("%q is %.4f ems wide, want %.3f", text, got, want)
		}
	}
}

func ids(b block) (out []font.GID) {
	for _, g := range b.glyphs {
		out = append(out, g.id)
	}
	return out
}

// Letters of Arabic take the form their neighbours ask for, and lines of it and
// of Hebrew run from the right.
func TestShapingAndDirection(t *testing.T) {
	alone, twice := ids(set("ب", 9)), ids(set("بب", 9))
	if len(alone) != 1 || len(twice) != 2 || twice[0] == alone[0] || twice[1] == alone[0] || twice[0] == twice[1] {
		t.Errorf("one beh is %v, two are %v: want three forms", alone, twice)
	}
	order := func(text string) (out []float64) {
		for _, g := range set(text, 100).glyphs {
			out = append(out, g.x)
		}
		return out
	}
	if x := order("ab"); x[0] >= x[1] {
		t.Errorf("ab is set at %v", x)
	}
	// Glyphs come from left to right, so the first letter is the last of them.
	hebrew := set("אב", 100)
	last := hebrew.glyphs[len(hebrew.glyphs)-1].id
	if alef := set("א", 100).glyphs[0].id; last != alef {
		t.Errorf("the letter furthest right is %d, want alef, %d", last, alef)
	}
	// Latin within Hebrew runs from the left, and is to the left of what comes
	// before it.
	mixed := set("א ab", 100)
	a, alef := set("a", 100).glyphs[0].id, set("א", 100).glyphs[0].id
	at := func(id font.GID) float64 {
		for _, g := range mixed.glyphs {
			if g.id == id {
				return g.x
			}
		}
		t.Fatalf("glyph %d is not in the line", id)
		return 0
	}
	if at(a) >= at(alef) {
		t.Errorf("a is at %.2f and alef at %.2f", at(a), at(alef))
	}
}

func TestLinesAreBroken(t *testing.T) {
	long := "The spoon slides under the saucer and waits there for the salt"
	for _, wide := range []float64{4, 6.5, 10, 40} {
		b := set(long, wide)
		if b.wide > wide+0.001 {
			t.Errorf("in %g ems a line of %.2f", wide, b.wide)
		}
		if ink := set(long, 1000).wide; float64(b.lines) < math.Ceil(ink/wide) || wide >= ink != (b.lines == 1) {
			t.Errorf("in %g ems %d lines of words that are %.2f ems long", wide, b.lines, ink)
		}
	}
	for text, want := range map[string]int{"": 0, " \n ": 0, "a": 1, "a\nb": 2, "a\n\nb": 3, "a\r\nb": 2, "a\n": 1} {
		if got := set(text, 9).lines; got != want {
			t.Errorf("%q has %d lines, want %d", text, got, want)
		}
	}
	if b := set(strings.Repeat("x", 50), 5); b.wide > 5.001 || b.lines < 5 {
		t.Errorf("a word longer than its line: %d lines of %.2f", b.lines, b.wide)
	}
	if b := set("塩はどこですか塩はどこですか", 5); b.lines < 3 || b.wide > 5.001 {
		t.Errorf("ideographs are set in %d lines of %.2f", b.lines, b.wide)
	}
}

func TestMisfits(t *testing.T) {
	long := strings.Repeat("the spoon slides ", 40)
	at := func(l board.Letter, x, y float64) board.Letter { l.At = board.Point{X: x, Y: y}; return l }
	letter := func(k board.LetterKind, text string) board.Letter { return board.NewLetter(k, text, board.Aspect{}) }
	for _, c := range []struct {
		name             string
		l                board.Letter
		outside, missing bool
	}{
		{"a title", letter(board.TitleCard, "The Salt"), false, false},
		{"a long title", letter(board.TitleCard, long), true, false},
		{"a caption of two lines", letter(board.CaptionCard, strings.Repeat("the spoon ", 7)), false, false},
		{"a caption at the lower edge", at(letter(board.CaptionCard, "spoon"), 0, 0.43), true, false},
		{"a label there", at(letter(board.Label, "spoon"), 0, 0.43), false, false},
		{"a label at the right edge", at(letter(board.Label, "spoon"), 0.85, 0), true, false},
		{"speech", letter(board.Speech, "Is it tea?"), false, false},
		{"much speech", letter(board.Speech, long), true, false},
		{"an arrow beyond the edge", at(letter(board.Arrow, ""), 0.8, 0), false, false},
		{"a character that is in no font", letter(board.Label, "salt \U0001F9C2"), false, true},
		{"no words", letter(board.TitleCard, ""), false, false},
	} {
		p := board.Panel{Drawn: &board.Drawn{Lettering: []board.Letter{c.l}}}
		got := Misfits(p, board.Aspect{})
		if c.outside || c.missing {
			if len(got) != 1 || got[0] != (Misfit{0, c.outside, c.missing}) {
				t.Errorf("%s: %v, want outside %v, missing %v", c.name, got, c.outside, c.missing)
			}
		} else if len(got) != 0 {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// Words take the same lines at any size, and the same part of the picture.
func TestLetteringAtAnySize(t *testing.T) {
	l := board.NewLetter(board.TitleCard, "The spoon slides under the saucer", board.Aspect{})
	l.Back, l.Ink = board.Bare, "000000"
	part := func(w, h int) float64 {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		paintLetter(img, l, board.Aspect{}, lensOf(board.Framing{}, w, h))
		return covered(img) / float64(w*h)
	}
	small, large := part(320, 180), part(1920, 1080)
	if math.Abs(small-large) > 0.01*large {
		t.Errorf("it inks %.5f of a small picture and %.5f of a large one", small, large)
	}
}

func TestLetterBacks(t *testing.T) {
	// Beside the words, within the padding of a plate.
	base := board.NewLetter(board.Label, "HHH", board.Aspect{})
	base.At, base.To = board.Point{}, board.Point{}
	em := base.Em() * 360
	beside := 320 - int(set("HHH", 9).wide*em/2+0.25*em)
	for _, c := range []struct {
		back board.Back
		ink  board.Colour
		want color.RGBA
	}{
		{board.OwnBack, "", Blank}, {board.Plate, "", Blank}, {board.Plate, "ffffff", inkDark},
		{board.Bare, "", Surround}, {board.Outline, "", Surround},
	} {
		img := filled(640, 360, Surround)
		l := base
		l.Back, l.Ink = c.back, c.ink
		paintLetter(img, l, board.Aspect{}, lensOf(board.Framing{}, 640, 360))
		if got := img.RGBAAt(beside, 180); got != c.want {
			t.Errorf("on %q in %q: beside the words is %v, want %v", c.back, c.ink, got, c.want)
		}
	}
}

func TestArrowsPointWhereTheySay(t *testing.T) {
	eye := lensOf(board.Framing{}, 640, 360)
	for _, bend := range []float64{0, 0.2, -0.2} {
		l := board.Letter{Kind: board.Arrow, At: board.Point{X: -0.5}, To: board.Point{X: 1}, Bend: bend, Back: board.Bare, Ink: "000000"}
		slope := math.Hypot(0.5, 2*bend) // the end of a quadratic curve runs from its control point
		img := image.NewRGBA(image.Rect(0, 0, 640, 360))
		paintLetter(img, l, board.Aspect{}, eye)
		if got := img.RGBAAt(320, int(180-bend*360)).A; got != 255 { // to the left of the way is up
			t.Errorf("bend %g: its middle is not inked", bend)
		}
		if img.RGBAAt(141, 180).A == 0 || img.RGBAAt(506, 180).A != 0 || img.RGBAAt(500-int(6*0.5/slope), 180-int(6*2*bend/slope)).A == 0 {
			t.Errorf("bend %g: it does not run from its start to its tip", bend)
		}
	}
	still := image.NewRGBA(image.Rect(0, 0, 64, 36))
	paintLetter(still, board.Letter{Kind: board.Arrow}, board.Aspect{}, lensOf(board.Framing{}, 64, 36))
	if covered(still) != 0 {
		t.Error("an arrow to nowhere is drawn")
	}
}

func FuzzSet(f *testing.F) {
	for _, text := range scripts {
		f.Add(text, 6.0)
	}
	f.Add("a\x00\xffb\u202e\u0301\n\u2029c", 0.1)
	f.Fuzz(func(t *testing.T, text string, wide float64) {
		if len(text) > board.MaxLetters || !(wide > 0.01 && wide < 4000) {
			return
		}
		b := set(text, wide)
		for _, g := range b.glyphs {
			if math.IsNaN(g.x+g.y) || math.Abs(g.x) > 1e5 || math.Abs(g.y) > 1e5 {
				t.Fatalf("%q: a letter at %g, %g", text, g.x, g.y)
			}
		}
		b.outline(&outline{}, pt{}, 20, 1)
	})
}
