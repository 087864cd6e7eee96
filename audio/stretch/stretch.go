// Package stretch plays a sound slower or faster without changing its pitch.
package stretch

import "math"

// Sound is a sound that can be read at any place; clip.Sound has the same
// methods.
type Sound interface {
	Rate() int     // samples per second and channel, Hz
	Channels() int // at least 1
	// Read fills dst, [channel][sample], with the samples from at on, silence
	// outside the sound.
	Read(dst [][]float32, at int)
}

// Slowest and fastest speed.
const (
	MinSpeed = 0.25
	MaxSpeed = 4
)

// Lengths in seconds. A window covers a few periods of the lowest note that
// matters; the search reaches over one period of 50 Hz each way. Common
// practice for the method.
const (
	windowSeconds = 0.04
	reachSeconds  = 0.01
)

// coarse is the step, in samples, of the first search; the best place is then
// looked for sample by sample around it.
const coarse = 6

// Stretcher reads a sound at another speed, from a moment on. It is waveform
// similarity overlap-add (Verhelst and Roelands, ICASSP 1993): windows are
// taken from the sound at the new speed and added at the old one, each shifted
// by a little so that it goes on from the one before as the sound itself does.
//
// Its methods belong to one goroutine, and take no memory once it is made.
type Stretcher struct {
	sound Sound
	speed float64
	hop   int // samples from one window to the next in what is read
	reach int
	fade  []float32 // rising half of the window

	from  float64 // sample of the sound it started at
	hops  int     // finished
	prev  int     // place where the last window was taken
	first bool
	near  [][]float32 // of the sound about the next window, by channel
	want  [][]float32 // how the sound goes on after the last window
	tail  [][]float32 // falling half of the last window
	ready [][]float32 // finished samples
	used  int         // of ready
}

// New makes a stretcher that starts at sample from of a sound, which may lie
// outside it. Speeds beyond MinSpeed and MaxSpeed are brought to them.
func New(sound Sound, from int, speed float64) *Stretcher {
	rate := float64(sound.Rate())
	x := &Stretcher{sound: sound, speed: math.Max(MinSpeed, math.Min(speed, MaxSpeed)),
		hop: int(windowSeconds / 2 * rate), reach: int(reachSeconds * rate),
		from: float64(from), first: true}
	x.fade = make([]float32, x.hop)
	for i := range x.fade {
		x.fade[i] = float32(0.5 - 0.5*math.Cos(math.Pi*(float64(i)+0.5)/float64(x.hop)))
	}
	n := sound.Channels()
	x.near, x.want = buffers(n, 2*x.hop+2*x.reach), buffers(n, x.hop)
	x.tail, x.ready = buffers(n, x.hop), buffers(n, x.hop)
	x.used = x.hop
	return x
}

func buffers(n, length int) [][]float32 {
	out := make([][]float32, n)
	for i := range out {
		out[i] = make([]float32, length)
	}
	return out
}

// Restart goes to sample from of the sound, as a new stretcher would start
// there.
func (x *Stretcher) Restart(from int) {
	x.from, x.hops, x.first, x.used = float64(from), 0, true, x.hop
	for _, t := range x.tail {
		clear(t)
	}
}

// Place returns the sample of the sound that belongs to the next one read.
func (x *Stretcher) Place() float64 {
	return x.from + float64(x.hops*x.hop-x.hop+x.used)*x.speed
}

// Read fills dst, [channel][sample], with the next samples: silence before and
// after the sound, without end.
func (x *Stretcher) Read(dst [][]float32) {
	for done, n := 0, len(dst[0]); done < n; {
		if x.used == x.hop {
			x.next()
		}
		take := min(n-done, x.hop-x.used)
		for ch := range dst {
			copy(dst[ch][done:done+take], x.ready[ch][x.used:])
		}
		done, x.used = done+take, x.used+take
	}
}

// next finishes one hop of samples.
func (x *Stretcher) next() {
	// The middle of the window is where it belongs.
	middle := x.from + float64((x.hops+1)*x.hop)*x.speed
	start := int(math.Round(middle)) - x.hop
	x.sound.Read(x.near, start-x.reach)
	shift := x.reach
	if !x.first {
		x.sound.Read(x.want, x.prev+x.hop)
		if x.speed != 1 {
			shift = x.alike()
		}
	}
	for ch := range x.ready {
		from := x.near[ch][shift:]
		for i, f := range x.fade {
			rise := f
			if x.first { // there is nothing to fade from
				rise = 1
			}
			x.ready[ch][i] = x.tail[ch][i] + rise*from[i]
			x.tail[ch][i] = (1 - f) * from[x.hop+i]
		}
	}
	x.prev, x.first = start-x.reach+shift, false
	x.hops, x.used = x.hops+1, 0
}

// alike returns the place in near from which the sound is most like want.
func (x *Stretcher) alike() int {
	best, most := x.reach, math.Inf(-1)
	try := func(shift, step int) {
		if likeness := x.likeness(shift, step); likeness > most {
			best, most = shift, likeness
		}
	}
	try(x.reach, coarse) // of equals, the place itself
	for shift := 0; shift <= 2*x.reach; shift += coarse {
		try(shift, coarse)
	}
	around := best
	most = math.Inf(-1)
	for shift := max(0, around-coarse+1); shift <= min(2*x.reach, around+coarse-1); shift++ {
		try(shift, 2)
	}
	return best
}

// likeness returns the correlation of want with near from a place on, divided
// by the root of its power, over every step-th sample.
func (x *Stretcher) likeness(shift, step int) float64 {
	var product, power float32
	for ch, want := range x.want {
		near := x.near[ch][shift : shift+x.hop]
		for i := 0; i < len(want); i += step {
			product += want[i] * near[i]
			power += near[i] * near[i]
		}
	}
	return float64(product) / math.Sqrt(float64(power)+1e-9)
}
