package play

import (
	"errors"
	"io"
	"time"
)

// device is what the player needs of a sound device: it plays a reader of
// interleaved stereo float32 at rate until the voice is closed.
type device interface {
	voice(r io.Reader) voice
	rate() int
	latency() time.Duration // from leaving the voice to being heard
	err() error             // why nothing sounds, nil while all is well
	look()                  // tries again, in the background, if err is not nil
}

type voice interface {
	Play()
	BufferedSize() int // bytes read but not yet taken by the device
	Close() error      // nothing more is read
}

var errNoAnswer = errors.New("the sound device does not answer")

// buffer is the sound the device holds ready: short enough to answer a key
// at once, long enough not to stutter while pictures are drawn.
const buffer = 60 * time.Millisecond
