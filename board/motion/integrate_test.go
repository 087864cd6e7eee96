package motion

import (
	"math"
	"testing"

	"stillbeat/board"
)

// motionOf follows x” = pull(x, v) from rest or at a speed by the classical
// fourth-order Runge-Kutta method, to second t in n steps.
func motionOf(pull func(x, v float64) float64, x, v, t float64, n int) (float64, float64) {
	h := t / float64(n)
	for range n {
		x1, v1 := v, pull(x, v)
		x2, v2 := v+h/2*v1, pull(x+h/2*x1, v+h/2*v1)
		x3, v3 := v+h/2*v2, pull(x+h/2*x2, v+h/2*v2)
		x4, v4 := v+h*v3, pull(x+h*x3, v+h*v3)
		x, v = x+h/6*(x1+2*x2+2*x3+x4), v+h/6*(v1+2*v2+2*v3+v4)
	}
	return x, v
}

// The formulas against the forces they come from, integrated step by step.
func TestFormulasAgainstForces(t *testing.T) {
	gravity := func(float64, float64) float64 { return -Gravity }
	h, _ := motionOf(gravity, 1.2, 0, FallSeconds(200, 6), 100) // 20 cm at 1:6
	near(t, "the ground under a fall", h, 0, 1e-12)
	h, v := motionOf(gravity, 0, Gravity*FallSeconds(400, 1), HangSeconds(400, 1), 100)
	near(t, "the ground under a jump", h, 0, 1e-12)
	near(t, "the speed it lands with", v, -Gravity*FallSeconds(400, 1), 1e-12)

	for _, degrees := range []float64{5, 30, 90, 150} { // a whole swing brings a pendulum back, without speed
		a := degrees * math.Pi / 180
		swing := func(x, _ float64) float64 { return -Gravity / 0.8 * math.Sin(x) }
		x, v := motionOf(swing, a, 0, PendulumSeconds(800, 1, degrees), 4000)
		near(t, "angle", x, a, 1e-8)
		near(t, "speed", v, 0, 1e-7)
	}
	for _, z := range []float64{0.1, 0.3, 0.7} { // a damped period of a second
		w := 2 * math.Pi / math.Sqrt(1-z*z)
		spring := func(x, v float64) float64 { return -w*w*(x-1) - 2*z*w*v }
		for _, at := range []float64{0.2, 0.5, 1.3} {
			x, _ := motionOf(spring, 0, 0, at, 2000)
			near(t, "response", Response(at, z), x, 1e-9)
		}
	}
	for _, degrees := range []float64{0.5, 2, 10, 45} { // the torque on a stick: a'' = 3g/(2L) sin a
		topples := func(x, _ float64) float64 { return 1.5 * Gravity / 0.9 * math.Sin(x) }
		whole := topple(0.9, degrees*math.Pi/180)
		for _, part := range []float64{0.3, 0.8, 1} {
			x, _ := motionOf(topples, degrees*math.Pi/180, 0, part*whole.seconds, 4000)
			near(t, "angle of a stick", whole.at(part), x, 2e-4)
		}
		near(t, "seconds of a stick", ToppleSeconds(150, 6, degrees), whole.seconds, 1e-12)
	}
}

// Half swings are cosines, which a slightly damped pendulum follows to a
// hundredth of its width up to 30 degrees; let go at 90, to five.
func TestSwingsAgainstForces(t *testing.T) {
	for _, c := range []struct{ degrees, within float64 }{{10, 0.006}, {30, 0.01}, {90, 0.05}} {
		a := c.degrees * math.Pi / 180
		m := board.ObjectMove{Manner: board.Swinging, Damping: 0.01,
			Keys: []board.Spot{{Height: 1000}, {X: 800 * math.Sin(a), Height: 1000 - 800*math.Cos(a)}}}
		p := swinging(m).phases[0]
		z := 0.01
		swing := func(x, v float64) float64 {
			return -Gravity/0.8*math.Sin(x) - 2*z*math.Sqrt(Gravity/0.8)*v
		}
		for _, u := range []float64{0.25, 0.5, 0.75, 1} {
			want, _ := motionOf(swing, a, 0, u*p.seconds, 2000)
			_, arc := p.at(u)
			near(t, "angle", arc/800, want, c.within*a)
		}
	}
}

// A jump up to a table and one down from it keep the same weight all the way.
func TestJumpsBetweenHeights(t *testing.T) {
	for _, to := range []float64{-120, 0, 150} {
		m := board.ObjectMove{Manner: board.Jumping, Rise: 60, Scale: 6, Keys: []board.Spot{{}, {X: 100, Height: to}}}
		p := jumping(m).phases[0]
		up := math.Sqrt(2 * Gravity * scaled(60+max(0, to), 6))
		for _, u := range []float64{0.2, 0.5, 0.9, 1} {
			h, _ := motionOf(func(float64, float64) float64 { return -Gravity }, 0, up, u*p.seconds, 50)
			s, _ := p.at(u)
			near(t, "height", s.Height, h/6*1000, 1e-9)
		}
	}
}
