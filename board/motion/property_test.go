package motion

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"stillbeat/board"
)

// anyPath returns up to 6 keys at random.
func anyPath(rnd *rand.Rand) []board.Spot {
	keys := make([]board.Spot, 2+rnd.IntN(5))
	for i := range keys {
		keys[i] = board.Spot{X: rnd.Float64() * 300, Y: rnd.Float64() * 100, Height: rnd.Float64() * 200}
	}
	return keys
}

// mixedSteps returns exposures on ones, twos and threes in any order.
func mixedSteps(rnd *rand.Rand, n int) Exposures {
	x := Exposures{Rate: film24}
	for range n {
		x.Frames = append(x.Frames, x.End)
		x.End += board.Frame(1 + rnd.IntN(3))
	}
	return x
}

// A spacing along a straight line without anticipation and overshoot goes one
// way only, so that its steps add up to the path, whatever the exposures.
func TestStepsAddUpToThePath(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 1))
	for range 500 {
		keys := anyPath(rnd)
		line := []board.Spot{keys[0], mixed(keys[0], keys[1], 0.3), keys[1]}
		m := board.ObjectMove{Manner: board.Manners[rnd.IntN(5)], Keys: line}
		tab, sum := Space(m, mixedSteps(rnd, 2+rnd.IntN(40)), nil, Limits{}), 0.0
		for i, r := range tab.Rows {
			sum += r.Step
			if i > 0 && r.Along < tab.Rows[i-1].Along-1e-9 {
				t.Fatalf("%q goes back", m.Manner)
			}
		}
		near(t, "sum of the steps", sum, Between(keys[0], keys[1]), 1e-9)
		if tab.Rows[0].At != line[0] || Between(tab.Rows[len(tab.Rows)-1].At, line[2]) > 1e-9 {
			t.Fatalf("%q does not go from end to end", m.Manner)
		}
	}
}

// Along a path with corners the measure adds up, and no step is longer than
// what was gone along it.
func TestMeasuresAddUpToThePath(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 2))
	for range 500 {
		m := board.ObjectMove{Manner: board.Manners[rnd.IntN(5)], Keys: anyPath(rnd)}
		tab := Space(m, mixedSteps(rnd, 2+rnd.IntN(40)), nil, Limits{})
		near(t, "measure at the end", tab.Rows[len(tab.Rows)-1].Along, newWay(m.Keys).length(), 1e-9)
		for i := 1; i < len(tab.Rows); i++ {
			if gone := tab.Rows[i].Along - tab.Rows[i-1].Along; tab.Rows[i].Step > gone+1e-9 {
				t.Fatalf("a step of %g along %g", tab.Rows[i].Step, gone)
			}
		}
	}
}

// Easing out and in is the same from both ends, and slow in is slow out
// backwards.
func TestSymmetricSpacings(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 3))
	steps := func(m board.Manner, keys []board.Spot, x Exposures) (out []float64) {
		for _, r := range Space(board.ObjectMove{Manner: m, Keys: keys}, x, nil, Limits{}).Rows[1:] {
			out = append(out, r.Step)
		}
		return out
	}
	for range 200 {
		keys := anyPath(rnd)[:2]
		x := on(board.Frame(4+rnd.IntN(60)), 1+rnd.IntN(3))
		for _, c := range [][2]board.Manner{{board.Evenly, board.Evenly}, {board.SlowingBoth, board.SlowingBoth}, {board.SlowingIn, board.SlowingOut}} {
			there, back := steps(c[0], keys, x), steps(c[1], keys, x)
			slices.Reverse(back)
			for i := range there {
				near(t, string(c[0]), there[i], back[i], 1e-9)
			}
		}
	}
}

// The energy that each bounce has left is the square of the rebound, and no
// bounce goes below the ground.
func TestBouncesLoseEnergy(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 4))
	for range 200 {
		m := board.ObjectMove{Manner: board.Bouncing, Rebound: 0.3 + 0.65*rnd.Float64(), Scale: 1 + 17*rnd.Float64(),
			Keys: []board.Spot{{Height: 50 + 400*rnd.Float64()}, {X: 100, Height: 20}}}
		c, last := bouncing(m, 1.0/24), m.Keys[0].Height-20
		for _, p := range c.phases[1:c.done] {
			top, _ := p.at(0.5)
			near(t, "energy", (top.Height-20)/last, m.Rebound*m.Rebound, 1e-9)
			last = top.Height - 20
			// In the air it weighs what it weighs: h = g t^2 / 8.
			near(t, "flight", scaled(last, m.Scale), Gravity*p.seconds*p.seconds/8, 1e-9)
		}
		end, _ := c.phases[len(c.phases)-1].at(1)
		near(t, "end of the way", end.X, 100, 1e-9)
		// It rolls out from the speed it has in its last bounce.
		fly, roll := c.phases[c.done-1], c.phases[c.done]
		near(t, "speed", speed(roll, 0), speed(fly, 1-1e-6), 1e-3)
		near(t, "speed at the end", speed(roll, 1-1e-6), 0, 1e-3)
		for _, r := range Space(m, mixedSteps(rnd, 40), nil, Limits{}).Rows {
			if r.At.Height < 20-1e-9 {
				t.Fatalf("it is %g mm below the ground", 20-r.At.Height)
			}
		}
	}
}

// speed returns how fast a phase goes across the set, mm a second.
func speed(p phase, u float64) float64 {
	a, _ := p.at(u)
	b, _ := p.at(u + 1e-6)
	return (b.X - a.X) / 1e-6 / p.seconds
}

// What is S times as large on a set S times as close to full size moves alike:
// the same frames, S times the steps.
func TestScaleLaw(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 5))
	for range 200 {
		for _, manner := range board.Manners[5:10] { // those that fall
			s := 2 + 4*rnd.Float64()
			m := board.ObjectMove{Manner: manner, Scale: 6 * s, Rise: 40, Keys: []board.Spot{{Height: 300}, {X: 100, Height: 100}}}
			if manner == board.Toppling {
				m.Keys = []board.Spot{{}, {X: 20, Height: 120}}
			}
			large := m
			large.Scale, large.Rise = 6, 40*s
			large.Keys = []board.Spot{mixed(board.Spot{}, m.Keys[0], s), mixed(board.Spot{}, m.Keys[1], s)}
			// A swing ends where 2 per cent of its arm are left, more than atRest
			// here; a bounce by time in the air.
			small, big := Space(m, on(30, 1), nil, Limits{}), Space(large, on(30, 1), nil, Limits{})
			for i := range small.Rows {
				near(t, string(manner), big.Rows[i].Step, s*small.Rows[i].Step, 1e-6)
			}
		}
	}
}

// Between one exposure and the next nothing leaps: a move on fours passes
// through the places of the same move on ones.
func TestCoarserExposuresPassThroughTheSamePlaces(t *testing.T) {
	for _, r := range ReadyMoves() {
		m := r.Move
		if !m.Manner.Spaced() {
			continue // their moments go to the exposures there are
		}
		m.Anticipate, m.Overshoot = 0, 0
		ones, fours := Space(m, on(41, 1), nil, Limits{}), Space(m, on(41, 4), nil, Limits{})
		for i, row := range fours.Rows {
			near(t, r.Name, Between(row.At, ones.Rows[4*i].At), 0, 1e-9)
		}
	}
}

// Moves at random keep in order and in numbers, on any exposures, with any
// hits.
func TestAnyMoveMakesATable(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 6))
	for range 3000 {
		m := board.ObjectMove{Manner: board.Manners[rnd.IntN(len(board.Manners))], Keys: anyPath(rnd), Scale: rnd.Float64() * 20,
			Anticipate: rnd.Float64() * float64(rnd.IntN(2)), Overshoot: rnd.Float64() * float64(rnd.IntN(2)), Damping: 0.01 + 0.9*rnd.Float64()}
		x := mixedSteps(rnd, 1+rnd.IntN(60))
		var hits []Hit
		for k := range rnd.IntN(4) {
			hits = append(hits, Hit{k, board.Frame(rnd.IntN(int(x.End)+20) - 10), "beat 1"})
			if k < len(m.Keys) {
				m.Hits = append(m.Hits, board.Hit{Moment: k})
			}
		}
		sane(t, Space(m, x, hits, Limits{}))
	}
}

// sane fails unless a table has numbers and its events are in order.
func sane(t testing.TB, tab Table) {
	t.Helper()
	if !slices.IsSorted(tab.laid.at) {
		t.Fatalf("%+v: events at %v", tab.Move, tab.laid.at)
	}
	for _, r := range tab.Rows {
		for _, v := range []float64{r.At.X, r.At.Y, r.At.Height, r.Along, r.Step} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v: row %+v", tab.Move, r)
			}
		}
	}
}
