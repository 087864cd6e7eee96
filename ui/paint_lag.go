package ui

import "time"

// paintLag tells how long after it was chosen a picture is painted. A window
// takes longer than a picture that fills the screen, and a machine without a
// graphics processor several times as long as one with it.
type paintLag struct {
	began time.Time     // a painting that is under way; zero: none is
	took  time.Duration // lately; zero: not known
}

const (
	longestPaint = 100 * time.Millisecond // what takes longer was held up by something else
	untilSeen    = 5 * time.Millisecond   // after it was painted; measured without a graphics processor
)

// begin is called when a picture is chosen that is to be painted next.
func (l *paintLag) begin(now time.Time) { l.began = now }

// end is called when there is a sign that it was painted; only the first
// counts.
func (l *paintLag) end(now time.Time) {
	if l.began.IsZero() {
		return
	}
	took := min(now.Sub(l.began), longestPaint)
	l.began = time.Time{}
	if l.took == 0 {
		l.took = took
	}
	l.took += (took - l.took) / 8
}

// lead returns how many seconds after it is chosen a picture is seen.
func (l *paintLag) lead() float64 { return (l.took + untilSeen).Seconds() }
