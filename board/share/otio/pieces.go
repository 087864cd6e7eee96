package otio

// over lays upper over lower.
func over(lower, upper []shot) (out []shot) {
	if len(lower) == 0 {
		return upper
	}
	if len(upper) == 0 {
		return lower
	}
	at := 0.0
	show := func(shots []shot, till float64) []shot { // what is below, up to there
		for len(shots) > 0 && shots[0].from < till-tiny {
			s := shots[0]
			if s.till > at+tiny {
				if s.from < at-tiny {
					s.skip, s.from, s.into = s.skip+at-s.from, at, nil
				}
				if s.till > till+tiny {
					s.till = till
					out = append(out, s)
					break
				}
				out = append(out, s)
			}
			shots = shots[1:]
		}
		if n := len(out); n > 0 && out[n-1].till < till-tiny {
			out = append(out, shot{from: out[n-1].till, till: till})
		}
		return shots
	}
	for _, u := range upper {
		if u.gap() {
			continue
		}
		lower = show(lower, u.from)
		out, at = append(out, u), u.till
	}
	end := upper[len(upper)-1].till
	if len(lower) > 0 {
		end = max(end, lower[len(lower)-1].till)
	}
	show(lower, end)
	return out
}

// trimmed returns the shots between start and start+long, from 0 on; where
// there are none, nothing is up.
func trimmed(shots []shot, start, long float64) (out []shot) {
	at := 0.0
	for _, s := range shots {
		s.from, s.till = s.from-start, s.till-start
		if s.till <= tiny || s.from >= long-tiny {
			continue
		}
		if s.from < -tiny {
			s.skip, s.into = s.skip-s.from, nil
		}
		s.from, s.till = max(s.from, 0), min(s.till, long)
		if s.from > at+tiny {
			out = append(out, shot{from: at, till: s.from})
		}
		out, at = append(out, s), s.till
	}
	if at < long-tiny {
		out = append(out, shot{from: at, till: long})
	}
	return out
}
