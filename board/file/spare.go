package file

import (
	"bytes"
	"slices"

	"stillbeat/board"
)

// planSpare sees to it that the board can be rebuilt from a spare one and few
// steps, and that all together takes no more than MaxPast.
func (c *change) planSpare(had []spare) {
	now := c.now.hash()
	if c.spares = c.linked(had, now); c.sinceSpare(now) > spareEvery {
		if data := c.now.spare(); len(data) <= pastRoom/4 {
			c.spare = data
			c.spares = append(slices.DeleteFunc(c.spares, func(s spare) bool { return s.id == c.at }), spare{c.at, now, len(data)})
		}
	}
	for c.size() > pastRoom && len(c.rows) > 0 {
		c.rows = c.rows[1:]
		c.spares = c.linked(c.spares, now)
	}
}

// linked returns the spares from which the stored steps or the board start.
func (c *change) linked(spares []spare, now []byte) (out []spare) {
	known := map[string]bool{string(now): true}
	for _, r := range c.rows {
		known[string(r.before)], known[string(r.after)] = true, true
	}
	for _, s := range spares {
		if known[string(s.hash)] {
			out = append(out, s)
		}
	}
	return out
}

// sinceSpare counts the steps since the newest spare; without one they are
// more than any number of steps.
func (c *change) sinceSpare(now []byte) int {
	is := func(hash []byte) bool {
		return slices.ContainsFunc(c.spares, func(s spare) bool { return bytes.Equal(s.hash, hash) })
	}
	for i := len(c.rows) - 1; i >= 0; i-- {
		if is(c.rows[i].after) {
			return len(c.rows) - 1 - i
		}
	}
	if is(now) || len(c.rows) > 0 && is(c.rows[0].before) {
		return len(c.rows)
	}
	return board.MaxHistory + 1
}

func (c *change) size() (n int) {
	for _, r := range c.rows {
		n += r.size
	}
	for _, s := range c.spares {
		n += s.size
	}
	return n
}
