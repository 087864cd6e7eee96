package mp3

// #include <stdlib.h>
// #include "core.h"
import "C"

import (
	"errors"
	"unsafe"

	_ "github.com/tosone/minimp3" // the decoder's code
)

// core decodes one frame after the other. The decoder is minimp3, in C.
type core struct {
	state *C.mp3dec_t
	pcm   [2 * mostSamples]int16 // interleaved
}

const (
	mostSamples = 1152 // of a frame and channel
	// stateBytes is room for the decoder's state, which takes 6,668 bytes.
	stateBytes = 16 << 10
)

func newCore() (*core, error) {
	state := C.calloc(1, stateBytes)
	if state == nil {
		return nil, errors.New("there is no memory left")
	}
	c := &core{state: (*C.mp3dec_t)(state)}
	C.mp3dec_init(c.state)
	return c, nil
}

// close gives the state back.
func (c *core) close() { C.free(unsafe.Pointer(c.state)) }

// frame decodes one whole frame. It returns the samples, interleaved, valid
// until the next call, and the number of channels; no samples if the frame is
// damaged or needs data of frames that are not there.
func (c *core) frame(data []byte) (pcm []int16, channels int) {
	var info C.mp3dec_frame_info_t
	n := C.mp3dec_decode_frame(c.state, (*C.uint8_t)(unsafe.Pointer(unsafe.SliceData(data))), C.int(len(data)),
		(*C.int16_t)(unsafe.Pointer(&c.pcm[0])), &info)
	channels = int(info.channels)
	if n <= 0 || n > mostSamples || channels < 1 || channels > 2 {
		return nil, 0
	}
	return c.pcm[:int(n)*channels], channels
}
