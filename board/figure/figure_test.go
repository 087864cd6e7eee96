package figure

import (
	"math"
	"math/rand/v2"
	"testing"
)

const ground = 6000

// lengthsOf returns how long the lines of a figure are.
func lengthsOf(p Pose) (out []float64) {
	j := p.Joints()
	for _, b := range Bones {
		out = append(out, math.Hypot(j[b[1]].X-j[b[0]].X, j[b[1]].Y-j[b[0]].Y))
	}
	return out
}

// dragged calls check with a figure before and after each of many drags, of
// any joint to any place.
func dragged(t *testing.T, pins [2]bool, check func(t *testing.T, before, after Pose, j Joint)) {
	t.Helper()
	rnd := rand.New(rand.NewPCG(7, 11))
	for range 40 {
		p := New(int32(rnd.IntN(8000)-4000), ground, int32(3000+rnd.IntN(9000))).InHeads(int32(200 + rnd.IntN(601)))
		p.Pinned = pins
		if rnd.IntN(2) == 0 {
			p = p.Flipped().Standing()
		}
		for range 60 {
			j := Joint(rnd.IntN(int(Joints)))
			q := p.Drag(j, Point{rnd.Float64()*20000 - 10000, rnd.Float64()*20000 - 10000})
			check(t, p, q, j)
			p = q
		}
	}
}

func TestLengthsAndLimitsAreKept(t *testing.T) {
	for _, pins := range [][2]bool{{}, {true, true}, {true, false}} {
		dragged(t, pins, func(t *testing.T, before, after Pose, j Joint) {
			if err := after.Check(); err != nil {
				t.Fatalf("after joint %d was dragged: %v", j, err)
			}
			was, is := lengthsOf(before), lengthsOf(after)
			for i := range is {
				if math.Abs(is[i]-was[i]) > 1e-6*float64(after.Size) {
					t.Fatalf("dragging joint %d, line %d went from %g to %g", j, i, was[i], is[i])
				}
			}
		})
	}
}

func TestPinnedFeetStayOnTheGround(t *testing.T) {
	stood := 0
	dragged(t, [2]bool{true, true}, func(t *testing.T, before, after Pose, j Joint) {
		was, is := before.Joints(), after.Joints()
		for _, foot := range []Joint{NearFoot, FarFoot} {
			if foot == j || math.Abs(was[foot].Y-ground) > 2*pinHolds {
				continue // taken hold of, or pinned elsewhere before
			}
			stood++
			if d := math.Hypot(is[foot].X-was[foot].X, is[foot].Y-was[foot].Y); d > pinHolds {
				t.Fatalf("dragging joint %d moves a pinned foot by %g units", j, d)
			}
		}
	})
	if stood < 1000 {
		t.Errorf("only %d times a foot was on the ground", stood)
	}
}

func TestHandsAndFeetReachWhatIsInReach(t *testing.T) {
	for _, left := range []bool{false, true} {
		p := New(0, ground, 8000)
		p.Pinned = [2]bool{}
		p.Left = left
		// Places that the limb can be bent to are where another pose has them.
		for _, bent := range []struct {
			j            Joint
			upper, lower Turn
			a, b         int32
		}{
			{NearHand, NearUpperArm, NearForearm, 90, 40}, {FarHand, FarUpperArm, FarForearm, -40, 100}, {NearHand, NearUpperArm, NearForearm, 170, 0},
			{NearFoot, NearThigh, NearShin, 80, 90}, {FarFoot, FarThigh, FarShin, -20, 60}, {NearFoot, NearThigh, NearShin, 100, 130},
		} {
			want := p
			want.Turns[bent.upper], want.Turns[bent.lower] = bent.a*Degree, bent.b*Degree
			to := want.Joints()[bent.j]
			got := p.Drag(bent.j, to).Joints()[bent.j]
			if d := math.Hypot(got.X-to.X, got.Y-to.Y); d > 3 {
				t.Errorf("left %v, joint %d bent by %d and %d degrees: it is %.1f units from where it was dragged", left, bent.j, bent.a, bent.b, d)
			}
		}
	}
}

// A straight figure is as tall as its size, with the landmarks of figure
// drawing where they belong.
func TestProportions(t *testing.T) {
	p := Pose{Size: 7500, Heads: UsualHeads, Ground: ground}.Standing()
	j := p.Joints()
	fromCrown := func(k Joint) float64 { return (j[k].Y - (ground - 7500)) / 1000 }
	for name, c := range map[string]struct{ got, want float64 }{
		"crown":         {fromCrown(Head) - p.HeadRadius()/1000, 0},
		"pit of neck":   {fromCrown(Neck), 4. / 3},
		"elbow":         {fromCrown(NearElbow), 3},
		"half the body": {fromCrown(Hips), 3.75},
		"knee":          {fromCrown(FarKnee), 5.5},
		"sole":          {fromCrown(FarFoot), 7.5},
	} {
		if math.Abs(c.got-c.want) > 0.001 {
			t.Errorf("%s at %.3f heads, want %.3f", name, c.got, c.want)
		}
	}
	for _, heads := range []int32{200, 350, 800} {
		q := p.InHeads(heads)
		j := q.Joints()
		top := j[Head].Y - q.HeadRadius()
		if math.Abs(ground-top-7500) > 1 {
			t.Errorf("%d hundredths of heads: it is %.1f tall, want 7500", heads, ground-top)
		}
		if got := 7500 / (2 * q.HeadRadius()) * 100; math.Abs(got-float64(heads)) > 0.01 {
			t.Errorf("it has %g hundredths of heads, want %d", got, heads)
		}
	}
}

func TestScaledStandsWhereItStood(t *testing.T) {
	p := New(100, ground, 6000)
	for _, by := range []float64{0.5, 2, 1e9, 1e-9} {
		q := p.Scaled(by)
		if err := q.Check(); err != nil {
			t.Errorf("%g times: %v", by, err)
		}
		if d := math.Abs(q.Joints()[NearFoot].Y - p.Joints()[NearFoot].Y); d > 2 {
			t.Errorf("%g times as large its foot is %g units off", by, d)
		}
	}
	if p.Flipped().Flipped() != p || p.Moved(5, 6).Moved(-5, -6) != p {
		t.Error("flipping or moving there and back changes it")
	}
}

func TestCheckRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Pose){
		"far away":      func(p *Pose) { p.X = far + 1 },
		"the lowest X":  func(p *Pose) { p.X = math.MinInt32 },
		"deep ground":   func(p *Pose) { p.Ground = -far - 1 },
		"no size":       func(p *Pose) { p.Size = 0 },
		"a giant":       func(p *Pose) { p.Size = MaxSize + 1 },
		"all head":      func(p *Pose) { p.Heads = 100 },
		"a pinhead":     func(p *Pose) { p.Heads = 801 },
		"a broken knee": func(p *Pose) { p.Turns[NearShin] = -1 },
	} {
		p := New(0, ground, 6000)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		spoil(&p)
		if p.Check() == nil {
			t.Errorf("%s passes", name)
		}
	}
}

func BenchmarkDrag(b *testing.B) {
	p := New(0, ground, 8000)
	for i := 0; b.Loop(); i++ {
		p.Drag(Hips, Point{float64(i % 500), 2000})
	}
}
