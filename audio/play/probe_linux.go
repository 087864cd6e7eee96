package play

// #include <stdlib.h>
// #include <alsa/asoundlib.h>
import "C"

import (
	"fmt"
	"unsafe"
)

// probe reports why no sound can be played on this machine now, nil if it can.
// It opens the default output, else the first output of each card, and closes
// it again.
func probe() error {
	err := probeNamed("default")
	for card := nextCard(-1); err != nil && card >= 0; card = nextCard(card) {
		if probeNamed(fmt.Sprintf("plughw:%d", card)) == nil {
			return nil
		}
	}
	return err
}

// nextCard returns the number of the sound card after one, -1 after the last.
func nextCard(card int) int {
	n := C.int(card)
	if C.snd_card_next(&n) < 0 {
		return -1
	}
	return int(n)
}

func probeNamed(name string) error {
	cname := C.CString(name)
	defer C.free(unsafe.Pointer(cname))
	var pcm *C.snd_pcm_t
	if code := C.snd_pcm_open(&pcm, cname, C.SND_PCM_STREAM_PLAYBACK, C.SND_PCM_NONBLOCK); code < 0 {
		return fmt.Errorf("no sound device: %s", C.GoString(C.snd_strerror(code)))
	}
	C.snd_pcm_close(pcm)
	return nil
}
