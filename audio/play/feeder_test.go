package play

import (
	"errors"
	"math"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// fakeOutput holds a buffer of sound and plays it by the clock, as a sound
// card does; what it played is heard.
type fakeOutput struct {
	mu      sync.Mutex
	hz      int
	broken  error // of all calls
	hangs   bool  // it takes nothing
	sleeps  bool  // it takes what there is room for, and plays nothing
	held    bool
	opens   int
	pauses  int
	written int64
	played  float64 // pairs, at since
	since   time.Time
	heard   []float32 // the left side of the last that was written
	lost    int       // written before that
	quartz  float64   // how much faster than it says it plays; 0: no faster
	keeps   bool      // what it was given it plays
}

func (o *fakeOutput) open(hz int) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	if o.broken != nil {
		return o.broken
	}
	o.hz, o.opens, o.held = hz, o.opens+1, false
	o.written, o.played, o.since = 0, 0, time.Now()
	return nil
}

// room brings it up to date; callers hold the lock.
func (o *fakeOutput) room() int {
	if !o.held && !o.sleeps {
		o.played = min(o.played+time.Since(o.since).Seconds()*float64(o.hz)*(1+o.quartz), float64(o.written))
	}
	o.since = time.Now()
	return int(buffer.Seconds()*float64(o.hz)) - int(o.written-int64(o.played))
}

func (o *fakeOutput) write(b []float32, _ bool) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	n := min(o.room(), len(b)/channels)
	if o.broken != nil {
		return 0, o.broken
	}
	if n <= 0 || o.hangs {
		o.mu.Unlock()
		time.Sleep(5 * time.Millisecond)
		o.mu.Lock()
		return 0, nil
	}
	o.written += int64(n)
	for i := range n {
		o.heard = append(o.heard, b[i*channels])
	}
	if most := 1 << 20; len(o.heard) > most {
		o.lost += most / 2
		o.heard = append([]float32(nil), o.heard[most/2:]...)
	}
	return n, nil
}

func (o *fakeOutput) delay() (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.room()
	return int(o.written - int64(o.played)), o.broken
}

func (o *fakeOutput) pause(held bool) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.room()
	o.held = held
	if held {
		o.pauses++
	}
	return o.broken
}

func (o *fakeOutput) drop() error {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.room()
	if !o.keeps {
		unheard := int(o.written - int64(o.played))
		o.written, o.heard = o.written-int64(unheard), o.heard[:len(o.heard)-unheard]
	}
	return o.broken
}

func (o *fakeOutput) close() {}

// sounds returns the sample that is heard just now.
func (o *fakeOutput) sounds() float64 {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.room()
	return float64(o.heard[len(o.heard)-int(o.written-int64(o.played))-1])
}

func (o *fakeOutput) set(broken error, hangs bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.broken, o.hangs = broken, hangs
}

func (o *fakeOutput) sleep(sleeps bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.room()
	o.sleeps = sleeps
}

// counts returns how often it was opened and held, and how much it was given.
func (o *fakeOutput) counts() (opens, pauses, pairs int) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.opens, o.pauses, o.lost + len(o.heard)
}

// withFeeder runs a test with a player on a feeder, loaded with a song of 60
// seconds whose samples are their numbers, and ends the feeder after it.
func withFeeder(t *testing.T, broken error, test func(t *testing.T, p *Player, o *fakeOutput)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		o := &fakeOutput{broken: broken}
		f := newFeeder(o, 48000)
		p := &Player{open: func(rate int) (device, error) {
			f.tuneTo(rate)
			f.lookNow()
			return f, nil
		}}
		defer func() {
			p.Stop()
			o.set(errors.New("the test is over"), false)
			f.tuneTo(1) // wakes it; it ends
			time.Sleep(time.Second)
		}()
		p.Load(song(48000, ramp(0, 60*48000)), 0)
		test(t, p, o)
	})
}

func TestFeederTellsWhatIsHeard(t *testing.T) {
	withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
		for _, idle := range []time.Duration{0, 100 * time.Millisecond, 3 * time.Second, time.Hour} {
			time.Sleep(idle)
			p.Play(2)
			watchFor(p, 3*time.Second)
			checkNear(t, "after "+idle.String()+" of nothing", p.Position(), o.sounds()/48000, 0.002)
			p.Stop()
		}
	})
}

// TestFeederCostsNothingIdle: nothing is written and nobody wakes up while
// nothing is to be heard.
func TestFeederCostsNothingIdle(t *testing.T) {
	withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
		p.Play(0)
		time.Sleep(time.Second)
		p.Stop()
		time.Sleep(2 * linger)
		_, _, before := o.counts()
		time.Sleep(time.Hour)
		opens, pauses, after := o.counts()
		if after != before || opens != 1 || pauses == 0 {
			t.Errorf("in an idle hour %d pairs were written; opened %d times, held %d times", after-before, opens, pauses)
		}
	})
}

// TestFeederAnswersAtOnce: what begins while nothing sounds is heard without
// the silence that was ready, and what ends leaves nothing behind.
func TestFeederAnswersAtOnce(t *testing.T) {
	withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
		for _, idle := range []time.Duration{0, 200 * time.Millisecond, time.Second} {
			time.Sleep(idle)
			p.Play(1)
			time.Sleep(20 * time.Millisecond)
			if at := o.sounds() / 48000; at < 1.01 || at > 1.02 {
				t.Errorf("20 ms after it began, %v idle, sample %.3f is heard", idle, at)
			}
			time.Sleep(time.Second)
			p.Stop()
			time.Sleep(20 * time.Millisecond)
			if at := o.sounds(); at != 0 {
				t.Errorf("20 ms after it ended sample %v is heard", at)
			}
		}
	})
}

// TestFeederLeavesNoSoundBehind hammers steps while it plays: once it is
// stopped, no more than what the output held is heard.
func TestFeederLeavesNoSoundBehind(t *testing.T) {
	withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
		for i := range 500 {
			p.Play(float64(i%50) + 1)
			p.Position()
			time.Sleep(time.Duration(i%20) * time.Millisecond)
		}
		p.Stop()
		for range 50 {
			p.Scrub(3)
			time.Sleep(3 * time.Millisecond)
		}
		p.Stop()
		_, _, before := o.counts()
		time.Sleep(time.Minute)
		o.mu.Lock()
		defer o.mu.Unlock()
		for i, v := range o.heard[before:] {
			if v != 0 && i > 480 { // the block that was mixed already
				t.Fatalf("%d pairs after Stop there is %v", i, v)
			}
		}
	})
}

func TestFeederLosesItsOutput(t *testing.T) {
	gone := errors.New("pulled out")
	for _, c := range []struct {
		name  string
		spoil func(o *fakeOutput)
		want  error
	}{
		{"it breaks", func(o *fakeOutput) { o.set(gone, false) }, gone},
		{"it hangs", func(o *fakeOutput) { o.set(nil, true) }, errNoAnswer},
		{"it sleeps", func(o *fakeOutput) { o.sleep(true) }, errNoAnswer},
	} {
		t.Run(c.name, func(t *testing.T) {
			withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
				p.Play(1)
				watchFor(p, 2*time.Second)
				c.spoil(o)
				watchFor(p, stuck+time.Second)
				if !errors.Is(p.Trouble(), c.want) {
					t.Fatalf("Trouble = %v, want %v", p.Trouble(), c.want)
				}
				at := p.Position()
				watchFor(p, 2*time.Second)
				checkNear(t, "two seconds on, by the clock", p.Position(), at+2, 0.001)
				o.set(nil, false)
				o.sleep(false)
				at = p.Position()
				watchFor(p, 5*time.Second)
				if p.Trouble() != nil {
					t.Fatalf("it is back, and Trouble = %v", p.Trouble())
				}
				checkNear(t, "the film went on", p.Position(), at+5, 0.15)
				checkNear(t, "with its sound again", p.Position(), o.sounds()/48000, 0.002)
			})
		})
	}
}

func TestFeederFindsAnOutputThatComesLater(t *testing.T) {
	withFeeder(t, errors.New("no such thing"), func(t *testing.T, p *Player, o *fakeOutput) {
		if p.Trouble() == nil {
			t.Fatal("without an output there is no trouble")
		}
		p.Play(1)
		watchFor(p, 2*time.Second)
		checkNear(t, "by the clock", p.Position(), 3, 0.001)
		o.set(nil, false)
		watchFor(p, 2*time.Second)
		if _, _, pairs := o.counts(); p.Trouble() != nil || pairs == 0 {
			t.Errorf("Trouble = %v after %d pairs", p.Trouble(), pairs)
		}
		checkNear(t, "the film went on", p.Position(), 5, 0.15)
	})
}

// TestFeederPlaysAllRates plays a sine of each rate, on one side and on both,
// and compares what was written with the ideal one. The sine is low, since a
// cubic is coarse near the highest frequencies.
func TestFeederPlaysAllRates(t *testing.T) {
	for _, rate := range []int{8000, 11025, 22050, 44100, 48000, 96000, 192000} {
		for sides := 1; sides <= 2; sides++ {
			withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
				o.keeps = true
				s := sine(200, rate, 4)
				p.Load(song(rate, [][]float32{s, s}[:sides]...), 0)
				time.Sleep(2 * time.Second)
				_, _, before := o.counts()
				p.Play(1)
				watchFor(p, 2*time.Second)
				checkNear(t, "at", p.Position(), 3-buffer.Seconds(), 0.08)
				p.Stop()
				o.mu.Lock()
				defer o.mu.Unlock()
				heard := o.heard[before:]
				for len(heard) > 0 && math.Abs(float64(heard[0])) < 1e-6 {
					heard = heard[1:]
				}
				if o.hz != deviceRate(rate) || len(heard) < o.hz {
					t.Fatalf("%d Hz, %d channels: %d samples at %d Hz", rate, sides, len(heard), o.hz)
				}
				for i, v := range heard[:o.hz] {
					want := math.Sin(2 * math.Pi * 200 * (1 + float64(i+1)/float64(o.hz))) // sample 0 of it is 0
					if math.Abs(float64(v)-want) > 0.002 {
						t.Fatalf("%d Hz, %d channels: sample %d is %.4f, want %.4f", rate, sides, i, v, want)
					}
				}
			})
		}
	}
}

// TestTenMinutesWithoutDrift plays ten minutes on devices whose quartz is
// right, fast and slow, asks at each refresh of a screen, and compares the
// frame at 24 a second with the one whose sound is heard. Common crystals keep
// to 100 parts in a million (common practice).
func TestTenMinutesWithoutDrift(t *testing.T) {
	for _, quartz := range []float64{0, 100e-6, -100e-6, 500e-6} {
		withFeeder(t, nil, func(t *testing.T, p *Player, o *fakeOutput) {
			p.Load(numbered{}, 0)
			time.Sleep(2 * time.Second)
			o.mu.Lock()
			o.quartz = quartz
			o.mu.Unlock()
			p.Play(0)
			time.Sleep(time.Second)
			const round = 1 << 20 // samples after which numbered begins again
			cuts, worst := 0, 0.0
			for shown := 0; p.Position() < 600; time.Sleep(time.Second / 60) {
				at := p.Position()
				off := math.Remainder(at*48000-o.sounds(), round) / 48000
				worst = max(worst, math.Abs(off))
				if f := int(at * 24); f != shown {
					// A cut at each frame: what is heard is in that frame too, but
					// for the accuracy of the position.
					if cuts++; int((at-off+0.002)*24) < f || int((at-off-0.002)*24) > f {
						t.Fatalf("quartz %g: at %.4f s frame %d is shown, %.4f s is heard", quartz, at, f, at-off)
					}
					shown = f
				}
			}
			if worst > 0.002 || cuts < 14000 {
				t.Errorf("quartz %g: off by %.4f s at worst over %d frames", quartz, worst, cuts)
			}
		})
	}
}

// numbered is a sound without end whose samples are their numbers, from 0
// again after each 2^20.
type numbered struct{}

func (numbered) Rate() int     { return 48000 }
func (numbered) Channels() int { return 1 }
func (numbered) Read(dst [][]float32, at int) {
	for i := range dst[0] {
		dst[0][i] = float32(max(at+i, 0) % (1 << 20))
	}
}
