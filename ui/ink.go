package ui

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"

	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// pen draws on a picture in the window's units; scale is pixels per unit.
type pen struct {
	img   *image.RGBA
	scale float64
}

func (p pen) px(v float64) int { return int(math.Round(v * p.scale)) }

// fill paints the rectangle from (x0, y0) to (x1, y1), at least a pixel wide
// and high.
func (p pen) fill(x0, y0, x1, y1 float64, c color.RGBA) {
	r := image.Rect(p.px(x0), p.px(y0), max(p.px(x1), p.px(x0)+1), max(p.px(y1), p.px(y0)+1))
	r = r.Intersect(p.img.Rect)
	if r.Empty() {
		return
	}
	if c.A == 0xff {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			row := p.img.Pix[p.img.PixOffset(r.Min.X, y):p.img.PixOffset(r.Max.X, y)]
			for i := 0; i < len(row); i += 4 {
				row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, c.A
			}
		}
		return
	}
	draw.Draw(p.img, r, image.NewUniform(c), image.Point{}, draw.Over)
}

// frame draws a border of width w just inside the rectangle.
func (p pen) frame(x0, y0, x1, y1, w float64, c color.RGBA) {
	p.fill(x0, y0, x1, y0+w, c)
	p.fill(x0, y1-w, x1, y1, c)
	p.fill(x0, y0, x0+w, y1, c)
	p.fill(x1-w, y0, x1, y1, c)
}

// shape fills a polygon given as x, y pairs, with soft edges.
func (p pen) shape(c color.RGBA, xy ...float64) {
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := 0; i < len(xy); i += 2 {
		minX, maxX = min(minX, xy[i]), max(maxX, xy[i])
		minY, maxY = min(minY, xy[i+1]), max(maxY, xy[i+1])
	}
	ox, oy := math.Floor(minX*p.scale), math.Floor(minY*p.scale)
	w, h := int(math.Ceil(maxX*p.scale)-ox)+1, int(math.Ceil(maxY*p.scale)-oy)+1
	at := image.Rect(int(ox), int(oy), int(ox)+w, int(oy)+h)
	if !at.Overlaps(p.img.Rect) {
		return
	}
	r := vector.NewRasterizer(w, h)
	for i := 0; i < len(xy); i += 2 {
		x, y := float32(xy[i]*p.scale-ox), float32(xy[i+1]*p.scale-oy)
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	r.Draw(p.img, at, image.NewUniform(c), image.Point{})
}

// disc fills a circle.
func (p pen) disc(x, y, radius float64, c color.RGBA) {
	const n = 20
	xy := make([]float64, 0, 2*n)
	for i := range n {
		a := 2 * math.Pi * float64(i) / n
		xy = append(xy, x+radius*math.Cos(a), y+radius*math.Sin(a))
	}
	p.shape(c, xy...)
}

// picture copies src, which is in pixels and w units wide, to (x, y); where
// it does not fit before x1 its middle is shown.
func (p pen) picture(src *image.RGBA, x, y, x1, w float64) {
	r := image.Rect(p.px(x), p.px(y), p.px(x1), p.px(y)+src.Rect.Dy())
	r.Max.X = min(r.Max.X, r.Min.X+src.Rect.Dx())
	from := image.Pt(p.px(max(0, w-(x1-x))/2), 0)
	draw.Draw(p.img, r, src, from, draw.Src)
}

// text writes s with its baseline at (x, y), size units high, and returns the
// x after it.
func (p pen) text(x, y, size float64, bold bool, c color.RGBA, s string) float64 {
	l := lettersOf(size*p.scale, bold)
	return x + l.write(p.img, p.px(x), p.px(y), c, s)/p.scale
}

// width returns how wide text would write s.
func (p pen) width(size float64, bold bool, s string) float64 {
	return lettersOf(size*p.scale, bold).write(nil, 0, 0, color.RGBA{}, s) / p.scale
}

// letters keeps the drawn glyphs of a font at one pixel size: figures and
// short labels are drawn by the hundred each time the timeline moves.
type letters struct {
	face   font.Face
	glyphs map[rune]glyph
}

type glyph struct {
	mask    *image.Alpha
	at      image.Point // of the mask from the pen's place
	advance float64
}

type lettersKey struct {
	px   int // quarter pixels
	bold bool
}

var (
	lettersMu    sync.Mutex
	lettersCache = map[lettersKey]*letters{}
	parsedFonts  = map[bool]*opentype.Font{}
)

func lettersOf(px float64, bold bool) *letters {
	lettersMu.Lock()
	defer lettersMu.Unlock()
	key := lettersKey{int(math.Round(px * 4)), bold}
	if l := lettersCache[key]; l != nil {
		return l
	}
	f := parsedFonts[bold]
	if f == nil {
		data := theme.DefaultTextFont().Content()
		if bold {
			data = theme.DefaultTextBoldFont().Content()
		}
		var err error
		if f, err = opentype.Parse(data); err != nil {
			panic("the built-in font cannot be read: " + err.Error())
		}
		parsedFonts[bold] = f
	}
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: float64(key.px) / 4, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		panic("the built-in font cannot be sized: " + err.Error())
	}
	l := &letters{face, map[rune]glyph{}}
	lettersCache[key] = l
	return l
}

// write draws s with its baseline at (x, y) on img, if any, and returns its
// width in pixels.
func (l *letters) write(img *image.RGBA, x, y int, c color.RGBA, s string) float64 {
	lettersMu.Lock()
	defer lettersMu.Unlock()
	src := image.NewUniform(c)
	w := 0.0
	for _, r := range s {
		g := l.glyph(r)
		if img != nil && g.mask != nil {
			at := g.mask.Rect.Add(image.Pt(x+int(math.Round(w)), y).Add(g.at))
			draw.DrawMask(img, at, src, image.Point{}, g.mask, image.Point{}, draw.Over)
		}
		w += g.advance
	}
	return w
}

func (l *letters) glyph(r rune) glyph {
	if g, ok := l.glyphs[r]; ok {
		return g
	}
	var g glyph
	box, mask, maskAt, advance, ok := l.face.Glyph(fixed.Point26_6{}, r)
	if ok {
		g.advance = float64(advance) / 64
		g.mask = image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
		draw.Draw(g.mask, g.mask.Rect, mask, maskAt, draw.Src)
		g.at = box.Min
	}
	l.glyphs[r] = g
	return g
}
