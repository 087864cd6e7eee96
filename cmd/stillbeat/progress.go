package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"

	"stillbeat/board/desk"
	"stillbeat/board/share"
)

const (
	meterAfter   = time.Second            // jobs done sooner show nothing
	meterEvery   = 200 * time.Millisecond // between two drawings
	meterColumns = 79
)

// meter shows on a terminal how far a long job is: one line, written over and
// over, gone at the end. A nil meter shows nothing.
type meter struct {
	w     io.Writer
	begun time.Time
	quit  chan struct{}
	ended sync.WaitGroup

	mu    sync.Mutex
	what  string
	since time.Time // when what began
	done  float64
	shown int // columns on the screen
}

// meter starts the progress line of a command, nil where nobody would see it.
// Its close must be called before anything else is written.
func (a *app) meter() *meter {
	if !a.terminal || a.quiet {
		return nil
	}
	m := &meter{w: a.errOut, begun: time.Now(), quit: make(chan struct{})}
	m.ended.Go(m.loop)
	return m
}

// stage names what is being done now and returns the Progress to tell.
func (m *meter) stage(format string, args ...any) desk.Progress {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.what, m.since, m.done = oneLine(fmt.Sprintf(format, args...)), time.Now(), 0
	return func(done float64) {
		m.mu.Lock()
		defer m.mu.Unlock()
		m.done = max(m.done, min(1, done))
	}
}

// close takes the line off the screen. It may be called twice.
func (m *meter) close() {
	if m == nil {
		return
	}
	select {
	case <-m.quit:
	default:
		close(m.quit)
	}
	m.ended.Wait()
}

func (m *meter) loop() {
	tick := time.NewTicker(meterEvery)
	defer tick.Stop()
	for {
		select {
		case <-m.quit:
			m.write("")
			return
		case now := <-tick.C:
			if now.Sub(m.begun) >= meterAfter {
				m.draw(now)
			}
		}
	}
}

func (m *meter) draw(now time.Time) {
	m.mu.Lock()
	line := meterLine(m.what, m.done, now.Sub(m.since))
	m.mu.Unlock()
	m.write(line)
}

// write puts line where the last one stood; spaces cover what was longer.
func (m *meter) write(line string) {
	if line == "" && m.shown == 0 {
		return
	}
	n := cells(line)
	fmt.Fprint(m.w, "\r", line, strings.Repeat(" ", max(0, m.shown-n)))
	if line == "" {
		fmt.Fprint(m.w, "\r")
	}
	m.shown = n
}

// meterLine says what is being done, how far it is and, once it can be told,
// how long it will take.
func meterLine(what string, done float64, elapsed time.Duration) string {
	tail := fmt.Sprintf(" %3.0f %%", 100*done)
	if left, known := share.Left(done, elapsed); known {
		tail += ", " + roughly(left) + " left"
	}
	return shorten(what, meterColumns-cells(tail)) + tail
}

// roughly rounds a time to what a person wants to know: seconds up to a
// minute and a half, then minutes.
func roughly(d time.Duration) string {
	if d < 90*time.Second {
		return fmt.Sprintf("%d s", max(1, int(d.Seconds()+0.5)))
	}
	return fmt.Sprintf("%d min", int(d.Minutes()+0.5))
}

// isTerminal reports whether f is a screen that can write over a line.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 || os.Getenv("TERM") == "dumb" {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}
