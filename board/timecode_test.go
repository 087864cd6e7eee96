package board

import (
	"fmt"
	"testing"
)

// The rows from frame 10789 to 17982 and 1084319 are in OpenTimelineIO's own
// tests of drop-frame labels; the others follow from the rule of SMPTE ST 12-1
// (two labels skipped each minute but every tenth).
func TestTimecodeTable(t *testing.T) {
	for _, c := range []struct {
		frame         Frame
		drop, nonDrop string
	}{
		{0, "00:00:00;00", "00:00:00:00"},
		{1799, "00:00:59;29", "00:00:59:29"},
		{1800, "00:01:00;02", "00:01:00:00"},
		{3597, "00:01:59;29", "00:01:59:27"},
		{3598, "00:02:00;02", "00:01:59:28"},
		{10789, "00:05:59;29", "00:05:59:19"},
		{10790, "00:06:00;02", "00:05:59:20"},
		{17981, "00:09:59;29", "00:09:59:11"},
		{17982, "00:10:00;00", "00:09:59:12"},
		{19782, "00:11:00;02", "00:10:59:12"},
		{107892, "01:00:00;00", "00:59:56:12"},
		{1084319, "10:03:00;05", "10:02:23:29"},
		{2589407, "23:59:59;29", "23:58:33:17"},
		{2589408, "00:00:00;00", "23:58:33:18"},
		{-1800, "-00:01:00;02", "-00:01:00:00"},
	} {
		if got := (FrameRate{30000, 1001}).Timecode(c.frame); got != c.drop {
			t.Errorf("29.97: frame %d = %s, want %s", c.frame, got, c.drop)
		}
		if got := (FrameRate{30, 1}).Timecode(c.frame); got != c.nonDrop {
			t.Errorf("30: frame %d = %s, want %s", c.frame, got, c.nonDrop)
		}
	}
}

func TestTimecodeOfOtherRates(t *testing.T) {
	for _, c := range []struct {
		rate  FrameRate
		frame Frame
		want  string
	}{
		{FrameRate{24, 1}, 86399, "00:59:59:23"},
		{FrameRate{24, 1}, 86400, "01:00:00:00"},
		{FrameRate{24, 1}, 24 * 86400, "00:00:00:00"},    // wraps after a day
		{FrameRate{24000, 1001}, 86400, "01:00:00:00"},   // counts like 24, never drops
		{FrameRate{24000, 1001}, 1439, "00:00:59:23"},    //
		{FrameRate{48000, 1001}, 48 * 60, "00:01:00:00"}, //
		{FrameRate{25, 1}, 1500, "00:01:00:00"},
		{FrameRate{60, 1}, 3601, "00:01:00:01"},
		{FrameRate{8, 1}, 17, "0:02+01"},
		{FrameRate{12, 1}, 12*125 + 11, "2:05+11"},
		{FrameRate{15, 1}, 0, "0:00+00"},
		{FrameRate{25, 2}, 12, "0:00+12"}, // the thirteenth frame starts at 0.96 s
		{FrameRate{25, 2}, 13, "0:01+00"}, // and the next at 1.04 s
		{FrameRate{25, 2}, 25, "0:02+00"},
		{FrameRate{999999937, 8333333}, 120, "0:01+00"}, // 1.0000000 s and a little
		{FrameRate{12, 1}, -13, "-0:01+01"},
	} {
		if got := c.rate.Timecode(c.frame); got != c.want {
			t.Errorf("%v fps: frame %d = %s, want %s", c.rate, c.frame, got, c.want)
		}
	}
}

// Counting on label by label, leaving out those the rule skips, must meet
// every frame's label.
func TestDropFrameLabelsAgreeWithCounting(t *testing.T) {
	for _, c := range []struct {
		rate       FrameRate
		base, skip int
		minutes    int
	}{
		{FrameRate{30000, 1001}, 30, 2, 31},
		{FrameRate{60000, 1001}, 60, 4, 11},
	} {
		var f Frame
		for m := range c.minutes {
			for s := range 60 {
				for n := range c.base {
					if s == 0 && n < c.skip && m%10 != 0 {
						continue
					}
					want := fmt.Sprintf("%02d:%02d:%02d;%02d", m/60, m%60, s, n)
					if got := c.rate.Timecode(f); got != want {
						t.Fatalf("%v fps: frame %d = %s, want %s", c.rate, f, got, want)
					}
					f++
				}
			}
		}
	}
}

func TestOnlyRatesOfTheStandardHaveTimecode(t *testing.T) {
	for _, r := range []FrameRate{{24000, 1001}, {24, 1}, {25, 1}, {30000, 1001}, {30, 1},
		{48000, 1001}, {48, 1}, {50, 1}, {60000, 1001}, {60, 1}} {
		if !r.HasTimecode() {
			t.Errorf("%v fps has none", r)
		}
	}
	for _, r := range []FrameRate{{8, 1}, {12, 1}, {15, 1}, {25, 2}, {120, 1}, {72000, 1001}, {90000, 1001},
		{96000, 1001}, {120000, 1001}, {25000, 1001}, {50000, 1001}, {12000, 1001}, {15000, 1001}} {
		if r.HasTimecode() {
			t.Errorf("%v fps has one: %s", r, r.Timecode(100))
		}
	}
}
