package play

import "time"

// sound feeds the open output until it is to be opened anew or cannot be held.
func (f *feeder) sound(hz int) error {
	block := make([]float32, hz/100*channels)
	var rest []float32 // of block, not taken yet
	for f.current() {
		if f.silentFor() >= linger {
			if f.out.pause(true) != nil {
				return nil
			}
			f.wait()
			if err := f.out.pause(false); err != nil {
				return err
			}
		}
		if f.takeCut() {
			if err := f.out.drop(); err != nil {
				return err
			}
			rest = nil
		}
		if len(rest) == 0 {
			f.mix(block)
			rest = block
		}
		n, err := f.out.write(rest, f.silentFor() > 0)
		if err != nil {
			return err
		}
		rest = rest[n*channels:]
		delay, err := f.out.delay()
		if err != nil {
			return err
		}
		f.note(n, delay)
	}
	return nil
}

// current reports whether the open output is the one that is wanted.
func (f *feeder) current() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.wanted = f.wanted && f.stale
	return !f.stale
}

// wait waits for something to sound, or for the output to be opened anew.
func (f *feeder) wait() {
	f.mu.Lock()
	defer f.mu.Unlock()
	for len(f.voices) == 0 && !f.stale {
		f.moved, f.wanted = time.Time{}, false
		f.mu.Unlock()
		<-f.wake
		f.mu.Lock()
	}
	f.moved, f.cut, f.silence = time.Now(), true, 0
}

// takeCut reports whether what is not heard yet is to be dropped, and counts
// it as if it had not been mixed.
func (f *feeder) takeCut() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	cut := f.cut
	if f.cut = false; cut {
		f.mixed, f.anew = f.written, true
	}
	return cut
}

// silentFor returns how long nothing sounded of what was mixed.
func (f *feeder) silentFor() time.Duration {
	f.mu.Lock()
	defer f.mu.Unlock()
	return time.Duration(f.silence) * time.Second / time.Duration(f.hz)
}

// mix makes the next block of what sounds.
func (f *feeder) mix(block []float32) {
	f.mu.Lock()
	defer f.mu.Unlock()
	clear(block)
	if f.silence += len(block) / channels; len(f.voices) > 0 {
		f.silence = 0
	}
	live := f.voices[:0]
	for _, v := range f.voices {
		if v.add(block) {
			live = append(live, v)
		}
	}
	clear(f.voices[len(live):])
	f.voices = live
	f.mixed += int64(len(block) / channels)
}

// note takes down that n pairs more were written and how many are to be heard
// yet.
func (f *feeder) note(n, delay int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.written += int64(n)
	f.heard, f.asked = f.written-int64(delay), time.Now()
	if f.anew {
		f.foremost, f.anew = f.heard, false
	}
	if f.heard > f.foremost {
		f.foremost, f.moved = f.heard, f.asked
	}
}

// pending returns how many pairs were mixed and are not heard; callers hold
// the lock.
func (f *feeder) pending() int64 {
	heard := f.heard
	if f.written > 0 {
		heard += int64(time.Since(f.asked).Seconds() * float64(f.hz))
	}
	return f.mixed - min(max(heard, 0), f.written)
}
