package play

import (
	"fmt"
	"io"
	"sync"
	"time"
)

// output is a sound device that can be opened again and again. One goroutine
// calls its methods.
type output interface {
	open(hz int) error
	// write hands over what there is room for of b, pairs of samples, and
	// returns how many pairs that was. Where there is no room it waits a little.
	// Of silence it may hold less ready than of sound.
	write(b []float32, silence bool) (int, error)
	drop() error           // takes back what is not heard yet, as far as it can
	delay() (int, error)   // pairs to be heard before the next that is written
	pause(held bool) error // holds what it has, or goes on with it
	close()
}

// feeder is a device made of an output. It holds it where nothing is to be
// heard, so that a window in which nothing plays costs nothing: opening it anew
// would, and a sound server may let nothing through for a second or two. An
// output that was lost is opened again.
type feeder struct {
	out  output
	wake chan struct{} // holds a word for a feed that waits

	mu      sync.Mutex
	hz      int
	voices  []*fed
	feeding bool
	wanted  bool // the output is to be opened though nothing sounds yet
	stale   bool // it is open at another rate than hz
	cut     bool // what is not heard yet is not to be
	silence int  // pairs mixed since something sounded
	looked  time.Time
	trouble error
	moved   time.Time // when something was last heard that is new; zero while nothing is asked of the output

	// Pairs of samples since the output was opened: mixed, written, and heard
	// when it was asked last.
	mixed, written, heard int64
	asked                 time.Time
	foremost              int64 // of what was heard
	anew                  bool  // what is heard next does not tell whether the output plays
}

const (
	linger = time.Second / 2 // silence is written after the last sound, and first of all
	stuck  = 3 * time.Second // an output is given up when it does nothing for so long
	again  = time.Second     // between looking for it and looking again
)

func newFeeder(out output, hz int) *feeder {
	return &feeder{out: out, hz: hz, wake: make(chan struct{}, 1)}
}

func (f *feeder) latency() time.Duration { return 0 } // pending has it all

func (f *feeder) rate() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.hz
}

// tuneTo has the output opened at another rate, unless something sounds.
func (f *feeder) tuneTo(hz int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if hz != f.hz && len(f.voices) == 0 {
		f.hz, f.stale = hz, true
		f.call()
	}
}

func (f *feeder) err() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if !f.moved.IsZero() && time.Since(f.moved) > stuck {
		return errNoAnswer
	}
	return f.trouble
}

func (f *feeder) look() {
	f.mu.Lock()
	defer f.mu.Unlock()
	if time.Since(f.looked) >= again {
		f.looked, f.wanted = time.Now(), true
		f.call()
	}
}

// lookNow looks and waits until it is known whether there is an output.
func (f *feeder) lookNow() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.wanted = true
	f.call()
	for end := time.Now().Add(stuck); f.wanted && time.Now().Before(end); {
		f.mu.Unlock()
		time.Sleep(5 * time.Millisecond)
		f.mu.Lock()
	}
}

// call has feed look at what is wanted; callers hold the lock.
func (f *feeder) call() {
	if !f.feeding {
		f.feeding = true
		go f.feed()
		return
	}
	select {
	case f.wake <- struct{}{}:
	default:
	}
}

// feed opens the output and sounds while it is called for.
func (f *feeder) feed() {
	for {
		f.mu.Lock()
		if f.feeding = len(f.voices) > 0 || f.wanted; !f.feeding {
			f.moved = time.Time{}
			f.mu.Unlock()
			return
		}
		hz := f.hz
		f.stale, f.cut, f.moved = false, false, time.Now()
		f.mixed, f.written, f.heard, f.silence, f.anew = 0, 0, 0, 0, true
		f.mu.Unlock()

		err := f.out.open(hz)
		f.tell(err)
		if err == nil {
			if err = f.sound(hz); err != nil {
				f.tell(fmt.Errorf("the sound device went away: %w", err))
			}
			f.out.close()
		}
	}
}

// tell takes down how the output is. Without one all voices end.
func (f *feeder) tell(err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.trouble, f.wanted, f.moved = err, false, time.Now()
	if err != nil {
		f.voices = nil
	}
}

func (f *feeder) voice(r io.Reader) voice { return &fed{feeder: f, r: r} }
