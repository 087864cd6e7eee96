package ui

import (
	"encoding/binary"
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

// rgbaOf returns a colour as pixels hold it: a tint in the look that is worn.
func rgbaOf(c color.Color) color.RGBA {
	switch c := c.(type) {
	case tint:
		return c.rgba()
	case color.RGBA:
		return c
	}
	return color.RGBAModel.Convert(c).(color.RGBA)
}

func (p pen) px(v float64) int { return int(math.Round(v * p.scale)) }

// fill paints the rectangle from (x0, y0) to (x1, y1), at least a pixel wide
// and high.
func (p pen) fill(x0, y0, x1, y1 float64, colour color.Color) {
	r := image.Rect(p.px(x0), p.px(y0), max(p.px(x1), p.px(x0)+1), max(p.px(y1), p.px(y0)+1))
	r = r.Intersect(p.img.Rect)
	if r.Empty() {
		return
	}
	c := rgbaOf(colour)
	if c.A == 0xff {
		first := p.img.Pix[p.img.PixOffset(r.Min.X, r.Min.Y):p.img.PixOffset(r.Max.X, r.Min.Y)]
		for i := 0; i < len(first); i += 4 {
			first[i], first[i+1], first[i+2], first[i+3] = c.R, c.G, c.B, c.A
		}
		for y := r.Min.Y + 1; y < r.Max.Y; y++ {
			copy(p.img.Pix[p.img.PixOffset(r.Min.X, y):], first)
		}
		return
	}
	draw.Draw(p.img, r, image.NewUniform(c), image.Point{}, draw.Over)
}

// frame draws a border of width w just inside the rectangle.
func (p pen) frame(x0, y0, x1, y1, w float64, c color.Color) {
	p.fill(x0, y0, x1, y0+w, c)
	p.fill(x0, y1-w, x1, y1, c)
	p.fill(x0, y0, x0+w, y1, c)
	p.fill(x1-w, y0, x1, y1, c)
}

// shape fills a polygon given as x, y pairs, with soft edges.
func (p pen) shape(c color.Color, xy ...float64) {
	minX, minY, maxX, maxY := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := 0; i < len(xy); i += 2 {
		minX, maxX = min(minX, xy[i]), max(maxX, xy[i])
		minY, maxY = min(minY, xy[i+1]), max(maxY, xy[i+1])
	}
	at := image.Rect(int(math.Floor(minX*p.scale)), int(math.Floor(minY*p.scale)),
		int(math.Ceil(maxX*p.scale))+1, int(math.Ceil(maxY*p.scale))+1).Intersect(p.img.Rect)
	if at.Empty() {
		return
	}
	// The rasterizer clips the path, but must not draw beside the picture.
	r := vector.NewRasterizer(at.Dx(), at.Dy())
	for i := 0; i < len(xy); i += 2 {
		x, y := float32(xy[i]*p.scale-float64(at.Min.X)), float32(xy[i+1]*p.scale-float64(at.Min.Y))
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	r.Draw(p.img, at, image.NewUniform(rgbaOf(c)), image.Point{})
}

// disc fills a circle.
func (p pen) disc(x, y, radius float64, c color.Color) {
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
func (p pen) text(x, y, size float64, bold bool, c color.Color, s string) float64 {
	l := lettersOf(size*p.scale, bold)
	return x + l.write(p.img, p.px(x), p.px(y), rgbaOf(c), s)/p.scale
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
	w := 0.0
	for _, r := range s {
		g := l.glyph(r)
		if img != nil && g.mask != nil {
			at := g.mask.Rect.Add(image.Pt(x+int(math.Round(w)), y).Add(g.at))
			stamp(img, at, g.mask, c)
		}
		w += g.advance
	}
	return w
}

// stamp puts the opaque colour c down as thickly as mask says. It mixes two
// channels at once, which is quicker than image/draw.
func stamp(img *image.RGBA, at image.Rectangle, mask *image.Alpha, c color.RGBA) {
	in := at.Intersect(img.Rect)
	full := uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | uint32(c.A)<<24
	rb, ga := full&0xff00ff, full>>8&0xff00ff
	mix := func(old, new, a uint32) uint32 { // of two channels, rounded
		t := old*(255-a) + new*a + 0x800080
		return (t + t>>8&0xff00ff) >> 8 & 0xff00ff
	}
	for y := in.Min.Y; y < in.Max.Y; y++ {
		thick := mask.Pix[(y-at.Min.Y)*mask.Stride+in.Min.X-at.Min.X:]
		row := img.Pix[img.PixOffset(in.Min.X, y):]
		for x := range in.Dx() {
			a := uint32(thick[x])
			if a == 0 {
				continue
			}
			px := row[4*x : 4*x+4]
			old := binary.LittleEndian.Uint32(px)
			binary.LittleEndian.PutUint32(px, mix(old&0xff00ff, rb, a)|mix(old>>8&0xff00ff, ga, a)<<8)
		}
	}
}

// advance returns how far r moves the pen, in pixels.
func (l *letters) advance(r rune) float64 {
	lettersMu.Lock()
	defer lettersMu.Unlock()
	return l.glyph(r).advance
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
