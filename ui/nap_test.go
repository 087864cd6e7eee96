package ui

import (
	"testing"
	"time"
)

func TestNap(t *testing.T) {
	now := time.Unix(1000, 0)
	var busy bool
	var event time.Duration // after which something happens; 0: nothing does
	naps := 0
	n := &nap{
		now:  func() time.Time { return now },
		busy: func() bool { return busy },
		wait: func(d time.Duration) {
			naps++
			if event > 0 {
				d = event
			}
			now = now.Add(d)
		},
		stirs: now,
	}
	turns := func(d time.Duration) int {
		naps = 0
		for end := now.Add(d); now.Before(end); now = now.Add(16 * time.Millisecond) {
			n.tick()
		}
		return naps
	}
	if got := turns(awake); got != 0 {
		t.Errorf("just opened it sleeps %d times", got)
	}
	if got := turns(10 * time.Second); got < 80 || got > 100 {
		t.Errorf("left alone for ten seconds it sleeps %d times, want one after the other", got)
	}
	event = 30 * time.Millisecond
	n.tick()
	event = 0
	if got := turns(awake - 50*time.Millisecond); got != 0 {
		t.Errorf("after a key it sleeps %d times", got)
	}
	busy = true
	if got := turns(time.Minute); got != 0 {
		t.Errorf("while it plays it sleeps %d times", got)
	}
	busy = false
	if got := turns(awake - 50*time.Millisecond); got != 0 {
		t.Errorf("just stopped it sleeps %d times", got)
	}
	if turns(time.Second) == 0 {
		t.Error("a second after that it does not sleep")
	}
}
