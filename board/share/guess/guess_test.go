package guess

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"
)

func sizes(n int, seed uint64) (all []int64, sum int64) {
	r := rand.New(rand.NewPCG(seed, 1))
	for range n {
		v := 1000 + r.Int64N(4000)
		all, sum = append(all, v), sum+v
	}
	return all, sum
}

func TestSumOfFewThingsIsExact(t *testing.T) {
	for n := range Samples + 1 {
		all, sum := sizes(n, 7)
		asked := 0
		got, err := Sum(t.Context(), n, func(i int) (int64, error) {
			if i != asked {
				t.Errorf("of %d things %d is asked for in the place of %d", n, i, asked)
			}
			asked++
			return all[i], nil
		})
		if err != nil || got != (Size{sum, 0}) {
			t.Errorf("%d things of %d bytes are guessed as %+v, %v", n, sum, got, err)
		}
	}
}

// Of a hundred sums of many things nine in ten are within what is said, and no
// more than so many things are looked at.
func TestSumOfManyThings(t *testing.T) {
	near := 0
	for seed := range uint64(100) {
		all, sum := sizes(50+int(seed)*20, seed)
		asked := 0
		got, err := Sum(t.Context(), len(all), func(i int) (int64, error) { asked++; return all[i], nil })
		if err != nil || asked != Samples {
			t.Fatalf("%d things are looked at, %v", asked, err)
		}
		if off := got.Bytes - sum; max(off, -off) <= got.Within {
			near++
		}
	}
	if near < 90 {
		t.Errorf("%d of 100 sums are as near as is said", near)
	}
}

func TestSumStops(t *testing.T) {
	spilt := errors.New("spilt")
	if _, err := Sum(t.Context(), 3, func(int) (int64, error) { return 0, spilt }); !errors.Is(err, spilt) {
		t.Errorf("the error is %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Sum(ctx, 3, func(int) (int64, error) { return 1, nil }); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, the error is %v", err)
	}
}
