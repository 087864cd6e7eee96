package play

import (
	"encoding/binary"
	"io"
	"math"
	"slices"
)

// fed is a voice of a feeder; its fields are under the feeder's lock.
type fed struct {
	feeder *feeder
	r      io.Reader
	read   int64 // pairs
	bytes  [chunk * frameBytes]byte
}

// Play has it heard, after what is not heard yet unless that is silence.
func (v *fed) Play() {
	f := v.feeder
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(f.voices) == 0 && int64(f.silence) >= f.pending() {
		f.cut = true
	}
	f.voices = append(f.voices, v)
	f.call()
}

// BufferedSize returns the bytes that were read and are not heard yet.
func (v *fed) BufferedSize() int {
	f := v.feeder
	f.mu.Lock()
	defer f.mu.Unlock()
	return int(min(v.read, f.pending())) * frameBytes
}

// Close ends it, and what is not heard of it yet is dropped.
func (v *fed) Close() error {
	f := v.feeder
	f.mu.Lock()
	defer f.mu.Unlock()
	f.cut = true
	if i := slices.Index(f.voices, v); i >= 0 {
		f.voices = slices.Delete(f.voices, i, i+1)
	}
	return nil
}

// add adds the next of it to a block, and reports whether more will come.
func (v *fed) add(block []float32) bool {
	for len(block) > 0 {
		n, err := v.r.Read(v.bytes[:min(len(v.bytes), len(block)*frameBytes/channels)])
		n /= frameBytes
		for i := range n * channels {
			block[i] += math.Float32frombits(binary.LittleEndian.Uint32(v.bytes[4*i:]))
		}
		v.read += int64(n)
		block = block[n*channels:]
		if err != nil {
			return false
		}
	}
	return true
}
