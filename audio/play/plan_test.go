package play

import (
	"fmt"
	"math"
	"testing"
)

func TestPlanPlaces(t *testing.T) {
	const rate = 48000
	for _, c := range []struct {
		name   string
		manner Manner
		start  float64
		after  float64 // seconds by the device
		want   float64
	}{
		{"as it is", Manner{}, 2, 3, 5},
		{"half speed", Manner{Speed: 0.5}, 2, 3, 3.5},
		{"double speed", Manner{Speed: 2}, 2, 3, 8},
		{"a loop, within", Manner{From: 1, To: 3}, 1, 1.5, 2.5},
		{"a loop, turned once", Manner{From: 1, To: 3}, 1, 2.5, 1.5},
		{"a loop, turned often", Manner{From: 1, To: 3}, 2, 101, 1},
		{"run into", Manner{From: 1, To: 3}, 0.25, 3, 1.25},
		{"begun after it", Manner{From: 1, To: 3}, 7, 0.5, 1.5},
		{"begun at its end", Manner{From: 1, To: 3}, 3, 0, 1},
		{"slow loop", Manner{Speed: 0.25, From: 1, To: 3}, 1, 9, 1.25},
		{"no loop: its end is not after its start", Manner{From: 3, To: 1}, 0, 5, 5},
	} {
		if got := newPlan(c.manner, c.start, rate).at(c.after * rate); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: after %g s it is at %.6f, want %g", c.name, c.after, got, c.want)
		}
	}
}

// TestPlanStaysInTheLoop: no sample belongs to a second outside the passage,
// whatever the length of a frame.
func TestPlanStaysInTheLoop(t *testing.T) {
	for _, fps := range []float64{24, 30000. / 1001, 25} {
		for _, speed := range []float64{0.25, 0.75, 1, 1.5} {
			for frames := 1.; frames < 6; frames++ {
				m := Manner{Speed: speed, From: 7 / fps, To: (7 + frames) / fps}
				p := newPlan(m, m.From, 44100)
				for n := 0.; n < 3*p.every; n += 0.5 {
					if r := math.Mod(n, p.every); r > 4 && r < p.every-4 {
						n += min(50, math.Floor(p.every-4-r)) // about the turns, every place
					}
					if at := p.at(n); at < m.From || at >= m.To {
						t.Fatalf("%g frames at %g fps and speed %g: sample %g is at %.9f, outside %.9f to %.9f", frames, fps, speed, n, at, m.From, m.To)
					}
				}
			}
		}
	}
}

// TestLoopSoundsWithoutAGap plays a ramp round and round: every sample follows
// the one before, and the passage's first its last.
func TestLoopSoundsWithoutAGap(t *testing.T) {
	const rate = 8000
	sound := song(rate, ramp(0, 8000))
	s := newPlanned(sound, 0.1, newPlan(Manner{From: 0.3, To: 0.5}, 0.25, rate)) // samples 1600 to 3200
	left, _ := pull(t, s, 1200+3200+1)
	want := func(i int) float32 {
		if i < 2000 {
			return float32(1200 + i)
		}
		return float32(1600 + (i-2000)%1600)
	}
	quiet := 0
	for i, v := range left {
		turn := min(abs(i-2000), abs(i-3600))
		switch {
		case turn > fade && v != want(i):
			t.Fatalf("sample %d is %v, want %v", i, v, want(i))
		case turn <= fade && v > want(i):
			t.Fatalf("at the turn, sample %d is %v, want at most %v", i, v, want(i))
		}
		if v == 0 {
			quiet++
		}
	}
	if quiet > 0 {
		t.Errorf("%d samples are silent", quiet)
	}
}

func abs(i int) int { return max(i, -i) }

// TestSpeeds plays a note: it keeps its pitch, or bends with the speed.
func TestSpeeds(t *testing.T) {
	for _, rate := range []int{8000, 22050, 44100, 96000, 192000} {
		for _, device := range []int{44100, 48000} {
			for _, speed := range []float64{0.25, 0.75, 1, 2} {
				for _, bends := range []bool{false, true} {
					name := fmt.Sprintf("%d Hz on %d, speed %g, bends %v", rate, device, speed, bends)
					s := newPlanned(song(rate, sine(200, rate, 3)), 0, newPlan(Manner{Speed: speed, Bends: bends}, 0.1, float64(device)))
					left, right := pull(t, s, device)
					n, want := 0, 200.
					if bends {
						want *= speed
					}
					for i := 1; i < len(left); i++ {
						if left[i-1] < 0 && left[i] >= 0 {
							n++
						}
						if left[i] != right[i] {
							t.Fatalf("%s: mono is not the same on both sides", name)
						}
					}
					if math.Abs(float64(n)-want) > 2+want/100 {
						t.Errorf("%s: it sounds at %d Hz, want %g", name, n, want)
					}
				}
			}
		}
	}
}

// TestSpeedsKeepTime looks for a hit late in a sound, at speeds that keep its
// pitch and after a turn.
func TestSpeedsKeepTime(t *testing.T) {
	const rate = 44100
	hit := make([]float32, 20*rate)
	for i := range 400 {
		hit[10*rate+i] = float32(math.Sin(2*math.Pi*800*float64(i)/rate) * math.Exp(-float64(i)/80))
	}
	for _, speed := range []float64{0.5, 0.75, 1.25, 2} {
		for _, m := range []Manner{{Speed: speed}, {Speed: speed, Bends: true}, {Speed: speed, From: 9.5, To: 10.5}} {
			p := newPlan(m, 9.5, 48000)
			left, _ := pull(t, newPlanned(song(rate, hit), 0, p), int(1.9/speed*48000))
			due := 0.5 / speed
			if m.To > 0 {
				due += 1 / speed // the second time round
				left = append(make([]float32, 48000/2), left[48000/2:]...)
				clear(left[:int((due-0.1)*48000)])
			}
			loudest := 0
			for i, v := range left {
				if v > left[loudest] {
					loudest = i
				}
			}
			if at := float64(loudest) / 48000; math.Abs(at-due) > 0.02 {
				t.Errorf("%+v: the hit comes at %.3f s, due at %.3f", m, at, due)
			}
		}
	}
}

func TestSlowReadingTakesNoMemory(t *testing.T) {
	s := newPlanned(song(44100, ramp(0, 90_000), ramp(0, 90_000)), 0, newPlan(Manner{Speed: 0.75, From: 0.2, To: 0.3}, 0, 48000))
	b := make([]byte, chunk*frameBytes)
	if allocs := testing.AllocsPerRun(400, func() { s.Read(b) }); allocs != 0 {
		t.Errorf("%v allocations a read", allocs)
	}
}
