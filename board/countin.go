package board

// usualMetre is the beats of a bar where nothing tells.
const usualMetre = 4

// longBeat is an interval in seconds that is a hole in the beats rather than a
// beat: 30 beats a minute.
const longBeat = 2

// CountIn returns the beats that are counted before second t of the song, so
// many bars of them, ascending and all before t; times may be negative. They go
// at the pace of the music at t and in step with its beats; those that start a
// bar do so as the music's own. A grid without beats gives none.
func (g Grid) CountIn(t float64, bars int) []Beat {
	if g.Empty() || bars < 1 {
		return nil
	}
	const near = 1e-6
	k := g.before(t + near)
	at := g.Time(k, 0, 1)
	pace := g.Time(k+1, 0, 1) - at
	if pace > longBeat && g.Tempo > 0 {
		pace = 60 / g.Tempo
	}
	for at+pace < t-near { // in a hole the count goes on to its end
		at += pace
		k++
	}
	if at > t-near {
		at -= pace
		k--
	}
	first, metre := g.barsAt(k)
	n := bars * metre
	if first < 0 {
		first = k - n + 1 // no bars: the count begins with one
	}
	out := make([]Beat, n)
	for i := range out {
		back := n - 1 - i
		out[i] = Beat{Time: at - float64(back)*pace, Bar: (k-back-first)%metre == 0}
	}
	return out
}

// barsAt returns a beat that starts a bar, the last up to beat k or else the
// first after it, -1 without bars; and the beats of the bar at k.
func (g Grid) barsAt(k int) (first, metre int) {
	first, next, before := -1, -1, -1
	for i, b := range g.Beats {
		switch {
		case !b.Bar:
		case i <= k || first < 0:
			before, first = first, i
		case next < 0:
			next = i
		}
	}
	switch {
	case next >= 0 && barLength(next-first):
		return first, next - first
	case before >= 0 && barLength(first-before):
		return first, first - before
	case barLength(g.Metre):
		return first, g.Metre
	}
	return first, usualMetre
}
