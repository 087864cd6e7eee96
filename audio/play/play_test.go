package play

import (
	"errors"
	"io"
	"math"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// fakeDevice takes a period of sound from each voice at a time, as a sound
// card does; in a synctest bubble it is exact.
type fakeDevice struct {
	hz     int
	broken atomic.Pointer[error] // holds nil once it is back
	looks  atomic.Int32

	mu     sync.Mutex
	voices []*fakeVoice
}

const period = 30 * time.Millisecond

func (d *fakeDevice) rate() int              { return d.hz }
func (d *fakeDevice) latency() time.Duration { return 90 * time.Millisecond }

func (d *fakeDevice) err() error {
	if e := d.broken.Load(); e != nil && *e != nil {
		return *e
	}
	return nil
}

func (d *fakeDevice) look() { d.looks.Add(1) }

func (d *fakeDevice) fail(err error) { d.broken.Store(&err) }

func (d *fakeDevice) voice(r io.Reader) voice {
	v := &fakeVoice{device: d, r: r, closed: make(chan struct{})}
	d.mu.Lock()
	d.voices = append(d.voices, v)
	d.mu.Unlock()
	return v
}

// sounding counts the voices that were started and not closed.
func (d *fakeDevice) sounding() (n int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, v := range d.voices {
		v.mu.Lock()
		if v.playing && !v.gone {
			n++
		}
		v.mu.Unlock()
	}
	return n
}

// fakeVoice keeps two periods ready and takes one at each turn, the first as
// soon as it plays.
type fakeVoice struct {
	device *fakeDevice
	r      io.Reader
	closed chan struct{}

	mu       sync.Mutex
	buffered int
	heard    []byte
	playing  bool
	ended    bool // nothing more is to be read
	gone     bool
}

func (v *fakeVoice) Play() {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.playing = true
	v.fill()
	go v.work()
}

func (v *fakeVoice) work() {
	for v.device.err() == nil {
		v.mu.Lock()
		v.buffered = max(0, v.buffered-v.block())
		v.fill()
		rung := v.ended && v.buffered == 0
		v.gone = v.gone || rung
		v.mu.Unlock()
		if rung {
			return
		}
		select {
		case <-v.closed:
			return
		case <-time.After(period):
		}
	}
}

func (v *fakeVoice) block() int { return int(period.Seconds()*float64(v.device.hz)) * frameBytes }

func (v *fakeVoice) fill() {
	b := make([]byte, 2*v.block())
	for v.buffered < len(b) {
		n, err := v.r.Read(b)
		v.buffered += n
		v.heard = append(v.heard, b[:n]...)
		if err != nil {
			v.ended = true
			return
		}
	}
}

func (v *fakeVoice) BufferedSize() int {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.buffered
}

func (v *fakeVoice) Close() error {
	v.mu.Lock()
	defer v.mu.Unlock()
	if !v.gone {
		v.gone = true
		close(v.closed)
	}
	return nil
}

// newTestPlayer returns a player on a fake device with a song of 20 seconds
// that begins at second start of the film.
func newTestPlayer(start float64) (*Player, *fakeDevice) {
	d := &fakeDevice{}
	p := &Player{open: func(rate int) (device, error) {
		d.hz = rate
		return d, nil
	}}
	p.Load(song(48000, ramp(0, 20*48000)), start)
	return p, d
}

// watchFor asks for the position as a window does.
func watchFor(p *Player, d time.Duration) {
	for end := time.Now().Add(d); time.Now().Before(end); {
		p.Position()
		time.Sleep(min(7*time.Millisecond, time.Until(end)))
	}
}

func checkNear(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: %.4f, want %.4f", what, got, want)
	}
}

func TestPlayerTellsWhatIsHeard(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0)
		if p.Playing() || p.Position() != 0 {
			t.Errorf("before it plays: %v at %v", p.Playing(), p.Position())
		}
		defer p.Stop()
		p.Play(2)
		start := time.Now()
		last := 2.0
		for time.Since(start) < 4*time.Second {
			got := p.Position()
			if got < last {
				t.Fatalf("it went back from %v to %v", last, got)
			}
			last = got
			// The first period was taken at once and is heard when it went
			// through the device.
			want := 2 + max(0, (time.Since(start)+period-d.latency()).Seconds())
			tolerance := 0.007 // it may have been asked that long after a block was taken
			if time.Since(start) > time.Second {
				tolerance = 0.002
			}
			if math.Abs(got-want) > tolerance {
				t.Fatalf("%v after it began it is at %.4f, want %.4f", time.Since(start), got, want)
			}
			time.Sleep(7 * time.Millisecond)
		}
		if p.Trouble() != nil {
			t.Error(p.Trouble())
		}
		p.Stop()
		if p.Playing() || p.Position() != 0 || d.sounding() != 0 {
			t.Errorf("stopped: %v at %v with %d voices", p.Playing(), p.Position(), d.sounding())
		}
		p.Stop() // once more does nothing
	})
}

// firstHeard returns the first sample that the newest voice was given.
func firstHeard(t *testing.T, d *fakeDevice) float32 {
	t.Helper()
	v := d.voices[len(d.voices)-1]
	v.mu.Lock()
	defer v.mu.Unlock()
	return math.Float32frombits(uint32(v.heard[0]) | uint32(v.heard[1])<<8 | uint32(v.heard[2])<<16 | uint32(v.heard[3])<<24)
}

func TestPlayerSoundsFromTheRightPlace(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0.5)
		p.Play(2)
		if got := firstHeard(t, d); got != 1.5*48000 {
			t.Errorf("second 2 of a song that begins at 0.5 starts with sample %v, want 72000", got)
		}
		p.Slide(1)
		time.Sleep(time.Second)
		if len(d.voices) != 1 {
			t.Error("a slide was heard before the next Play")
		}
		p.Play(2) // playing already
		if got := firstHeard(t, d); got != 48000 {
			t.Errorf("after the slide it starts with sample %v, want 48000", got)
		}
		if d.sounding() != 1 {
			t.Errorf("%d voices sound at once", d.sounding())
		}
		checkNear(t, "playing again", p.Position(), 2, 1e-9)
		p.Play(0.25) // before the song begins
		if got := firstHeard(t, d); got != 0 {
			t.Errorf("before the song there is %v", got)
		}
		watchFor(p, time.Second)
		checkNear(t, "before the song the film goes on", p.Position(), 0.25+1-0.06, 0.003)
		p.Stop()
	})
}

func TestPlayerLosesItsDevice(t *testing.T) {
	gone := errors.New("the headphones were pulled out")
	for _, c := range []struct {
		name  string
		asked bool // Position was asked before it broke
		want  float64
	}{
		{"while it is watched", true, 3 + 1 - 0.06},
		{"before it was ever asked", false, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				p, d := newTestPlayer(0)
				p.Play(3)
				if c.asked {
					watchFor(p, time.Second)
					p.Position()
				} else {
					time.Sleep(time.Second)
				}
				d.fail(gone)
				checkNear(t, "just after", p.Position(), c.want, 0.003)
				time.Sleep(2 * time.Second)
				checkNear(t, "two seconds later", p.Position(), c.want+2, 0.003)
				if !p.Playing() || !errors.Is(p.Trouble(), gone) || d.sounding() != 0 {
					t.Errorf("playing %v, trouble %v, %d voices", p.Playing(), p.Trouble(), d.sounding())
				}
				p.Play(10)
				time.Sleep(time.Second)
				checkNear(t, "playing again, by the clock", p.Position(), 11, 1e-9)
				p.Stop()
			})
		})
	}
}

func TestPlayerTellsOfALostDeviceWhileStopped(t *testing.T) {
	p, d := newTestPlayer(0)
	gone := errors.New("gone")
	d.fail(gone)
	if !errors.Is(p.Trouble(), gone) {
		t.Errorf("Trouble = %v", p.Trouble())
	}
}

func TestPlayerWithoutADevice(t *testing.T) {
	none := errors.New("there is no sound device")
	refusing := func(int) (device, error) { return nil, none }
	for _, c := range []struct {
		name    string
		load    func(p *Player)
		trouble error
	}{
		{"nothing loaded", func(*Player) {}, nil},
		{"a silent film", func(p *Player) { p.Load(nil, 0) }, nil},
		{"a song and no device", func(p *Player) { p.Load(song(44100, ramp(0, 9)), 0) }, none},
		{"the song is taken away again", func(p *Player) {
			p.Load(song(44100, ramp(0, 9)), 0)
			p.Load(nil, 0)
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				p := &Player{open: refusing}
				c.load(p)
				p.Play(1)
				time.Sleep(1500 * time.Millisecond)
				checkNear(t, "by the clock", p.Position(), 2.5, 1e-9)
				if p.Trouble() != c.trouble {
					t.Errorf("Trouble = %v, want %v", p.Trouble(), c.trouble)
				}
			})
		})
	}
}

func TestLoadWhilePlayingGoesOn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		d := &fakeDevice{}
		p := &Player{open: func(rate int) (device, error) {
			time.Sleep(time.Second) // a device can take long to open
			d.hz = rate
			return d, nil
		}}
		p.Play(0)
		time.Sleep(time.Second)
		p.Load(song(44100, ramp(0, 20*44100)), 0)
		if got := firstHeard(t, d); got != 2*44100 {
			t.Errorf("the song comes in with sample %v, want 88200", got)
		}
		watchFor(p, time.Second)
		checkNear(t, "with the song", p.Position(), 2+1-0.06, 0.003)
		p.Load(nil, 0)
		if d.sounding() != 0 || !p.Playing() {
			t.Errorf("without a song: %d voices sound, playing %v", d.sounding(), p.Playing())
		}
		p.Stop()
	})
}

func TestDeviceRate(t *testing.T) {
	for rate, want := range map[int]int{44100: 44100, 22050: 44100, 11025: 44100, 88200: 44100, 48000: 48000, 96000: 48000, 32000: 48000, 8000: 48000} {
		if got := deviceRate(rate); got != want {
			t.Errorf("deviceRate(%d) = %d, want %d", rate, got, want)
		}
	}
}

// TestPlayerFromAllSides is for the race detector; of all that was started
// at once, one voice at most may go on.
func TestPlayerFromAllSides(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0)
		var all sync.WaitGroup
		for g := range 4 {
			all.Go(func() {
				for i := range 50 {
					switch (i + g) % 5 {
					case 0:
						p.Stop()
					case 1:
						p.Slide(float64(i))
					case 2:
						p.Trouble()
						p.Playing()
					default:
						p.Play(float64(i))
					}
					if at := p.Position(); at < 0 {
						t.Errorf("it is at %v", at)
					}
					if i%10 == g {
						time.Sleep(time.Millisecond)
					}
				}
			})
		}
		all.Wait()
		p.Play(1)
		if n := d.sounding(); n != 1 {
			t.Errorf("%d voices sound at once", n)
		}
		p.Stop()
		if n := d.sounding(); n != 0 {
			t.Errorf("%d voices sound after Stop", n)
		}
	})
}
