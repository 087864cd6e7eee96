package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

// nap has a window in which nothing happens sleep. The toolkit looks for events
// sixty times a second, which costs more than a hundredth of a core for
// nothing; here it waits for them instead. What is posted to the window comes
// in up to napping later, so it stays awake while something is under way.
type nap struct {
	wait  func(time.Duration) // until something happens, so long at most
	now   func() time.Time
	busy  func() bool
	stirs time.Time // when something happened last
}

const (
	napping = 100 * time.Millisecond
	awake   = 1500 * time.Millisecond // after something happened
)

// tick is called at each turn of the toolkit's loop.
func (n *nap) tick() {
	began := n.now()
	if n.busy() {
		n.stirs = began
	}
	if began.Sub(n.stirs) < awake {
		return
	}
	n.wait(napping)
	if end := n.now(); end.Sub(began) < napping*9/10 {
		n.stirs = end
	}
}

// letNap lets the window sleep from now on.
func (w *window) letNap() {
	n := &nap{
		wait:  func(d time.Duration) { glfw.WaitEventsTimeout(d.Seconds()) },
		now:   time.Now,
		busy:  func() bool { return w.playing != nil || w.jobs.Busy() },
		stirs: time.Now(),
	}
	a := fyne.NewAnimation(time.Hour, func(float32) { n.tick() })
	a.RepeatCount = fyne.AnimationRepeatForever
	a.Start()
}
