package motion

import "math"

// Gait is a way to walk or run by the frames at 24 a second from one foot to
// the other; a full cycle is two of them.
type Gait struct {
	Frames float64
	Name   string
}

// Gaits are the usual ones, fast to slow. Source: Williams, The Animator's
// Survival Kit, from memory; lengths of cycles at the-animation-badger.com
// agree.
var Gaits = []Gait{
	{4, "very fast run"},
	{6, "run or very fast walk"},
	{8, "slow run, cartoon walk"},
	{12, "brisk natural walk, march"},
	{16, "stroll"},
	{20, "elderly or tired"},
	{24, "slow step"},
	{32, "very slow, drunk"},
}

// GaitOf returns the gait nearest to a step of so many seconds. A walk on the
// beat takes a step each beat.
func GaitOf(seconds float64) Gait {
	best := Gaits[0]
	for _, g := range Gaits {
		if math.Abs(math.Log(seconds*24/g.Frames)) < math.Abs(math.Log(seconds*24/best.Frames)) {
			best = g
		}
	}
	return best
}

// StrideOf returns the usual length of a step of a figure so tall, 0.41 of its
// height, in the same unit (from memory, common practice).
func StrideOf(height float64) float64 { return 0.41 * height }
