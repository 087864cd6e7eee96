package check

import (
	"context"
	"image"

	"stillbeat/board"
)

// FlashOptions says what Flashes is to look at.
type FlashOptions struct {
	Rate     board.FrameRate
	Length   board.Frame
	Changes  []board.Frame      // the frames, ascending from 0, at which another picture comes up; nil: all
	Loop     bool               // the film is shown over and over
	Progress func(done float64) // told the part done, 0 to 1; may be nil
}

// Flashes screens a film for flashing that may set off seizures, by the rules of
// WCAG 2.2 (2.3.1, three flashes) and two others as a second opinion. It is a
// screening, not a certification.
//
// frames gives the picture that comes up at a frame; it is asked for the frames
// in Changes alone, in their order (again from the start with Loop), and all must
// have one size. Each pixel is a place of its own: it is followed through its
// ups and downs, and what changes there is counted in each second, a half-open
// window of as many frames as the rate says. Seven changes are one too many.
//
// The area rule is applied as if the picture filled a screen of 1024 x 768
// pixels as far as its shape allows: the places with seven changes or more in
// one second must not take more than a quarter of any field of 341 x 256, which
// is scaled to the pixels given. Patterns finer than a pixel are evened out in
// drawing: draw with SizeFor, where a pixel is 0.16 degrees, and what is
// exempt for being finer than 0.1 degrees does not count, nor does a balanced pattern
// up to 0.16.
//
// It returns the first error of frames, and that of ctx when it ends.
func Flashes(ctx context.Context, frames func(n board.Frame) (*image.RGBA, error), o FlashOptions) (Flashing, error) {
	if o.Length <= 0 {
		return Flashing{}, nil
	}
	a := analyser{rate: o.Rate, length: o.Length}
	last := o.Length // past what is looked at
	if o.Loop {
		last += board.Frame(o.Rate.Nominal()) + 1
	}
	for from := board.Frame(0); from < last; from += o.Length {
		for k := board.Frame(0); ; k++ {
			n := k
			if o.Changes != nil {
				if int(k) == len(o.Changes) {
					break
				}
				n = o.Changes[k]
			}
			if n >= o.Length || from+n >= last {
				break
			}
			if err := ctx.Err(); err != nil {
				return Flashing{}, err
			}
			img, err := frames(n)
			if err != nil {
				return Flashing{}, err
			}
			if err := a.show(from+n, img); err != nil {
				return Flashing{}, err
			}
			if o.Progress != nil {
				o.Progress(float64(from+n+1) / float64(last))
			}
		}
	}
	if o.Progress != nil {
		o.Progress(1)
	}
	return a.found(), nil
}

// analyser follows a film frame by frame.
type analyser struct {
	rate   board.FrameRate
	length board.Frame
	size   image.Point
	pixels []uint32 // of the frame before
	places []place
	ruled  [rules]ruling
}

// place is what is known of one pixel.
type place struct {
	light, screen, oldRed swing
	red                   redSwing
}

// ruling is what one rule has found so far.
type ruling struct {
	tally  *tally
	now    []int32 // places that change at this frame
	runs   []Flash
	steady []board.Span // each second in which has keptUpChanges or more
	most   int
}

// begin sets everything to the first frame.
func (a *analyser) begin(img *image.RGBA) {
	a.size = img.Rect.Size()
	a.pixels, a.places = make([]uint32, a.size.X*a.size.Y), make([]place, a.size.X*a.size.Y)
	field := fieldOf(a.size)
	together := func(from, to board.Frame) bool { return int64(to-from)*a.rate.Den < a.rate.Num }
	for r := range a.ruled {
		a.ruled[r].tally = newTally(a.size, field, together)
	}
	a.eachPixel(img, func(i int, p uint32) {
		a.pixels[i] = p
		c := colourOf(p)
		a.places[i] = place{
			light:  swing{from: c.light, to: c.light},
			screen: swing{from: c.screen, to: c.screen},
			oldRed: swing{from: c.redness, to: c.redness, fromRed: c.red, red: c.red},
			red:    redSwing{c.chroma, c.red},
		}
	})
}

// show takes the picture that comes up at frame n.
func (a *analyser) show(n board.Frame, img *image.RGBA) error {
	if a.places == nil {
		a.begin(img)
		return nil
	}
	if got := img.Rect.Size(); got != a.size {
		return sizeError(n, got, a.size)
	}
	a.eachPixel(img, func(i int, p uint32) {
		if p == a.pixels[i] {
			return
		}
		a.pixels[i] = p
		c, s := colourOf(p), &a.places[i]
		for r, changed := range [rules]bool{
			General: s.light.light(c.light), Red: s.red.step(c.chroma, c.red),
			Television: s.screen.screenLight(c.screen), OldRed: s.oldRed.oldRed(c.redness, c.red),
		} {
			if changed {
				a.ruled[r].now = append(a.ruled[r].now, int32(i))
			}
		}
	})
	for r := range a.ruled {
		a.ruled[r].judge(Rule(r), n)
	}
	return nil
}

// eachPixel calls do for every pixel of a picture.
func (a *analyser) eachPixel(img *image.RGBA, do func(i int, p uint32)) {
	i := 0
	for y := range a.size.Y {
		row := img.Pix[y*img.Stride:][:4*a.size.X]
		for ; len(row) >= 4; row = row[4:] {
			do(i, uint32(row[0])<<16|uint32(row[1])<<8|uint32(row[2]))
			i++
		}
	}
}

// colour is what the rules see in a pixel.
type colour struct {
	light, screen, redness float32
	chroma                 chroma
	red                    bool
}

func colourOf(p uint32) colour {
	r, g, b := p>>16, p>>8&0xff, p&0xff
	lr, lg, lb := linear[r], linear[g], linear[b]
	return colour{
		light:   luminance(lr, lg, lb),
		screen:  screenPeak * luminance(screen[r], screen[g], screen[b]),
		redness: redness(lr, lg, lb),
		chroma:  chromaOf(lr, lg, lb),
		red:     saturated(lr, lg, lb),
	}
}
