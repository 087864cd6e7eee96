package otio

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"

	"stillbeat/board"
)

// moment is a time: so many of a rate's parts of a second.
type moment struct{ Rate, Value float64 }

type during struct{ start, length moment }

// seconds returns the time in seconds; the broadcast rates are taken exactly.
func (m moment) seconds() float64 {
	if m.Value == 0 {
		return 0
	}
	if r, ok := rateOf(m.Rate); ok {
		return m.Value * float64(r.Den) / float64(r.Num)
	}
	return m.Value / m.Rate
}

// rateOf returns the exact rate that a floating-point one stands for. Lists
// round them in various ways: 23.976, 23.98.
func rateOf(v float64) (board.FrameRate, bool) {
	if v == math.Trunc(v) && v >= 1 && v <= 1e6 {
		return board.FrameRate{Num: int64(v), Den: 1}, true
	}
	for _, whole := range []int64{24, 30, 48, 60, 120} {
		if r := (board.FrameRate{Num: 1000 * whole, Den: 1001}); math.Abs(v-r.Float()) < 0.0051*float64(whole)/24 {
			return r, true
		}
	}
	r, err := board.ParseRate(strings.TrimRight(fmt.Sprintf("%.4f", v), "0"))
	return r, err == nil && math.Abs(r.Float()-v) < 1e-9
}

func (m *moment) UnmarshalJSON(data []byte) error {
	var raw *struct {
		Rate  *float64 `json:"rate"`
		Value *float64 `json:"value"`
	}
	if err := json.Unmarshal(data, &raw); err != nil || raw == nil || raw.Rate == nil || raw.Value == nil {
		return errors.New("a time is no object with a rate and a value")
	}
	if !(*raw.Rate > 0 && *raw.Rate <= 1e9) || !(math.Abs(*raw.Value / *raw.Rate) <= 100*board.MaxSeconds) {
		return fmt.Errorf("%g at the rate %g is no time", *raw.Value, *raw.Rate)
	}
	m.Rate, m.Value = *raw.Rate, *raw.Value
	return nil
}

func (d *during) UnmarshalJSON(data []byte) error {
	var raw struct {
		Start    *moment `json:"start_time"`
		Duration *moment `json:"duration"`
	}
	if err := json.Unmarshal(data, &raw); err != nil {
		return err
	}
	if raw.Start == nil || raw.Duration == nil {
		return errors.New("a range has no start or no duration")
	}
	if raw.Duration.Value < 0 {
		return errors.New("a range has a negative length")
	}
	d.start, d.length = *raw.Start, *raw.Duration
	return nil
}

// length is a sum of times. Those of one rate are added as whole numbers, so
// that nothing is lost on the way.
type length struct {
	before float64 // seconds at other rates
	last   moment
}

func (l *length) add(m moment) {
	if l.last.Rate != m.Rate {
		l.before, l.last = l.seconds(), moment{Rate: m.Rate}
	}
	l.last.Value += m.Value
}

func (l *length) join(o length) {
	if o.before != 0 {
		l.before, l.last = l.seconds()+o.before, moment{}
	}
	if o.last.Rate != 0 {
		l.add(o.last)
	}
}

func (l length) seconds() float64 { return l.before + l.last.seconds() }

// rate returns the frame rate that most of the shots are told in.
func rate(shots []shot) (board.FrameRate, bool) {
	count, best := map[float64]int{}, 0.0
	for _, s := range shots {
		if s.of != nil && s.of.source != nil {
			r := s.of.source.length.Rate
			if count[r]++; count[r] > count[best] {
				best = r
			}
		}
	}
	r, ok := rateOf(best)
	return r, ok && r.Check() == nil
}
