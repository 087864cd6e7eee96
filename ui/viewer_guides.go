package ui

import (
	"image"

	"stillbeat/board/picture"
)

// paintGuides paints lines and masks for a picture of a size, in units, onto
// img, which is clear where nothing is painted.
func paintGuides(img *image.RGBA, scale float64, g guides) {
	p := pen{img, scale}
	all := picture.Box{W: float64(img.Rect.Dx()) / scale, H: float64(img.Rect.Dy()) / scale}
	in := all
	if ratio := shapeNamed(g.Mask); ratio > 0 {
		in = all.Aspect(ratio)
		// In pixels, so that no line of the picture is left between mask and edge.
		at := image.Rect(p.px(in.X), p.px(in.Y), p.px(in.X+in.W), p.px(in.Y+in.H))
		u := func(px int) float64 { return float64(px) / scale }
		for _, r := range []image.Rectangle{
			{img.Rect.Min, image.Pt(img.Rect.Max.X, at.Min.Y)}, {image.Pt(0, at.Max.Y), img.Rect.Max},
			image.Rect(0, at.Min.Y, at.Min.X, at.Max.Y), image.Rect(at.Max.X, at.Min.Y, img.Rect.Max.X, at.Max.Y),
		} {
			if !r.Empty() {
				p.fill(u(r.Min.X), u(r.Min.Y), u(r.Max.X), u(r.Max.Y), maskVeil)
			}
		}
		p.frame(in.X, in.Y, in.X+in.W, in.Y+in.H, 1/scale, guideLine)
	}
	// Safe areas and thirds are those of what the mask leaves.
	if g.Thirds {
		for _, k := range []float64{1. / 3, 2. / 3} {
			p.guide(in.X+in.W*k, in.Y, in.X+in.W*k, in.Y+in.H, 0)
			p.guide(in.X, in.Y+in.H*k, in.X+in.W, in.Y+in.H*k, 0)
		}
	}
	if g.Action {
		p.guideBox(in.Share(picture.SafeAction), 0)
	}
	if g.Title {
		p.guideBox(in.Share(picture.SafeTitle), 7)
	}
}

// guideBox draws the outline of a box, in dashes of a length or, with 0, as
// one line.
func (p pen) guideBox(b picture.Box, dash float64) {
	p.guide(b.X, b.Y, b.X+b.W, b.Y, dash)
	p.guide(b.X, b.Y+b.H, b.X+b.W, b.Y+b.H, dash)
	p.guide(b.X, b.Y, b.X, b.Y+b.H, dash)
	p.guide(b.X+b.W, b.Y, b.X+b.W, b.Y+b.H, dash)
}

// guide draws a level or upright line that is seen on any picture: light
// within dark.
func (p pen) guide(x0, y0, x1, y1, dash float64) {
	px := 1 / p.scale
	thick := max(1, p.scale) * px
	if dash == 0 {
		dash = max(x1-x0, y1-y0)
	}
	dx, dy := 0., 0.
	if x1 > x0 {
		dx = 1
	} else {
		dy = 1
	}
	for at := 0.; at < max(x1-x0, y1-y0); at += 2 * dash {
		end := min(at+dash, max(x1-x0, y1-y0))
		ax, ay := x0+dx*at-dy*thick/2, y0+dy*at-dx*thick/2
		bx, by := x0+dx*end+dy*thick/2, y0+dy*end+dx*thick/2
		p.fill(ax-px, ay-px, bx+px, by+px, guideEdge)
		p.fill(ax, ay, bx, by, guideLine)
	}
}
