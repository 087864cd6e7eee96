package check

import (
	"image"

	"stillbeat/board"
)

// tally counts the changes at each place of a picture within a second.
type tally struct {
	size, field image.Point                 // in places: the picture, and what 10 degrees of view take
	together    func(a, b board.Frame) bool // whether two frames lie within one second
	counts      []uint8
	atLeast     [256]int // how many places have so many changes or more
	second      []batch  // the changes counted
	spare       [][]int32
	sums        []int32
}

// batch is the places that changed at a frame.
type batch struct {
	at     board.Frame
	places []int32
}

func newTally(size, field image.Point, together func(a, b board.Frame) bool) *tally {
	return &tally{size: size, field: field, together: together,
		counts: make([]uint8, size.X*size.Y), sums: make([]int32, (size.X+1)*(size.Y+1))}
}

// add counts changes at frame n, no earlier than those before, and drops those
// that are a second old. It keeps no hold of places.
func (t *tally) add(n board.Frame, places []int32) {
	for len(t.second) > 0 && !t.together(t.second[0].at, n) {
		for _, p := range t.second[0].places {
			t.atLeast[t.counts[p]]--
			t.counts[p]--
		}
		t.spare = append(t.spare, t.second[0].places[:0])
		t.second = t.second[1:]
	}
	if len(places) == 0 {
		return
	}
	var kept []int32
	if k := len(t.spare) - 1; k >= 0 {
		kept, t.spare = t.spare[k], t.spare[:k]
	}
	for _, p := range places {
		t.counts[p]++
		t.atLeast[t.counts[p]]++
	}
	t.second = append(t.second, batch{n, append(kept, places...)})
}

// since returns the frame of the first change counted.
func (t *tally) since() board.Frame { return t.second[0].at }

// quarter is the share of a 10-degree field that may flash (WCAG 2.2: 25 %,
// which is 21824 of 341 x 256 pixels).
const quarter = 0.25

// covers returns the largest share of a field that has k changes or more, and
// whether that is more than a quarter. Fields lie wholly in the picture, where it
// is as large; the share is then 0 if all the picture has too few such places.
func (t *tally) covers(k int) (share float64, over bool) {
	whole := t.field.X * t.field.Y
	if k > 255 || float64(t.atLeast[k]) <= quarter*float64(whole) {
		return 0, false
	}
	w := t.size.X + 1
	for y := range t.size.Y {
		var row int32
		for x := range t.size.X {
			if int(t.counts[y*t.size.X+x]) >= k {
				row++
			}
			t.sums[(y+1)*w+x+1] = t.sums[y*w+x+1] + row
		}
	}
	fw, fh := min(t.field.X, t.size.X), min(t.field.Y, t.size.Y)
	var most int32
	for y := fh; y <= t.size.Y; y++ {
		upper, lower := t.sums[(y-fh)*w:][:w], t.sums[y*w:][:w]
		for x := fw; x < w; x++ {
			most = max(most, lower[x]-lower[x-fw]-upper[x]+upper[x-fw])
		}
	}
	share = float64(most) / float64(whole)
	return share, share > quarter
}
