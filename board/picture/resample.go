package picture

import (
	"image"
	"image/draw"
	"math"
	"runtime"
	"sync"
)

// box is a part of a picture in pixels, from its upper left corner on, that
// need not lie on whole pixels.
type box struct{ x0, y0, x1, y1 float64 }

// resample returns the part b of src in w x h pixels. Where it becomes smaller
// the light of each pixel is the mean of the light that falls on it; where it
// becomes larger a Catmull-Rom curve runs through the levels. Beyond the edges
// of src its last pixels go on.
func resample(src image.Image, b box, w, h int) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	size := src.Bounds().Size()
	if w <= 0 || h <= 0 || size.X <= 0 || size.Y <= 0 {
		return dst
	}
	across, down := taps(b.x0, b.x1, w, size.X), taps(b.y0, b.y1, h, size.Y)
	r := resampler{src: src, across: across, down: down, dst: dst, opaque: isOpaque(src)}
	if shrinks := b.x1-b.x0 >= float64(w) && b.y1-b.y0 >= float64(h); shrinks {
		r.in, r.out = &toLight, level
	} else {
		r.in, r.out = &plain, plainLevel
	}
	first, last := across[0].from, 0
	for _, t := range across {
		first, last = min(first, t.from), max(last, t.from+len(t.weights))
	}
	r.left, r.width = first, last-first
	inBands(h, rowsAtOnce, func(from, to int) { r.rows(from, to) })
	return dst
}

func isOpaque(img image.Image) bool {
	o, ok := img.(interface{ Opaque() bool })
	return ok && o.Opaque()
}

// inBands calls do for all of 0..n in bands of least at the least, on as many
// goroutines as there are processors.
func inBands(n, least int, do func(from, to int)) {
	workers := min(runtime.GOMAXPROCS(0), max(1, n/least))
	var all sync.WaitGroup
	for i := 1; i < workers; i++ {
		all.Go(func() { do(n*i/workers, n*(i+1)/workers) })
	}
	do(0, n/workers)
	all.Wait()
}

// rowsAtOnce is how many rows are worth a goroutine.
const rowsAtOnce = 16

// tap says which pixels make up one, with weights that add up to 1.
type tap struct {
	from    int
	weights []float32
}

// taps returns what makes up each of n pixels from the stretch a..z of a line
// of size pixels.
func taps(a, z float64, n, size int) []tap {
	out := make([]tap, n)
	step := (z - a) / float64(n)
	for i := range out {
		lo, hi := a+step*float64(i), a+step*float64(i+1)
		if step >= 1 {
			out[i] = meanTap(lo, hi, size)
		} else {
			out[i] = curveTap((lo+hi)/2, size)
		}
	}
	return out
}

// meanTap weighs each pixel by how much of it lies in lo..hi.
func meanTap(lo, hi float64, size int) tap {
	const crumb = 1e-6 // of a pixel: rounding, not picture
	t := tap{from: min(max(int(math.Floor(lo+crumb)), 0), size-1)}
	end := min(max(int(math.Ceil(hi-crumb)), t.from+1), size)
	t.weights = make([]float32, end-t.from)
	var sum float32
	for k := range t.weights {
		at := float64(t.from + k)
		part := float32(max(math.Min(hi, at+1)-math.Max(lo, at), crumb))
		t.weights[k], sum = part, sum+part
	}
	for k := range t.weights {
		t.weights[k] /= sum
	}
	return t
}

// curveTap weighs the four pixels about at by the Catmull-Rom spline (Catmull
// and Rom, Computer Aided Geometric Design, 1974).
func curveTap(at float64, size int) tap {
	at -= 0.5 // pixels have their middles there
	base := int(math.Floor(at))
	u := at - float64(base)
	four := [4]float64{
		u * (-0.5 + u*(1-0.5*u)),
		1 + u*u*(1.5*u-2.5),
		u * (0.5 + u*(2-1.5*u)),
		u * u * (0.5*u - 0.5),
	}
	clamp := func(i int) int { return min(max(i, 0), size-1) }
	t := tap{from: clamp(base - 1)}
	t.weights = make([]float32, clamp(base+2)-t.from+1)
	for k, weight := range four {
		t.weights[clamp(base-1+k)-t.from] += float32(weight)
	}
	return t
}

type resampler struct {
	src          image.Image
	across, down []tap
	left, width  int // of the columns of src that are looked at
	in           *[256]float32
	out          func(float32) uint8
	opaque       bool
	dst          *image.RGBA
}

// rows makes the rows from..to of the new picture. Rows of the old one are
// brought to the new width once each and kept while they are needed.
func (r *resampler) rows(from, to int) {
	most := 0
	for _, t := range r.down[from:to] {
		most = max(most, len(t.weights))
	}
	most++
	n := 4 * len(r.across)
	ring := make([]float32, most*n)
	held := make([]int, most) // which row of src lies where
	for i := range held {
		held[i] = -1
	}
	line := image.NewRGBA(image.Rect(0, 0, r.width, 1))
	sum := make([]float32, n)
	for y := from; y < to; y++ {
		clear(sum)
		for k, weight := range r.down[y].weights {
			sy := r.down[y].from + k
			row := ring[sy%most*n:][:n]
			if held[sy%most] != sy {
				r.narrow(row, line, sy)
				held[sy%most] = sy
			}
			for i, v := range row {
				sum[i] += weight * v
			}
		}
		r.put(r.dst.Pix[y*r.dst.Stride:][:n], sum)
	}
}

// narrow brings row sy of src to the new width: light times alpha, and alpha.
func (r *resampler) narrow(row []float32, line *image.RGBA, sy int) {
	b := r.src.Bounds()
	draw.Draw(line, line.Rect, r.src, image.Pt(b.Min.X+r.left, b.Min.Y+sy), draw.Src)
	in := r.in
	for x, t := range r.across {
		var red, green, blue, alpha float32
		pix := line.Pix[4*(t.from-r.left):]
		pix = pix[:4*len(t.weights)]
		if r.opaque {
			for _, weight := range t.weights {
				red += weight * in[pix[0]]
				green += weight * in[pix[1]]
				blue += weight * in[pix[2]]
				pix = pix[4:]
			}
			alpha = 1
		} else {
			for _, weight := range t.weights {
				if a := uint32(pix[3]); a > 0 {
					part := weight * float32(a) / 255
					red += part * in[min(255, (uint32(pix[0])*255+a/2)/a)]
					green += part * in[min(255, (uint32(pix[1])*255+a/2)/a)]
					blue += part * in[min(255, (uint32(pix[2])*255+a/2)/a)]
					alpha += part
				}
				pix = pix[4:]
			}
		}
		o := row[4*x : 4*x+4 : 4*x+4]
		o[0], o[1], o[2], o[3] = red, green, blue, alpha
	}
}

// put writes one row of pixels.
func (r *resampler) put(pix []uint8, sum []float32) {
	for i := 0; i < len(pix); i += 4 {
		s, p := sum[i:i+4:i+4], pix[i:i+4:i+4]
		if r.opaque {
			p[0], p[1], p[2], p[3] = r.out(s[0]), r.out(s[1]), r.out(s[2]), 255
			continue
		}
		a := min(s[3], 1)
		if a < 1.0/512 {
			p[0], p[1], p[2], p[3] = 0, 0, 0, 0
			continue
		}
		alpha := uint32(a*255 + 0.5)
		for c := range 3 {
			p[c] = uint8((uint32(r.out(s[c]/a))*alpha + 127) / 255)
		}
		p[3] = uint8(alpha)
	}
}
