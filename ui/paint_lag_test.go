package ui

import (
	"math"
	"testing"
	"time"
)

func TestPaintLag(t *testing.T) {
	const ms = time.Millisecond
	for _, c := range []struct {
		name  string
		paint func(i int) time.Duration
		n     int
		want  time.Duration
		give  time.Duration
	}{
		{"nothing painted yet", nil, 0, 0, 0},
		{"the first time counts at once", func(int) time.Duration { return 12 * ms }, 1, 12 * ms, 0},
		{"a steady one", func(int) time.Duration { return 25 * ms }, 100, 25 * ms, 0},
		{"to and fro", func(i int) time.Duration { return time.Duration(20+i%2*4) * ms }, 100, 22 * ms, ms},
		{"slower from now on", func(i int) time.Duration { return time.Duration(10+i/50*20) * ms }, 100, 30 * ms, ms},
		{"held up once", func(i int) time.Duration { return time.Duration(10+i/99*5000) * ms }, 100, 21 * ms, ms},
	} {
		t.Run(c.name, func(t *testing.T) {
			var l paintLag
			now := time.Now()
			for i := range c.n {
				l.begin(now)
				now = now.Add(c.paint(i))
				l.end(now)
				l.end(now.Add(time.Second)) // the second sign
				now = now.Add(5 * ms)
			}
			l.end(now)
			if off := math.Abs(l.lead() - (c.want + untilSeen).Seconds()); off > c.give.Seconds()+1e-9 {
				t.Errorf("lead = %.4f s, want %v and %v", l.lead(), c.want, untilSeen)
			}
		})
	}
}
