package play

import (
	"encoding/binary"
	"errors"
	"math"
	"slices"
	"testing"
	"testing/synctest"
	"time"
)

var errNone = errors.New("there is no sound device")

// heardOf returns the left samples a voice was given.
func heardOf(v *fakeVoice) (out []float32) {
	v.mu.Lock()
	defer v.mu.Unlock()
	for i := 0; i < len(v.heard); i += frameBytes {
		out = append(out, math.Float32frombits(binary.LittleEndian.Uint32(v.heard[i:])))
	}
	return out
}

func TestScrubSoundsInSnippets(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0.5)
		for i := range 40 { // 200 ms of dragging
			p.Scrub(2 + float64(i)*0.01)
			time.Sleep(5 * time.Millisecond)
		}
		time.Sleep(time.Second)
		var starts []float64
		d.mu.Lock()
		voices := slices.Clone(d.voices)
		d.mu.Unlock()
		for _, v := range voices {
			x := heardOf(v)
			if n := int(snippet.Seconds() * 48000); len(x) != n {
				t.Errorf("a snippet of %d samples, want %d", len(x), n)
			}
			// Past the rise the ramp tells the place.
			starts = append(starts, math.Round((float64(x[100])-100)/480+50)/100)
		}
		want := []float64{2, 2.11, 2.23, 2.35, 2.39}
		if len(starts) != len(want) {
			t.Fatalf("snippets at %v, want %v", starts, want)
		}
		for i := range want {
			if math.Abs(starts[i]-want[i]) > 0.011 {
				t.Errorf("snippet %d is at %.2f, want %.2f", i, starts[i], want[i])
			}
		}
		p.Scrub(3)
		p.Play(4)
		p.Scrub(5) // while it plays: nothing
		time.Sleep(time.Second)
		if n := d.sounding(); n != 1 {
			t.Errorf("%d voices sound while it plays, want 1", n)
		}
		p.Stop()
	})
}

func TestScrubWithoutADevice(t *testing.T) {
	var p Player
	p.Scrub(1)
	if p.Playing() || p.Trouble() != nil {
		t.Error("a scrub without a sound does something")
	}
}

// TestLoopTellsWhatIsHeard watches a loop as a window does.
func TestLoopTellsWhatIsHeard(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0)
		p.SetManner(Manner{Speed: 0.5, From: 2, To: 3})
		p.Play(2)
		start := time.Now()
		for time.Since(start) < 10*time.Second {
			got := p.Position()
			if got < 2 || got >= 3 {
				t.Fatalf("it is at %v, outside the loop", got)
			}
			heard := max(0, (time.Since(start) + period - d.latency()).Seconds())
			want := 2 + math.Mod(heard*0.5, 1)
			if off := math.Abs(got - want); time.Since(start) > time.Second && min(off, 1-off) > 0.002 {
				t.Fatalf("%v after it began it is at %.4f, want %.4f", time.Since(start), got, want)
			}
			time.Sleep(7 * time.Millisecond)
		}
		if len(d.voices) != 1 {
			t.Errorf("%d voices were used, want 1 throughout", len(d.voices))
		}
		p.Stop()
	})
}

// TestQuickSteps plays anew 200 times in 2 seconds: the sound is where it was
// asked for, and one voice sounds.
func TestQuickSteps(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		p, d := newTestPlayer(0)
		p.Play(1)
		for i := range 200 {
			p.Play(1 + float64(i)/24)
			time.Sleep(10 * time.Millisecond)
		}
		if n := d.sounding(); n != 1 {
			t.Errorf("%d voices sound", n)
		}
		watchFor(p, time.Second)
		checkNear(t, "a second after the last", p.Position(), 1+199./24+1.01-0.06, 0.004)
		p.Stop()
	})
}

// TestDeviceIsLookedForAgain loads again after there was no device.
func TestDeviceIsLookedForAgain(t *testing.T) {
	d := &fakeDevice{hz: 48000}
	there := false
	p := &Player{open: func(int) (device, error) {
		if !there {
			return nil, errNone
		}
		return d, nil
	}}
	p.Load(song(48000, ramp(0, 99)), 0)
	if p.Trouble() != errNone {
		t.Errorf("Trouble = %v", p.Trouble())
	}
	there = true
	p.Load(song(48000, ramp(0, 99)), 0)
	if p.Trouble() != nil {
		t.Errorf("with a device: Trouble = %v", p.Trouble())
	}
}
