package play

import (
	"math"
	"time"
)

// clock turns a device's jerky count of samples taken into a smooth position.
// The device takes a block at a time, so the count is right just after a
// block was taken and falls behind until the next. The clock runs on by the
// monotonic clock from the foremost count seen lately; forgetting what is
// older than window lets it follow a device whose quartz runs slow. After a
// pause that no block explains it begins with the count anew.
type clock struct {
	rate   float64 // samples per second
	origin time.Time
	// Largest count/rate - elapsed in this window and in the one before.
	ahead, before float64
	turn          time.Time // when this window began
	last          float64   // position returned last: it never goes back
	count         int64     // seen last
	grew          time.Time // when it was seen to grow
}

const (
	window = time.Second
	pause  = 2 * buffer // in which a device that plays takes a block
)

// observe tells the clock that the device had taken count samples at now, and
// returns the seconds of sound taken, smoothed. It is 0 until the device took
// more than the chunk that may be on its way into the buffer.
func (c *clock) observe(count int64, now time.Time) float64 {
	if c.origin.IsZero() {
		if count <= chunk {
			return 0
		}
		c.origin, c.grew = now, now
		c.forget(now)
	}
	elapsed := now.Sub(c.origin).Seconds()
	if now.Sub(c.turn) >= window {
		c.before, c.ahead, c.turn = c.ahead, math.Inf(-1), now
	}
	lead := float64(count)/c.rate - elapsed
	if count != c.count {
		if now.Sub(c.grew) > pause || lead < max(c.ahead, c.before)-pause.Seconds() {
			c.forget(now)
		}
		c.count, c.grew = count, now
	}
	c.ahead = max(c.ahead, lead)
	// A device that stopped must not be run away from.
	most := float64(count)/c.rate + pause.Seconds()
	c.last = max(c.last, min(elapsed+max(c.ahead, c.before), most))
	return c.last
}

// forget has the clock begin with the next count.
func (c *clock) forget(now time.Time) {
	c.ahead, c.before, c.turn = math.Inf(-1), math.Inf(-1), now
}
