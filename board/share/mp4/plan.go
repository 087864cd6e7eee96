package mp4

import (
	"errors"
	"fmt"
	"math"
)

// step is what one frame of the film costs.
type step uint8

const (
	hold  step = iota // the picture before, once more
	coded             // a picture coded as a change from the one before
	key               // a picture that needs none before it
)

// Seconds that decide where key pictures stand. A picture after a hold of
// panelHold is taken as a new panel. In movement a key picture comes every
// movingKey, in a hold every heldKey, so that a player can jump.
const (
	panelHold = 0.5
	movingKey = 2.0
	heldKey   = 10.0
)

// plan is all that is known of a file before a picture is drawn.
type plan struct {
	width, height int    // pixels, even
	qp            int    // quantiser
	level         int    // ten times the AVC level
	timescale     uint32 // ticks per second of film and of the picture track
	tick          uint32 // ticks per frame
	steps         []step // one per frame
	layout        layout
	audioRate     int   // Hz, 0 for a silent film
	audioSamples  int64 // samples that cover the film
	audioBits     int   // bits per second of sound
	large         bool  // the file may outgrow 32-bit positions
}

// ticks returns the length of the film.
func (p *plan) ticks() uint64 { return uint64(len(p.steps)) * uint64(p.tick) }

// qp returns the quantiser of a quality.
func (q Quality) qp() (int, error) {
	switch q {
	case Standard:
		return 26, nil
	case Small:
		return 34, nil
	case Fine:
		return 18, nil
	}
	return 0, fmt.Errorf("quality %d is not one of the three", q)
}

// newPlan checks the film and lays it out.
func newPlan(film Film, opts Options) (*plan, error) {
	qp, err := opts.Quality.qp()
	if err != nil {
		return nil, err
	}
	num, den, err := film.clock()
	if err != nil {
		return nil, err
	}
	if film.Width < 16 || film.Height < 16 {
		return nil, fmt.Errorf("a picture of %dx%d is too small; 16 is the least", film.Width, film.Height)
	}
	level, err := levelFor(film.Width, film.Height, num, den, 0)
	if err != nil {
		return nil, err
	}
	if film.Picture == nil {
		return nil, errors.New("there is no picture to draw")
	}
	if err := checkCuts(film.Cuts, film.Frames); err != nil {
		return nil, err
	}
	p := &plan{
		width: film.Width + film.Width%2, height: film.Height + film.Height%2,
		qp: qp, level: level, timescale: uint32(num), tick: uint32(den),
		steps: planSteps(film.Cuts, film.Frames, float64(num)/float64(den)),
	}
	if film.Sound != nil {
		if err := film.Sound.check(); err != nil {
			return nil, err
		}
		p.audioRate, p.audioBits = film.Sound.codedRate(), aacBitRate
		p.audioSamples = samplesIn(film.Frames*den, num, p.audioRate)
	}
	p.layout = planLayout(p)
	p.large = p.needsLarge()
	return p, nil
}

// maxHours is how long a film may be. A longer one is a mistake.
const maxHours = 12

// clock returns the timescale and the ticks of a frame, so that every frame
// lasts a whole number of ticks and the film fewer than 1<<32.
func (f Film) clock() (num, den int64, err error) {
	n, d := f.Num, f.Den
	if d < 1 || n < d || n/d > 240 || n/d == 240 && n%d > 0 {
		return 0, 0, fmt.Errorf("a rate of %d/%d is not between 1 and 240 frames per second", n, d)
	}
	g := gcd(n, d)
	num, den = n/g, d/g
	if num < 1000 { // a timescale of 24 would be legal, but coarse for players that seek in it
		num, den = num*1000, den*1000
	}
	switch {
	case f.Frames < 1:
		return 0, 0, fmt.Errorf("a film of %d frames has nothing to write", f.Frames)
	case f.Frames > maxHours*3600*(n/d+1), f.Frames > math.MaxUint32/den, num > math.MaxInt32:
		return 0, 0, fmt.Errorf("%d frames at %d/%d are too long for one file", f.Frames, n, d)
	}
	return num, den, nil
}

// checkCuts tells why a list of cuts makes no sense, or nil.
func checkCuts(cuts []int64, frames int64) error {
	if len(cuts) == 0 || cuts[0] != 0 {
		return errors.New("the first picture must stand at frame 0")
	}
	for i, c := range cuts {
		if i > 0 && c <= cuts[i-1] {
			return fmt.Errorf("the cut at frame %d does not follow the one at %d", c, cuts[i-1])
		}
		if c >= frames {
			return fmt.Errorf("the cut at frame %d lies after the film's last frame, %d", c, frames-1)
		}
	}
	return nil
}

// planSteps decides for every frame how it is coded.
func planSteps(cuts []int64, frames int64, fps float64) []step {
	panel := max(1, int64(math.Round(panelHold*fps)))
	moving := int64(math.Round(movingKey * fps))
	held := int64(math.Round(heldKey * fps))
	steps := make([]step, frames)
	lastKey := int64(0)
	for i, cut := range cuts {
		end := frames
		if i+1 < len(cuts) {
			end = cuts[i+1]
		}
		steps[cut] = coded
		if i == 0 || cut-cuts[i-1] >= panel || cut-lastKey >= moving {
			steps[cut], lastKey = key, cut
		}
		for n := cut + 1; n < end; n++ {
			if n-lastKey >= held {
				steps[n], lastKey = key, n
			} else if steps[n-1] == key || n == cut+1 {
				steps[n] = coded // what the first pass lost; a third finds nothing left
			}
		}
	}
	return steps
}

// samplesIn returns how many samples at rate cover ticks/timescale seconds.
func samplesIn(ticks, timescale int64, rate int) int64 {
	whole, rest := ticks/timescale, ticks%timescale
	return whole*int64(rate) + (rest*int64(rate)+timescale-1)/timescale
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
