package check

// swing follows one measure of one place through its ups and downs. A swing
// goes on until the measure has come back from its furthest by enough to be
// seen, so slow changes count like sudden ones, once.
type swing struct {
	from, to     float32 // where it began, and the furthest it has come
	fromRed, red bool    // the colour is a saturated red there
	way          int8    // 1 up, -1 down, 0 before the first that is large enough
	counted      bool
}

// step takes the next value. Values are far from each other, so that the swing
// turns, if they differ by least and by the part contrast of their sum. It
// reports whether the swing is one that was not counted yet.
func (s *swing) step(v float32, red bool, least, contrast float32) bool {
	switch {
	case s.way == 0: // from is the least, to the greatest so far
		if v < s.from {
			s.from, s.fromRed = v, red
		}
		if v > s.to {
			s.to, s.red = v, red
		}
		if s.to-s.from < max(least, contrast*(s.from+s.to)) {
			return false
		}
		s.way = 1
		if v == s.from {
			s.way, s.from, s.to, s.fromRed, s.red = -1, s.to, s.from, s.red, s.fromRed
		}
	case s.way > 0 && v > s.to || s.way < 0 && v < s.to:
		s.to, s.red = v, red
	case max(s.to, v)-min(s.to, v) >= max(least, contrast*(s.to+v)):
		s.way, s.counted = -s.way, false
		s.from, s.to, s.fromRed, s.red = s.to, v, s.red, red
	}
	return !s.counted
}

// light takes the next relative luminance and reports whether it makes a change:
// by a tenth of white's or more, the darker below 0.80 (WCAG 2.2, general
// flash).
func (s *swing) light(v float32) bool {
	return s.step(v, false, 0.1, 0) && s.count(min(s.from, s.to) < 0.8)
}

// screenLight takes the next light of a screen, in candelas per square metre:
// a change is one of 20 or more, the darker below 160, and above that a
// contrast of 1/17 or more (BT.1702, as quoted by WCAG's understanding document).
// The two meet at 160 and 180, so the larger of them holds everywhere.
func (s *swing) screenLight(v float32) bool {
	return s.step(v, false, 20, 1.0/17) && s.count(true)
}

// oldRed takes the next redness: a change is one of more than 20 with a
// saturated red at one end of it.
func (s *swing) oldRed(v float32, red bool) bool {
	const over20 = 20.000002 // the next number
	return s.step(v, red, over20, 0) && s.count(s.fromRed || s.red)
}

// count counts the swing if that is allowed, and reports it.
func (s *swing) count(allowed bool) bool {
	if s.way == 0 || !allowed {
		return false
	}
	s.counted = true
	return true
}

// redSwing follows the colour of one place to and from saturated red.
type redSwing struct {
	at  chroma // the furthest it has come: from red, or into it
	red bool
}

// step takes the next colour and reports whether it makes a change: one end a
// saturated red, and more than 0.2 between them in u', v' (WCAG 2.2, red flash).
func (s *redSwing) step(c chroma, red bool) bool {
	if (s.red || red) && s.at.squared(c) > 0.2*0.2 {
		s.at, s.red = c, red
		return true
	}
	closer := c.squared(redmost) <= s.at.squared(redmost)
	if s.red == red && s.red == closer {
		s.at = c
	}
	return false
}
