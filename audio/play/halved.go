package play

import "stillbeat/audio/internal/halfband"

// halved is a sound at half its rate. What the lower rate cannot carry is
// filtered out, or it would be heard folded down, as tones that are not there.
// Sample i of it is centred on sample 2i of the sound. One reader reads it.
type halved struct {
	sound Sound
	in    [][]float32 // what one stretch is made of
	part  [][]float32 // its start
}

// reach is the number of taps on each side of the filter's centre: of a sound
// at 96 kHz it leaves what is below 20 kHz and folds nothing into it.
const reach = 63

var halfBand = [(reach + 1) / 2]float32(halfband.Taps(reach))

// broughtDown returns a sound at a rate near a device's: halved as often as
// it is twice as high or more.
func broughtDown(sound Sound, rate float64) Sound {
	for float64(sound.Rate()) >= 2*rate {
		h := &halved{sound: sound, in: make([][]float32, sound.Channels()), part: make([][]float32, sound.Channels())}
		for ch := range h.in {
			h.in[ch] = make([]float32, 2*(ahead+reach))
		}
		sound = h
	}
	return sound
}

func (h *halved) Rate() int     { return h.sound.Rate() / 2 }
func (h *halved) Channels() int { return h.sound.Channels() }

// Read fills dst with the samples from at on.
func (h *halved) Read(dst [][]float32, at int) {
	for from := 0; from < len(dst[0]); from += ahead {
		n := min(len(dst[0])-from, ahead)
		for ch, in := range h.in {
			h.part[ch] = in[:2*(n+reach)]
		}
		h.sound.Read(h.part, 2*(at+from)-reach)
		for ch, in := range h.part {
			for i := range n {
				near := (*[2*reach + 1]float32)(in[2*i:])
				sum := 0.5 * near[reach]
				for k, t := range halfBand {
					sum += t * (near[reach-1-2*k] + near[reach+1+2*k])
				}
				dst[ch][from+i] = sum
			}
		}
	}
}
