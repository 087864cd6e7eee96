package board

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	labelForm = regexp.MustCompile(`^(\d{1,2})[:;](\d{1,2})[:;](\d{1,2})[:;](\d{1,3})$`)
	countForm = regexp.MustCompile(`^(\d{1,5}):(\d{1,2})\+(\d{1,3})$`)
)

// ParseTimecode reads what Timecode writes for the rate: hh:mm:ss:ff, where a
// semicolon may stand for any colon, or m:ss+ff at rates without a timecode.
// Labels that the rate does not have are refused.
func (r FrameRate) ParseTimecode(s string) (Frame, error) {
	text := strings.TrimSpace(s)
	no := fmt.Errorf("%.40q is no timecode at %s fps: they look like %s", s, r, r.Timecode(r.firstFrameOf(62)+5))
	if !r.HasTimecode() {
		n, ok := wholes(countForm, text)
		if !ok || n[1] > 59 {
			return 0, no
		}
		t := n[0]*60 + n[1]
		if f := r.firstFrameOf(t) + Frame(n[2]); f < r.firstFrameOf(t+1) {
			return f, nil
		}
		return 0, no
	}
	n, ok := wholes(labelForm, text)
	if !ok || n[0] > 23 || n[1] > 59 || n[2] > 59 || n[3] >= r.Nominal() {
		return 0, no
	}
	minutes := n[0]*60 + n[1]
	f := (minutes*60+n[2])*r.Nominal() + n[3]
	if r.dropFrame() {
		skip := r.Nominal() / 15
		if n[1]%10 != 0 && n[2] == 0 && n[3] < skip {
			return 0, fmt.Errorf("the timecode %s is left out at %s fps", text, r)
		}
		f -= skip * (minutes - minutes/10)
	}
	return Frame(f), nil
}

// wholes returns the whole numbers in text of a form.
func wholes(form *regexp.Regexp, text string) ([]int64, bool) {
	m := form.FindStringSubmatch(text)
	if m == nil {
		return nil, false
	}
	out := make([]int64, len(m)-1)
	for i, digits := range m[1:] {
		out[i], _ = strconv.ParseInt(digits, 10, 64) // at most five digits
	}
	return out, true
}
