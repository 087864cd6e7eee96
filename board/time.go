package board

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Frame counts whole frames from the start of the film; the first is 0.
type Frame int64

// FrameRate is an exact rate in frames per second: 23.976 is {24000, 1001}.
type FrameRate struct {
	Num int64 `json:"num"`
	Den int64 `json:"den"`
}

// Slowest and fastest rates a film may have, in frames per second.
const (
	MinRate = 1
	MaxRate = 120
)

// Rates offered by name. Any other rate from MinRate to MaxRate may be typed.
var Rates = []FrameRate{{8, 1}, {12, 1}, {15, 1}, {24000, 1001}, {24, 1}, {25, 1}, {30000, 1001}, {30, 1}}

// broadcast holds the rates people write with decimals but which are exact
// fractions of 1001 (SMPTE ST 12-1:2014, as listed by OpenTimelineIO).
var broadcast = map[string]FrameRate{
	"23.976": {24000, 1001}, "23.98": {24000, 1001},
	"29.97":  {30000, 1001},
	"47.952": {48000, 1001}, "47.95": {48000, 1001},
	"59.94":  {60000, 1001},
	"119.88": {120000, 1001},
}

// ParseRate reads a rate as a person types it: "24", "23.976", "12.5",
// "24000/1001". A comma may stand for the decimal point.
func ParseRate(s string) (FrameRate, error) {
	t := strings.TrimSuffix(strings.TrimSpace(strings.ToLower(s)), "fps")
	t = strings.ReplaceAll(strings.TrimSpace(t), ",", ".")
	if strings.Contains(t, ".") {
		if r, ok := broadcast[strings.TrimRight(t, "0")]; ok {
			return r, nil
		}
	}
	q, ok := ratio(t)
	if !ok {
		return FrameRate{}, fmt.Errorf("%.40q is not a frame rate: type a number such as 24, 23.976 or 24000/1001", s)
	}
	if q.Cmp(big.NewRat(MinRate, 1)) < 0 || q.Cmp(big.NewRat(MaxRate, 1)) > 0 {
		return FrameRate{}, fmt.Errorf("the frame rate %s is outside %d to %d frames a second", strings.TrimSpace(s), MinRate, MaxRate)
	}
	if !q.Num().IsInt64() || q.Num().Int64() > 1e9 || q.Denom().Int64() > 1e6 {
		return FrameRate{}, fmt.Errorf("the frame rate %s has too many digits", strings.TrimSpace(s))
	}
	return FrameRate{q.Num().Int64(), q.Denom().Int64()}, nil
}

// ratio reads "12.5" or "24000/1001", in decimal digits alone: no exponents,
// which could ask for numbers of any length, and no other bases.
func ratio(s string) (*big.Rat, bool) {
	num, den, divided := strings.Cut(s, "/")
	if !divided {
		den = "1"
	}
	if len(s) > 24 || strings.Trim(num+den, "-.0123456789") != "" {
		return nil, false
	}
	n, ok := new(big.Rat).SetString(num)
	d, also := new(big.Rat).SetString(den)
	if !ok || !also || d.Sign() == 0 {
		return nil, false
	}
	return n.Quo(n, d), true
}

// Check returns an error unless the rate lies from MinRate to MaxRate.
func (r FrameRate) Check() error {
	if r.Den <= 0 || r.Num <= 0 || r.Num > 1e9 || r.Den > 1e6 || r.Num < MinRate*r.Den || r.Num > MaxRate*r.Den {
		return fmt.Errorf("the frame rate %d/%d is outside %d to %d frames a second", r.Num, r.Den, MinRate, MaxRate)
	}
	return nil
}

// Float returns frames per second as the nearest float64.
func (r FrameRate) Float() float64 { return float64(r.Num) / float64(r.Den) }

// Nominal returns the whole number the rate is counted by: 24 for 23.976.
func (r FrameRate) Nominal() int64 { return int64(math.Round(r.Float())) }

// String returns the rate as people write it: "24", "23.976", "12.5".
func (r FrameRate) String() string {
	if r.Den == 0 {
		return "0"
	}
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(r.Float(), 'f', r.digits(), 64), "0"), ".")
}

func (r FrameRate) digits() int {
	if r.Den == 1001 && r.Num%24000 != 0 {
		return 2
	}
	return 3
}

// Nearest returns the frame that starts closest to t seconds; a time halfway
// between two frames goes to the one further from zero (math.Round).
func (r FrameRate) Nearest(t float64) Frame {
	return Frame(math.Round(t * float64(r.Num) / float64(r.Den)))
}

// At returns the frame on screen at t seconds: the last one begun.
func (r FrameRate) At(t float64) Frame {
	f := r.Nearest(t)
	if r.Seconds(f) > t {
		f--
	}
	return f
}

// Seconds returns the instant at which frame f starts.
func (r FrameRate) Seconds(f Frame) float64 {
	return float64(f) * float64(r.Den) / float64(r.Num)
}

// Span is a half-open run of frames: End is the first frame after it.
type Span struct{ Start, End Frame }

// Len returns the number of frames in the span, never negative.
func (s Span) Len() Frame { return max(0, s.End-s.Start) }

// Contains reports whether frame f lies in the span.
func (s Span) Contains(f Frame) bool { return f >= s.Start && f < s.End }

// Overlaps reports whether the spans share a frame.
func (s Span) Overlaps(o Span) bool {
	return max(s.Start, o.Start) < min(s.End, o.End)
}
