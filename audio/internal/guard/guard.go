// Package guard holds what every sound reader does around its decoder: report
// progress, notice cancelling, and turn a panic into an error.
package guard

import (
	"context"
	"fmt"
	"math"
	"sync"

	"stillbeat/audio/clip"
)

// Decode has a reader feed a sink and returns what came out. A panic inside
// becomes an error wrapping clip.ErrDamaged that names the format, and a sound
// without samples becomes clip.ErrEmpty.
func Decode(format string, sink clip.Sink, decode func(out *Feed) error) (clip.Info, error) {
	out := &Feed{sink: sink}
	err := Call(format, func() error {
		if err := decode(out); err != nil {
			return err
		}
		if err := out.flush(); err != nil {
			return err
		}
		if out.info.Len == 0 {
			return clip.ErrEmpty
		}
		return sink.End()
	})
	if err != nil {
		return clip.Info{}, err
	}
	return out.info, nil
}

// Call calls f and turns a panic inside into an error wrapping
// clip.ErrDamaged. Goroutines need a Call of their own.
func Call(format string, f func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("%w: its %s data cannot be decoded", clip.ErrDamaged, format)
		}
	}()
	return f()
}

// Meter counts work that is done and passes it on as a part of 1. It may be
// used by several goroutines; the calls to report are one after the other and
// never go down.
type Meter struct {
	ctx    context.Context
	report func(done float64)

	total int

	mu       sync.Mutex
	done     int
	reported int // value of done at the last report
}

// NewMeter returns a meter for total units of work. report may be nil.
func NewMeter(ctx context.Context, total int, report func(done float64)) *Meter {
	return &Meter{ctx: ctx, report: report, total: max(total, 1)}
}

// Add counts n units more and reports each half per cent. It returns an error
// when the context is cancelled, and the caller then stops with that error.
func (m *Meter) Add(n int) error {
	if err := m.ctx.Err(); err != nil {
		return err
	}
	m.advance(n, max(1, m.total/200))
	return nil
}

// Finish reports that everything is done.
func (m *Meter) Finish() { m.advance(m.total, 1) }

// advance counts n units more and reports if that makes at least step since
// the last report.
func (m *Meter) advance(n, step int) {
	if m.report == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.done = min(m.done+n, m.total)
	if m.done-m.reported >= step {
		m.reported = m.done
		m.report(float64(m.done) / float64(m.total))
	}
}

// loudest is the largest value kept, 48 dB above full scale: sound may go over
// 1, but rubbish must not overflow in later sums of squares.
const loudest = 256

// Tame returns a decoded value as a sample: what is not a number is silence,
// the rest is limited.
func Tame(v float64) float32 {
	if math.IsNaN(v) {
		return 0
	}
	return float32(max(-loudest, min(loudest, v)))
}
