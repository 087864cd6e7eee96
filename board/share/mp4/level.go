package mp4

import (
	"fmt"
	"math"
)

// avcLevel holds the limits of one level.
type avcLevel struct {
	idc       int   // ten times the level's number
	perFrame  int64 // macroblocks in a frame
	perSecond int64 // macroblocks in a second
}

// avcLevels is ISO/IEC 14496-10, table A-1, from level 3 on; 4.1 differs from
// 4 only in bit rate and is left out.
var avcLevels = []avcLevel{
	{30, 1620, 40500},
	{31, 3600, 108000},
	{32, 5120, 216000},
	{40, 8192, 245760},
	{42, 8704, 522240},
	{50, 22080, 589824},
	{51, 36864, 983040},
	{52, 36864, 2073600},
}

// macroblocks returns how many squares of 16 pixels cover n pixels.
func macroblocks(n int) int { return (n + 15) / 16 }

// levelFor returns ten times the lowest AVC level, 3 at least, that holds
// pictures of this size at num/den frames per second.
func levelFor(width, height int, num, den int64) (int, error) {
	for _, l := range avcLevels {
		// Neither side may exceed the square root of eight times the frame
		// limit (A.3.1).
		side := 16 * int(math.Sqrt(float64(8*l.perFrame)))
		if width > side || height > side {
			continue
		}
		n := int64(macroblocks(width)) * int64(macroblocks(height))
		if n <= l.perFrame && n*num <= l.perSecond*den {
			return l.idc, nil
		}
	}
	return 0, fmt.Errorf("%dx%d at %.4g frames per second is more than players decode (AVC level 5.2)",
		width, height, float64(num)/float64(den))
}
