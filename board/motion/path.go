package motion

import (
	"math"
	"sort"

	"stillbeat/board"
)

// Between returns the straight distance of two spots in millimetres.
func Between(a, b board.Spot) float64 {
	return math.Hypot(math.Hypot(a.X-b.X, a.Y-b.Y), a.Height-b.Height)
}

func mixed(a, b board.Spot, k float64) board.Spot {
	return board.Spot{X: a.X + (b.X-a.X)*k, Y: a.Y + (b.Y-a.Y)*k, Height: a.Height + (b.Height-a.Height)*k}
}

// way is a path with its length.
type way struct {
	keys  []board.Spot
	until []float64 // length up to each key
}

func newWay(keys []board.Spot) way {
	w := way{keys, make([]float64, len(keys))}
	for i := 1; i < len(keys); i++ {
		w.until[i] = w.until[i-1] + Between(keys[i-1], keys[i])
	}
	return w
}

// flat returns the path as it is seen from above.
func flat(keys []board.Spot) way {
	on := make([]board.Spot, len(keys))
	for i, k := range keys {
		on[i] = board.Spot{X: k.X, Y: k.Y}
	}
	return newWay(on)
}

func (w way) length() float64 { return w.until[len(w.until)-1] }

// at returns the spot s mm along the path. Before its start and past its end it
// goes on straight.
func (w way) at(s float64) board.Spot {
	if w.length() == 0 {
		return w.keys[0]
	}
	i := sort.Search(len(w.until), func(i int) bool { return w.until[i] > s })
	if i == len(w.until) { // the last stretch that has a length
		i = sort.SearchFloat64s(w.until, w.length())
	}
	for i == 0 || w.until[i] == w.until[i-1] {
		i++
	}
	return mixed(w.keys[i-1], w.keys[i], (s-w.until[i-1])/(w.until[i]-w.until[i-1]))
}
