package board

import "fmt"

// timecoded lists the nominal rates that SMPTE ST 12-1:2014 gives a timecode
// (as listed by OpenTimelineIO's rationalTime.cpp). 8, 12 and 15 have none.
var timecoded = map[int64]bool{24: true, 25: true, 30: true, 48: true, 50: true, 60: true}

// HasTimecode reports whether the standard defines a timecode for the rate.
func (r FrameRate) HasTimecode() bool {
	if n := r.Nominal(); r.Den == 1001 {
		return r.Num == 1000*n && timecoded[n] && (n%24 == 0 || n%30 == 0)
	}
	return r.Den == 1 && timecoded[r.Num]
}

// dropFrame reports whether labels are skipped to keep the clock (29.97, 59.94).
func (r FrameRate) dropFrame() bool { return r.Den == 1001 && r.Num%30000 == 0 }

// Timecode returns the label of frame f: hh:mm:ss:ff, with ';' before the
// frames where labels are dropped. Rates without a timecode give minutes,
// seconds and frames, m:ss+ff, which is a plain count and claims no more.
// Labels wrap after 24 hours. Negative frames carry a leading minus.
func (r FrameRate) Timecode(f Frame) string {
	if f < 0 {
		return "-" + r.Timecode(-f)
	}
	if !r.HasTimecode() {
		t := int64(f) * r.Den / r.Num
		rest := f - r.firstFrameOf(t)
		return fmt.Sprintf("%d:%02d+%02d", t/60, t%60, rest)
	}
	base, sep := Frame(r.Nominal()), ":"
	if r.dropFrame() {
		sep = ";"
		f = r.labelled(f)
	}
	f %= 24 * 3600 * base
	return fmt.Sprintf("%02d:%02d:%02d%s%02d", f/(3600*base), f/(60*base)%60, f/base%60, sep, f%base)
}

// labelled adds the skipped labels: two a minute at 29.97 (four at 59.94)
// except in each tenth minute.
func (r FrameRate) labelled(f Frame) Frame {
	skip := Frame(r.Nominal() / 15)
	perMinute := 60*Frame(r.Nominal()) - skip
	perTen := 10*perMinute + skip
	tens, rest := f/perTen, f%perTen
	f += 9 * skip * tens
	if rest >= skip {
		f += skip * ((rest - skip) / perMinute)
	}
	return f
}

// firstFrameOf returns the first frame that starts at or after t whole seconds.
func (r FrameRate) firstFrameOf(t int64) Frame {
	return Frame((t*r.Num + r.Den - 1) / r.Den)
}
