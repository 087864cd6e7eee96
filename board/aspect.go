package board

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Aspect is the shape of the film's picture: so wide to so high. The zero
// value is 16:9.
type Aspect struct {
	W int `json:"w"`
	H int `json:"h"`
}

// Aspects are the usual shapes, for menus; any other may be typed.
var Aspects = []Aspect{{16, 9}, {4, 3}, {1, 1}, {9, 16}, {239, 100}}

// Limits of a shape: MaxAspect is the longest side to the shortest.
const (
	MaxAspect     = 4
	maxAspectSide = 10000
)

// usual is the shape that the zero value stands for.
var usual = Aspects[0]

func (a Aspect) orUsual() Aspect {
	if a == (Aspect{}) {
		return usual
	}
	return a
}

// Ratio returns the width for a height of 1.
func (a Aspect) Ratio() float64 {
	a = a.orUsual()
	return float64(a.W) / float64(a.H)
}

// String returns the shape as people write it: "16:9", "2.39:1".
func (a Aspect) String() string {
	a = a.orUsual()
	if a.H > 1 && 100%a.H == 0 && a.W > a.H {
		return strconv.FormatFloat(a.Ratio(), 'f', -1, 64) + ":1"
	}
	return fmt.Sprintf("%d:%d", a.W, a.H)
}

// ParseAspect reads a shape as a person types it: "16:9", "2.39:1", "1.85",
// "4/3", "4x3". A comma may stand for the decimal point.
func ParseAspect(s string) (Aspect, error) {
	no := fmt.Errorf("%.40q is no shape of a picture: type width and height such as 16:9 or 2.39:1", s)
	t := strings.ReplaceAll(strings.ToLower(strings.TrimSpace(s)), ",", ".")
	wide, high := t, "1"
	for _, mark := range []string{":", "/", "x", "×"} {
		if w, h, found := strings.Cut(t, mark); found {
			wide, high = strings.TrimSpace(w), strings.TrimSpace(h)
			break
		}
	}
	w, ok := ratio(wide)
	h, also := ratio(high)
	if !ok || !also || w.Sign() <= 0 || h.Sign() <= 0 {
		return Aspect{}, no
	}
	q := new(big.Rat).Quo(w, h)
	if !q.Num().IsInt64() || !q.Denom().IsInt64() || q.Num().Int64() > maxAspectSide || q.Denom().Int64() > maxAspectSide {
		return Aspect{}, fmt.Errorf("the shape %s has too many digits", strings.TrimSpace(s))
	}
	a := Aspect{int(q.Num().Int64()), int(q.Denom().Int64())}
	return a, a.check()
}

func (a Aspect) check() error {
	switch {
	case a == Aspect{}:
		return nil
	case a.W < 1 || a.H < 1 || a.W > maxAspectSide || a.H > maxAspectSide:
		return fmt.Errorf("a picture %d wide to %d high makes no sense", a.W, a.H)
	case a.W > MaxAspect*a.H || a.H > MaxAspect*a.W:
		return fmt.Errorf("a picture of %s is too narrow: one side is at most %d times the other", a, MaxAspect)
	}
	return nil
}

// Inside returns the largest picture of this shape within w x h pixels, both
// sides rounded to the nearest even number, as films with colours at half the
// resolution (4:2:0) need.
func (a Aspect) Inside(w, h int) (int, int) {
	r := a.Ratio()
	if float64(w) > float64(h)*r {
		return min(even(float64(h)*r), w), h
	}
	return w, min(even(float64(w)/r), h)
}

func even(v float64) int { return max(2, 2*int(math.Round(v/2))) }

// SetAspect gives the film's picture another shape. Everything keeps its size
// in heights of the frame and its distance from the middle.
func SetAspect(a Aspect) Edit {
	return Edit{Name: "picture shape " + a.String(), Apply: func(b Board) (Board, error) {
		if err := a.check(); err != nil {
			return b, err
		}
		out := b
		if out.Aspect = a; a.Ratio() == usual.Ratio() {
			out.Aspect = Aspect{}
		}
		return out.checked(b)
	}}
}
