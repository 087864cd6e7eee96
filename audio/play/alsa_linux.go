package play

// #include <stdlib.h>
// #include <errno.h>
// #include <alsa/asoundlib.h>
import "C"

import (
	"errors"
	"fmt"
	"syscall"
	"time"
	"unsafe"
)

// alsa is the default output of the machine, else the first output of its
// sound cards that can be had.
type alsa struct {
	pcm  *C.snd_pcm_t
	size int // pairs it holds
}

func (a *alsa) open(hz int) error {
	err := a.openNamed("default", hz)
	for card := nextCard(-1); err != nil && card >= 0; card = nextCard(card) {
		if a.openNamed(fmt.Sprintf("plughw:%d", card), hz) == nil {
			return nil
		}
	}
	if err != nil {
		return fmt.Errorf("no sound device: %w", err)
	}
	return nil
}

// nextCard returns the number of the sound card after one, -1 after the last.
func nextCard(card int) int {
	n := C.int(card)
	if C.snd_card_next(&n) < 0 {
		return -1
	}
	return int(n)
}

func (a *alsa) openNamed(name string, hz int) error {
	cname := C.CString(name)
	defer C.free(unsafe.Pointer(cname))
	if code := C.snd_pcm_open(&a.pcm, cname, C.SND_PCM_STREAM_PLAYBACK, C.SND_PCM_NONBLOCK); code < 0 {
		return alsaError(code)
	}
	const convert = 1 // what the card cannot do, the library does
	code := C.snd_pcm_set_params(a.pcm, C.SND_PCM_FORMAT_FLOAT, C.SND_PCM_ACCESS_RW_INTERLEAVED,
		channels, C.uint(hz), convert, C.uint(buffer.Microseconds()))
	if code < 0 {
		a.close()
		return alsaError(code)
	}
	var size, period C.snd_pcm_uframes_t
	C.snd_pcm_get_params(a.pcm, &size, &period)
	a.size = int(size)
	return nil
}

func alsaError(code C.int) error {
	if words := plainly(syscall.Errno(-code)); words != "" {
		return errors.New(words)
	}
	return errors.New(C.GoString(C.snd_strerror(code)))
}

// plainly says what the commonest failures mean for sound; empty where the
// system's own words have to do.
func plainly(e syscall.Errno) string {
	switch e {
	case syscall.ENOENT:
		return "none was found"
	case syscall.EBUSY:
		return "another program has it to itself"
	case syscall.ECONNREFUSED:
		return "the sound server does not answer"
	case syscall.EIO, syscall.ENODEV:
		return "it takes no more sound"
	}
	return ""
}

// patience is how long write waits for room.
const patience = 100 * time.Millisecond

func (a *alsa) write(b []float32, _ bool) (int, error) {
	n := C.snd_pcm_writei(a.pcm, unsafe.Pointer(&b[0]), C.snd_pcm_uframes_t(len(b)/channels))
	code := C.int(n)
	if n == -C.EAGAIN {
		code = C.snd_pcm_wait(a.pcm, C.int(patience.Milliseconds()))
	}
	if code < 0 { // it ran dry, or slept
		if code = C.snd_pcm_recover(a.pcm, code, 1); code < 0 {
			return 0, alsaError(code)
		}
	}
	return max(0, int(n)), nil
}

// delay is at least what the output holds: a sound server that ran dry once may
// count less.
func (a *alsa) delay() (int, error) {
	var room, n C.snd_pcm_sframes_t
	if code := C.snd_pcm_avail_delay(a.pcm, &room, &n); code == -C.EPIPE {
		return 0, nil // it ran dry, which the next write sees to
	} else if code == -C.EIO {
		room, n = 0, 0 // a server that just began cannot tell
	} else if code < 0 {
		return 0, alsaError(code)
	}
	return max(int(n), a.size-int(room), 0), nil
}

func (a *alsa) pause(held bool) error {
	on := C.int(0)
	if held {
		on = 1
	}
	if code := C.snd_pcm_pause(a.pcm, on); code < 0 {
		return alsaError(code)
	}
	return nil
}

// drop leaves what was written to be heard: there is little of it, and a
// server behind the library would begin anew, which takes longer.
func (a *alsa) drop() error { return nil }

func (a *alsa) close() { C.snd_pcm_close(a.pcm) }
