package motion

import (
	"math"
	"testing"
)

// near fails unless got is within tolerance of want.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %g, want %g within %g", what, got, want, tolerance)
	}
}

// Published table at 24 frames a second and g = 32 ft/s^2, inches: Garcia,
// Physics of Timing & Spacing (2011). Standard gravity is 32.174 ft/s^2.
func TestFallAsInAnAnimatorsTable(t *testing.T) {
	for i, inches := range []float64{1.0 / 3, 4.0 / 3, 3, 16.0 / 3} {
		want := inches * 25.4 * Gravity / (32 * 0.3048)
		near(t, "fallen", Fallen(float64(i+1)/24, 1), want, 0.001)
	}
}

// Fallen and stepped in mm after whole frames at 24 a second, full size and at
// 1:6, 1:12 and 1:18: computed by hand from s = g t^2/2 with g of the 3rd CGPM,
// 1901, rounded to hundredths.
func TestFallAtFigureScales(t *testing.T) {
	for _, c := range []struct{ frame, full, step, six, sixStep, twelve, twelveStep, eighteen, eighteenStep float64 }{
		{1, 8.51, 8.51, 1.42, 1.42, 0.71, 0.71, 0.47, 0.47},
		{2, 34.05, 25.54, 5.68, 4.26, 2.84, 2.13, 1.89, 1.42},
		{3, 76.61, 42.56, 12.77, 7.09, 6.38, 3.55, 4.26, 2.36},
		{4, 136.20, 59.59, 22.70, 9.93, 11.35, 4.97, 7.57, 3.31},
		{5, 212.82, 76.61, 35.47, 12.77, 17.73, 6.38, 11.82, 4.26},
		{6, 306.46, 93.64, 51.08, 15.61, 25.54, 7.80, 17.03, 5.20},
		{8, 544.81, 127.69, 90.80, 21.28, 45.40, 10.64, 30.27, 7.09},
		{10, 851.27, 161.74, 141.88, 26.96, 70.94, 13.48, 47.29, 8.99},
		{12, 1225.83, 195.79, 204.31, 32.63, 102.15, 16.32, 68.10, 10.88},
	} {
		for _, s := range []struct{ scale, fallen, step float64 }{
			{1, c.full, c.step}, {6, c.six, c.sixStep}, {12, c.twelve, c.twelveStep}, {18, c.eighteen, c.eighteenStep}} {
			near(t, "fallen", Fallen(c.frame/24, s.scale), s.fallen, 0.0051)
			near(t, "step", Fallen(c.frame/24, s.scale)-Fallen((c.frame-1)/24, s.scale), s.step, 0.0051)
		}
	}
	for i, want := range []float64{34.05, 102.15, 170.25, 238.36, 306.46, 374.56} { // steps at 12 frames a second
		near(t, "step on twos", Fallen(float64(i+1)/12, 1)-Fallen(float64(i)/12, 1), want, 0.0051)
	}
}

// Steps go 1:3:5:7 (Galileo).
func TestFallStepsGoAsTheOddNumbers(t *testing.T) {
	for i := range 20 {
		step := Fallen(float64(i+1), 7) - Fallen(float64(i), 7)
		near(t, "step", step/Fallen(1, 7), float64(2*i+1), 1e-9)
	}
}

// Seconds and frames of falls and jumps in metres: from t = sqrt(2h/g) and
// 2 sqrt(2h/g).
func TestHowLongFallsAndJumpsTake(t *testing.T) {
	for _, c := range []struct{ metres, seconds, frames float64 }{
		{0.1, 0.1428, 3.43}, {0.25, 0.2258, 5.42}, {0.5, 0.3193, 7.66}, {1, 0.4516, 10.84}, {2, 0.6387, 15.33}, {3, 0.7822, 18.77}, {5, 1.0098, 24.24}} {
		near(t, "fall", FallSeconds(1000*c.metres, 1), c.seconds, 0.00005)
		near(t, "fall", 24*FallSeconds(1000*c.metres, 0), c.frames, 0.005)
	}
	for _, c := range []struct{ metres, seconds, frames float64 }{
		{0.1, 0.2856, 6.85}, {0.2, 0.4039, 9.69}, {0.3, 0.4947, 11.87}, {0.4, 0.5712, 13.71}, {0.5, 0.6387, 15.33}, {0.8, 0.8078, 19.39}, {1, 0.9032, 21.68}} {
		near(t, "jump", HangSeconds(1000*c.metres, 1), c.seconds, 0.00005)
		near(t, "jump", 24*HangSeconds(1000*c.metres, 1), c.frames, 0.005)
	}
	if FallSeconds(-5, 1) != 0 {
		t.Error("a fall upwards takes time")
	}
}

// Time goes with the square root of the scale: the same height on the set at
// 1:S takes sqrt(S) times as long, and S times the height at full size as long.
func TestTimeGoesWithTheRootOfTheScale(t *testing.T) {
	for _, s := range []float64{2, 6, 12, 18, 0.5} {
		near(t, "fall", FallSeconds(200, s), math.Sqrt(s)*FallSeconds(200, 1), 1e-12)
		near(t, "fall", FallSeconds(200, s), FallSeconds(200*s, 1), 1e-12)
		near(t, "pendulum", PendulumSeconds(100, s, 40), math.Sqrt(s)*PendulumSeconds(100, 1, 40), 1e-12)
		near(t, "topple", ToppleSeconds(150, s, 5), math.Sqrt(s)*ToppleSeconds(150, 1, 5), 1e-12)
	}
}

// Frame rates for the real motion of a model: 1:4 -> 48 and 1:16 -> 96 are
// published (VES Handbook, appendix A; modelshipsinthecinema.com), the others
// follow from 24 sqrt(S).
func TestLiveRates(t *testing.T) {
	for scale, want := range map[float64]float64{4: 48, 16: 96, 2: 33.94, 6: 58.79, 8: 67.88, 9: 72, 12: 83.14, 18: 101.82, 25: 120} {
		near(t, "rate", LiveRate(24, scale), want, 0.005)
	}
}

// Periods at small angles from T = 2 pi sqrt(L/g), and factors for the angle
// of release from the complete elliptic integral.
func TestPendulums(t *testing.T) {
	for _, c := range []struct{ metres, seconds, frames float64 }{
		{0.25, 1.0032, 24.08}, {0.5, 1.4187, 34.05}, {1, 2.0064, 48.15}, {2, 2.8375, 68.10}} {
		near(t, "period", PendulumSeconds(1000*c.metres, 1, 0), c.seconds, 0.00006)
		near(t, "period", 24*PendulumSeconds(1000*c.metres, 1, 0), c.frames, 0.006)
	}
	near(t, "a rope that reads as 1 m at 1:12", 24*PendulumSeconds(1000.0/12, 12, 0), 48.15, 0.006)
	for degrees, want := range map[float64]float64{10: 1.00191, 30: 1.01741, 60: 1.07318, 90: 1.18034} {
		near(t, "factor", PendulumSeconds(500, 1, degrees)/PendulumSeconds(500, 1, 0), want, 0.000005)
	}
	if p := PendulumSeconds(500, 1, 180); math.IsInf(p, 0) || math.IsNaN(p) {
		t.Errorf("a pendulum on its head takes %g", p)
	}
}

// Bounces from 1 m: heights h e^(2n), flights 2 e^n t0, all over after
// t0 (1+e)/(1-e), frames at 24 a second.
func TestBounces(t *testing.T) {
	for _, c := range []struct {
		e               float64
		heights, flight [4]float64
		over            float64
	}{
		{0.9, [4]float64{810.0, 656.1, 531.4, 430.5}, [4]float64{19.5, 17.6, 15.8, 14.2}, 205.9},
		{0.75, [4]float64{562.5, 316.4, 178.0, 100.1}, [4]float64{16.3, 12.2, 9.1, 6.9}, 75.9},
		{0.6, [4]float64{360.0, 129.6, 46.7, 16.8}, [4]float64{13.0, 7.8, 4.7, 2.8}, 43.4},
		{0.5, [4]float64{250.0, 62.5, 15.6, 3.9}, [4]float64{10.8, 5.4, 2.7, 1.4}, 32.5},
	} {
		for i, h := range BounceHeights(1000, c.e, 4) {
			near(t, "height", h, c.heights[i], 0.06)
			near(t, "flight", 24*HangSeconds(h, 1), c.flight[i], 0.06)
		}
		near(t, "over", 24*BounceSeconds(1000, 1, c.e), c.over, 0.06)
	}
	// A tennis ball comes up 53 to 58 inches from 100: 0.728 to 0.762 (rules of
	// tennis, by arcamax).
	for inches, e := range map[float64]float64{53: 0.728, 58: 0.762} {
		near(t, "tennis", BounceHeights(100, e, 1)[0], inches, 0.1)
	}
	// Contacts for e = 0.75 from 1 m.
	at := 24 * FallSeconds(1000, 1)
	for i, want := range []float64{10.84, 27.10, 39.29, 48.43, 55.29} {
		near(t, "contact", at, want, 0.01)
		at += 24 * HangSeconds(BounceHeights(1000, 0.75, 4)[min(i, 3)], 1)
	}
}
