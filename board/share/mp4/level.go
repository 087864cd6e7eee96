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
	kilobits  int64 // in a second, of pictures
}

// avcLevels is ISO/IEC 14496-10, table A-1, from level 3 on, with the bit rates
// of the baseline profile (as FFmpeg's h264_levels.c and GStreamer list them).
var avcLevels = []avcLevel{
	{30, 1620, 40500, 10000},
	{31, 3600, 108000, 14000},
	{32, 5120, 216000, 20000},
	{40, 8192, 245760, 20000},
	{41, 8192, 245760, 50000},
	{42, 8704, 522240, 50000},
	{50, 22080, 589824, 135000},
	{51, 36864, 983040, 240000},
	{52, 36864, 2073600, 240000},
}

// macroblocks returns how many squares of 16 pixels cover n pixels.
func macroblocks(n int) int { return (n + 15) / 16 }

// levelFor returns ten times the lowest AVC level, 3 at least, that holds
// pictures of this size at num/den frames per second, of which no second takes
// more than bits. Where only the bits are more than any level holds, it is the
// highest: players lag there, but play.
func levelFor(width, height int, num, den, bits int64) (int, error) {
	fits := 0
	for _, l := range avcLevels {
		// Neither side may exceed the square root of eight times the frame
		// limit (A.3.1).
		side := 16 * int(math.Sqrt(float64(8*l.perFrame)))
		if width > side || height > side {
			continue
		}
		n := int64(macroblocks(width)) * int64(macroblocks(height))
		if n <= l.perFrame && n*num <= l.perSecond*den {
			if fits = l.idc; bits <= 1000*l.kilobits {
				return fits, nil
			}
		}
	}
	if fits > 0 {
		return fits, nil
	}
	return 0, fmt.Errorf("%dx%d at %.4g frames per second is more than players decode (AVC level 5.2)",
		width, height, float64(num)/float64(den))
}

// busiest returns the most bits that n pictures in a row take.
func busiest(sizes []uint32, n int) int64 {
	most, now := int64(0), int64(0)
	for i, size := range sizes {
		now += 8 * int64(size)
		if i >= n {
			now -= 8 * int64(sizes[i-n])
		}
		most = max(most, now)
	}
	return most
}
