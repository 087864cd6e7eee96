package board

import "math"

// Sound is a decoded song that can be read at any place. What makes one, and
// whether the samples are in memory, is not the board's business.
type Sound interface {
	Rate() int     // samples per second and channel, Hz
	Channels() int // at least 1
	Len() int      // samples in each channel
	// Read fills dst, [channel][sample], with the samples from at on, silence
	// before and after the sound. It may be called from several goroutines,
	// and neither waits nor takes memory.
	Read(dst [][]float32, at int)
}

// Shape returns the song's sound as it is heard: trimmed, faded and with its
// gain, which is worked out as it is read. Where there is nothing to do it is
// the sound given.
func (s Song) Shape(sound Sound) Sound {
	if s.TrimIn == 0 && s.TrimOut == 0 && s.FadeIn == 0 && s.FadeOut == 0 && s.Gain == 0 {
		return sound
	}
	return shaped{sound, s, s.gain()}
}

// shaped is the sound of a song as it is heard.
type shaped struct {
	Sound
	song Song
	gain float64 // factor
}

func (s shaped) Read(dst [][]float32, at int) {
	s.Sound.Read(dst, at)
	if len(dst) == 0 || len(dst[0]) == 0 {
		return
	}
	if n := len(dst[0]); s.plain(at, at+n-1) {
		for _, ch := range dst {
			for i := range ch {
				ch[i] *= float32(s.gain)
			}
		}
		return
	}
	for i := range dst[0] {
		level := float32(s.level(at + i))
		for _, ch := range dst {
			ch[i] *= level
		}
	}
}

// plain reports whether samples first to last lie between the fades.
func (s shaped) plain(first, last int) bool {
	from, to := s.song.Sounding()
	rate := float64(s.Rate())
	return float64(first)/rate >= from+s.song.FadeIn && float64(last)/rate < to-s.song.FadeOut
}

// level returns the factor of sample i.
func (s shaped) level(i int) float64 {
	return s.gain * s.song.open(float64(i)/float64(s.Rate()))
}

// gain returns the factor that Gain stands for.
func (s Song) gain() float64 { return math.Pow(10, s.Gain/20) }

// open returns how much of the song is heard at its second t, 0..1: 0 outside
// the trims, rising and falling in a straight line over the fades.
func (s Song) open(t float64) float64 {
	from, to := s.Sounding()
	if !(t >= from && t < to) {
		return 0
	}
	part := 1.0
	if t-from < s.FadeIn {
		part *= (t - from) / s.FadeIn
	}
	if to-t < s.FadeOut {
		part *= (to - t) / s.FadeOut
	}
	return part
}
