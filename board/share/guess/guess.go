// Package guess tells how large a file will be from some of what goes into it.
package guess

import (
	"context"
	"math"
)

// Size is how large a file will be.
type Size struct {
	Bytes  int64
	Within int64 // bytes it may be off by: in about 95 of 100 films the file is nearer than that
}

// Plus returns the size with so many bytes more that are known.
func (s Size) Plus(bytes int64) Size { return Size{s.Bytes + bytes, s.Within} }

// And returns the size of two things together that are guessed apart.
func (s Size) And(t Size) Size {
	return Size{s.Bytes + t.Bytes, int64(math.Hypot(float64(s.Within), float64(t.Within)))}
}

// Samples is how many things Sum looks at.
const Samples = 16

// Sum guesses what n things take together, of which size tells what each of
// some takes, asked in their order. Of few things all are looked at, and the
// size is exact; the time it takes does not grow with n.
func Sum(ctx context.Context, n int, size func(i int) (int64, error)) (Size, error) {
	seen := make([]float64, min(n, Samples))
	for k := range seen {
		if err := ctx.Err(); err != nil {
			return Size{}, err
		}
		bytes, err := size((2*k + 1) * n / (2 * len(seen)))
		if err != nil {
			return Size{}, err
		}
		seen[k] = float64(bytes)
	}
	each, variance := Spread(seen, 0)
	bytes := each * float64(n)
	s := Size{Bytes: int64(math.Round(bytes))}
	if len(seen) < n { // 2.13 is Student's t of 16 sizes; the hundredth is for what they have in common
		s.Within = int64(2.13*math.Sqrt(Doubt(n, len(seen), variance)) + 0.01*bytes)
	}
	return s, nil
}

// Doubt returns the variance of the sum of n sizes of which some were seen that
// have a variance of their own.
func Doubt(n, seen int, variance float64) float64 {
	if seen >= n {
		return 0
	}
	all := float64(n)
	return all * all * variance / float64(max(1, seen)) * (1 - float64(seen)/all)
}

// Mean returns the mean of some sizes, 0 of none.
func Mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(max(1, len(v)))
}

// Spread returns the mean of some sizes and their variance. Of one size alone
// the variance is that of a guess half as large, of none both are those of
// other things.
func Spread(v []float64, other float64) (each, variance float64) {
	switch len(v) {
	case 0:
		return other, other * other
	case 1:
		return v[0], v[0] * v[0] / 4
	}
	each = Mean(v)
	for _, x := range v {
		variance += (x - each) * (x - each)
	}
	return each, variance / float64(len(v)-1)
}
