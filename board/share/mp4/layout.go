package mp4

import "math"

// layout says how pictures and sound take turns in the file: chunk i holds
// pictures[i] frames, then packets[i] packets of sound.
type layout struct {
	pictures, packets []uint32
}

// chunkSeconds is how long a chunk lasts: short enough for a player that
// reads the file as it comes.
const chunkSeconds = 0.5

// planLayout shares frames and packets out among chunks.
func planLayout(p *plan) layout {
	var l layout
	frames := int64(len(p.steps))
	perChunk := max(1, int64(math.Round(chunkSeconds*float64(p.timescale)/float64(p.tick))))
	total := int64(0)
	if p.audioRate > 0 {
		total = aacPackets(p.audioSamples)
	}
	sent := int64(0)
	for at := int64(0); at < frames; at += perChunk {
		end := min(at+perChunk, frames)
		l.pictures = append(l.pictures, uint32(end-at))
		due := total
		if end < frames {
			due = min(total, aacPackets(samplesIn(end*int64(p.tick), int64(p.timescale), p.audioRate)))
		}
		l.packets = append(l.packets, uint32(due-sent))
		sent = due
	}
	return l
}

// rawBytes bounds the size of the coded pictures: none is larger than its
// samples, 384 bytes a macroblock.
func (p *plan) rawBytes() int64 {
	perPicture := 384 * int64(macroblocks(p.width)) * int64(macroblocks(p.height))
	n := int64(0)
	for _, s := range p.steps {
		if s == hold {
			n += 32
		} else {
			n += perPicture
		}
	}
	return n
}

// needsLarge tells whether file positions may need more than 32 bits.
func (p *plan) needsLarge() bool {
	sound := int64(0)
	if p.audioRate > 0 {
		sound = aacPackets(p.audioSamples) * 6144 / 8 * 2 // AAC's own limit for two channels
	}
	return p.rawBytes()+sound > math.MaxUint32
}
