package motion

import (
	"fmt"
	"math"

	"stillbeat/board"
)

// course is a move before it is laid on exposures: what happens one after the
// other. Event i is where phase i begins, the last one where all is over.
type course struct {
	phases  []phase
	begins  string // what event 0 is
	loose   bool   // event 0 may fall between exposures
	moments []int  // the event of each moment that can be hit
	done    int    // the event that has to lie in the move's panels; what follows is swinging out
	upright bool   // its measure is the height
	unfit   string // why the path does not suit the manner; it stays where it is
}

// phase is a part of a course that is spaced in one way.
type phase struct {
	seconds float64 // its own time
	share   float64 // of a spacing: its share of the frames that are left
	ends    string  // what happens at its end; nothing is not told
	shown   bool    // its end is to be seen on an exposure
	at      func(u float64) (spot board.Spot, along float64)
}

// newCourse returns the course of a move that keeps the rules of the board.
// exposure is the length of a usual exposure in seconds.
func newCourse(m board.ObjectMove, exposure float64) course {
	switch m.Manner {
	case board.Falling:
		return falling(m)
	case board.Bouncing:
		return bouncing(m, exposure)
	case board.Jumping:
		return jumping(m)
	case board.Swinging:
		return swinging(m)
	case board.Toppling:
		return toppling(m)
	case board.Settling:
		return settling(m)
	}
	return spaced(m)
}

// still is the course of a move that cannot be made.
func still(m board.ObjectMove, why string) course {
	return course{unfit: why, moments: []int{0, 1}, done: 1, phases: []phase{{
		at: func(float64) (board.Spot, float64) { return m.Keys[0], 0 }}}}
}

// spaced is the course of a spacing: from timed key to timed key, those between
// passed at the speed of the others.
func spaced(m board.ObjectMove) course {
	w := newWay(m.Keys)
	timed := map[int]bool{0: true, len(m.Keys) - 1: true}
	for _, h := range m.Hits {
		timed[h.Moment] = true
	}
	c := course{begins: "sets off", moments: make([]int, len(m.Keys))}
	from := 0.0
	if m.Anticipate > 0 {
		from = -m.Anticipate * w.length()
		c.begins = "anticipates"
		c.phases = append(c.phases, phase{seconds: or(m.Ready, usualReady), ends: "sets off", shown: true, at: along(w, 0, from, board.SlowingBoth)})
	}
	c.moments[0] = len(c.phases)
	for k := 1; k < len(m.Keys); k++ {
		c.moments[k] = math.MaxInt // passed, never hit
		if !timed[k] {
			continue
		}
		// A stretch without a length is a hold; it has as much time as one of a mm.
		c.phases = append(c.phases, phase{share: max(1, w.until[k]-from), ends: keyName(k, len(m.Keys)), shown: true, at: along(w, from, w.until[k], m.Manner)})
		c.moments[k], from = len(c.phases), w.until[k]
	}
	c.done = len(c.phases)
	if m.Overshoot > 0 {
		z := or(m.Damping, usualSpring)
		for _, p := range ring(z, or(m.Period, usualPeriod), m.Overshoot*w.length(), max(atRest, stillPart*w.length())) {
			c.phases = append(c.phases, p.on(w, w.length()))
		}
	}
	return c
}

// along goes from one place on a path to another.
func along(w way, from, to float64, m board.Manner) func(float64) (board.Spot, float64) {
	return func(u float64) (board.Spot, float64) {
		s := from + (to-from)*Chart(m, u)
		return w.at(s), s
	}
}

// keyName names the arrival at key k of n.
func keyName(k, n int) string {
	if k == n-1 {
		return "arrives"
	}
	return fmt.Sprintf("key %d", k+1)
}
