package mp4

import (
	"context"
	"fmt"
	"math"

	"stillbeat/board/share/guess"
)

// Estimate tells how large the file will be, from some of its pictures. What
// it draws and codes does not grow with the film. With opts.Under it is a film
// of the quality Fine or of the size to keep to, whichever is less.
func Estimate(ctx context.Context, film Film, opts Options) (guess.Size, error) {
	under := opts.Under
	if under > 0 {
		opts.Quality = Fine
	}
	p, err := newPlan(film, opts)
	if err != nil {
		return guess.Size{}, fmt.Errorf("share mp4: %w", err)
	}
	g, err := newSampler(film, p).guess(ctx, p.qp)
	if err != nil {
		return guess.Size{}, fmt.Errorf("share mp4: %w", err)
	}
	around, err := p.aroundPictures()
	if err != nil {
		return guess.Size{}, fmt.Errorf("share mp4: %w", err)
	}
	g.Within += around / 100 // packets of sound differ
	if g.Bytes += around; under > 0 && g.Bytes > under {
		return guess.Size{Bytes: under, Within: under / 10}, nil
	}
	return g, nil
}

// aroundPictures returns how many bytes the file has beside its pictures.
func (p *plan) aroundPictures() (int64, error) {
	var sound *track
	bytes := int64(0)
	if p.audioRate > 0 {
		sound = newTrack(p.layout.packets)
		n := aacPackets(p.audioSamples) // of which the bit rate counts the headers too
		bytes = n*aacFrame*int64(p.audioBits)/8/int64(p.audioRate) - n*adtsHead
	}
	index, err := head(p, newTrack(p.layout.pictures), sound, 0)
	return bytes + int64(len(index)), err
}

// kinds of coded pictures, whose sizes differ.
type kind int

const (
	whole   kind = iota // needs none before it
	moved               // another picture than the one before
	refined             // the same one once more, with what the first pass lost
	kinds
)

// Of a film, so many parts are coded to learn how large it will be, each a key
// picture and up to some pictures after it.
const (
	sampledParts = 16
	sampledAfter = 4
)

// sampler codes parts of a film.
type sampler struct {
	film  Film
	plan  *plan
	kinds []kind  // of each frame that is coded
	parts [][]int // coded frames, one after the other
	drawn *converter
}

func newSampler(film Film, p *plan) *sampler {
	s := &sampler{film: film, plan: p, kinds: make([]kind, len(p.steps)), drawn: newConverter(p.width, p.height)}
	var all [][]int // what is coded from one key picture to the next
	cut := 0
	for n, step := range p.steps {
		isCut := cut < len(film.Cuts) && film.Cuts[cut] == int64(n)
		if isCut {
			cut++
		}
		switch {
		case step == hold:
			continue
		case step == key:
			all = append(all, nil)
		case isCut:
			s.kinds[n] = moved
		default:
			s.kinds[n] = refined
		}
		last := &all[len(all)-1]
		*last = append(*last, n)
	}
	count := min(len(all), sampledParts)
	for i := range count {
		part := all[(2*i+1)*len(all)/(2*count)]
		// A long move is entered at another place in each part.
		if room := len(part) - 1 - sampledAfter; room > 0 {
			part = part[room*i/max(1, count-1):]
		}
		s.parts = append(s.parts, part[:min(len(part), 1+sampledAfter)])
	}
	return s
}

// guess codes the parts with a quantiser and tells how many bytes all pictures
// take with it.
func (s *sampler) guess(ctx context.Context, qp int) (guess.Size, error) {
	var sizes [kinds][]float64
	for _, part := range s.parts {
		if err := s.code(ctx, part, qp, &sizes); err != nil {
			return guess.Size{}, err
		}
	}
	var count [kinds]int
	held := 0.0
	for n, step := range s.plan.steps {
		if step == hold {
			held++
		} else {
			count[s.kinds[n]]++
		}
	}
	again := coder{macroblocks: macroblocks(s.plan.width) * macroblocks(s.plan.height)}
	bytes, spread := held*float64(len(again.held())), 0.0
	for k, n := range count {
		each, variance := guess.Spread(sizes[k], guess.Mean(sizes[whole]))
		bytes += float64(n) * each
		spread += guess.Doubt(n, len(sizes[k]), variance)
	}
	return guess.Size{Bytes: int64(bytes), Within: int64(2*math.Sqrt(spread) + 0.01*bytes)}, nil
}

// code codes one part from a key picture on and enters its sizes. Pictures of
// a move may be entered in its middle: the first is a key picture there too.
func (s *sampler) code(ctx context.Context, part []int, qp int, sizes *[kinds][]float64) error {
	p := *s.plan
	p.qp = qp
	c, err := newCoder(&p)
	if err != nil {
		return err
	}
	defer c.close()
	for i, n := range part {
		if err := ctx.Err(); err != nil {
			return err
		}
		if i == 0 || s.kinds[n] != refined {
			if err := drawInto(ctx, s.drawn, s.film, cutAt(s.film.Cuts, int64(n))); err != nil {
				return err
			}
		}
		sample, err := c.picture(s.drawn.out, i == 0)
		if err != nil {
			return err
		}
		k := s.kinds[n]
		if i == 0 {
			k = whole
		}
		sizes[k] = append(sizes[k], float64(len(sample)))
	}
	return nil
}

// cutAt returns the last cut at frame n or before.
func cutAt(cuts []int64, n int64) int64 {
	at := int64(0)
	for _, c := range cuts {
		if c > n {
			break
		}
		at = c
	}
	return at
}
