package play

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

const testRate = 48000

// jerky is a device that takes a block at a time, quick by ppm parts in a
// million; it stops at second until.
type jerky struct {
	block int64
	ppm   float64
	until float64
}

// taken is the count at t seconds by the machine's clock; the device takes
// its first block at 0.
func (j jerky) taken(t float64) int64 {
	blocks := int64(min(t, j.until) * (1 + j.ppm*1e-6) * testRate / float64(j.block))
	return (blocks + 1) * j.block
}

// front is the place a smooth device would be at: right just after a block.
func (j jerky) front(t float64) float64 {
	return min(t, j.until)*(1+j.ppm*1e-6) + float64(j.block)/testRate
}

// watch asks a clock at about hz times a second, as unevenly as a window
// does, and calls see with each answer.
func watch(j jerky, seconds, hz float64, see func(t, position float64)) {
	c := clock{rate: testRate}
	start := time.Now()
	r := rand.New(rand.NewPCG(7, 7))
	for t := 0.0; t < seconds; t += (0.7 + 0.6*r.Float64()) / hz {
		see(t, c.observe(j.taken(t), start.Add(time.Duration(t*1e9))))
	}
}

// TestClockFollowsTheDevice lets the clock be wrong by what it cannot know:
// how long before it was asked a block was taken. Of 60 looks in a window one
// nearly always falls just after a block; 4 ms are a tenth of a frame at 24 a
// second.
func TestClockFollowsTheDevice(t *testing.T) {
	for _, c := range []struct {
		name   string
		device jerky
		hz     float64
		within float64 // seconds
	}{
		{"true device", jerky{block: 1440}, 60, 0.004},
		{"200 ppm slow", jerky{block: 1440, ppm: -200}, 60, 0.003},
		{"200 ppm fast", jerky{block: 1440, ppm: 200}, 60, 0.003},
		{"large blocks", jerky{block: 4096}, 60, 0.010},
		{"small blocks", jerky{block: 128}, 60, 0.001},
		{"asked often", jerky{block: 1440, ppm: -200}, 240, 0.0015},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.device.until = math.Inf(1)
			last, worst := 0.0, 0.0
			watch(c.device, 600, c.hz, func(at, got float64) {
				if got < last {
					t.Fatalf("at %.3f s it went back from %.6f to %.6f", at, last, got)
				}
				last = got
				if at > 1 {
					worst = max(worst, math.Abs(got-c.device.front(at)))
				}
			})
			if worst > c.within {
				t.Errorf("it was %.2f ms off, want at most %.2f", 1000*worst, 1000*c.within)
			}
		})
	}
}

func TestClockDoesNotRunAwayFromAStoppedDevice(t *testing.T) {
	j := jerky{block: 1440, until: 5}
	last := 0.0
	watch(j, 60, 60, func(_, got float64) { last = got })
	if most := float64(j.taken(60))/testRate + pause.Seconds(); last > most+1e-9 {
		t.Errorf("after the device stopped at 5 s it is at %.3f, want at most %.3f", last, most)
	}
}

func TestClockGoesOnAfterAStumble(t *testing.T) {
	// The device takes nothing for 200 ms from second 5 on and then goes on
	// where it was. The clock runs on for pause and waits as long after it.
	c := clock{rate: testRate}
	start := time.Now()
	steady := jerky{block: 1440, until: math.Inf(1)}
	last := 0.0
	for i := range 10 * 60 {
		at := float64(i) / 60.3
		device := at
		if at > 5 {
			device = max(5, at-0.2)
		}
		got := c.observe(steady.taken(device), start.Add(time.Duration(at*1e9)))
		if got < last {
			t.Fatalf("at %.3f s it went back from %.6f to %.6f", at, last, got)
		}
		last = got
		if off := math.Abs(got - steady.front(device)); at > 5.35 && off > 0.004 {
			t.Fatalf("at %.3f s, after the stumble, it is %.1f ms off", at, 1000*off)
		}
	}
}

func TestClockWaitsForTheFirstBlock(t *testing.T) {
	c := clock{rate: testRate}
	start := time.Now()
	for i, count := range []int64{0, -chunk, chunk, 0, chunk} { // on its way into the buffer
		if got := c.observe(count, start.Add(time.Duration(i)*100*time.Millisecond)); got != 0 {
			t.Fatalf("with a count of %d it is at %v", count, got)
		}
	}
	if got, want := c.observe(1440, start.Add(time.Second)), 0.03; math.Abs(got-want) > 1e-9 {
		t.Errorf("after the first block it is at %v, want %v", got, want)
	}
	if got, want := c.observe(1440, start.Add(1010*time.Millisecond)), 0.04; math.Abs(got-want) > 1e-9 {
		t.Errorf("10 ms later it is at %v, want %v", got, want)
	}
}
