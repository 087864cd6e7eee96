package play

import (
	"math"
	"time"
)

// clock turns a device's jerky count of samples taken into a smooth position.
// The device takes a block at a time, so the count is right just after a
// block was taken and falls behind until the next. The clock runs on by the
// monotonic clock from the foremost count seen lately; forgetting what is
// older than window lets it follow a device whose quartz runs slow.
type clock struct {
	rate   float64 // samples per second
	origin time.Time
	// Largest count/rate - elapsed in this window and in the one before.
	ahead, before float64
	turn          time.Time // when this window began
	last          float64   // position returned last: it never goes back
}

const window = time.Second

// observe tells the clock that the device had taken count samples at now, and
// returns the seconds of sound taken, smoothed. It is 0 until the device took
// more than the chunk that may be on its way into the buffer.
func (c *clock) observe(count int64, now time.Time) float64 {
	if c.origin.IsZero() {
		if count <= chunk {
			return 0
		}
		c.origin, c.turn = now, now
		c.ahead, c.before = math.Inf(-1), math.Inf(-1)
	}
	elapsed := now.Sub(c.origin).Seconds()
	if now.Sub(c.turn) >= window {
		c.before, c.ahead, c.turn = c.ahead, math.Inf(-1), now
	}
	c.ahead = max(c.ahead, float64(count)/c.rate-elapsed)
	// A device that stopped must not be run away from.
	most := float64(count)/c.rate + 2*buffer.Seconds()
	c.last = max(c.last, min(elapsed+max(c.ahead, c.before), most))
	return c.last
}
