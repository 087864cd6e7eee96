package play

import (
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/ebitengine/oto/v3"
)

// device is what the player needs of a sound device: it plays a reader of
// interleaved stereo float32 at rate until the voice is closed.
type device interface {
	voice(r io.Reader) voice
	rate() int
	latency() time.Duration // from leaving the voice to being heard
	err() error             // why nothing sounds any more, nil while all is well
}

type voice interface {
	Play()
	BufferedSize() int // bytes read but not yet taken by the device
	Close() error
}

// buffer is the sound the device holds ready: short enough to answer a key
// at once, long enough not to stutter while pictures are drawn.
const buffer = 60 * time.Millisecond

// otoDevice is the machine's default output. The library opens one in the life
// of a process, and none after a first try that failed; so it is tried only
// once probe has found a device, and then kept.
type otoDevice struct {
	ctx *oto.Context
	hz  int
}

var (
	openLock sync.Mutex
	opened   *otoDevice
	openErr  error // of the library's one try
)

// openDevice opens the default output at about rate samples a second; a later
// call returns the first one's device, whatever its rate. While the machine
// has no device it can be called again.
func openDevice(rate int) (device, error) {
	openLock.Lock()
	defer openLock.Unlock()
	if opened == nil && openErr == nil {
		if err := probe(); err != nil {
			return nil, err
		}
		opened, openErr = open(rate)
	}
	if openErr != nil {
		return nil, openErr
	}
	return opened, nil
}

func open(rate int) (*otoDevice, error) {
	ctx, ready, err := oto.NewContext(&oto.NewContextOptions{
		SampleRate: rate, ChannelCount: channels, Format: oto.FormatFloat32LE, BufferSize: buffer,
	})
	if err != nil {
		return nil, fmt.Errorf("open the sound device: %w", err)
	}
	select {
	case <-ready:
	case <-time.After(3 * time.Second):
		return nil, errors.New("the sound device does not answer")
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("open the sound device: %w", err)
	}
	return &otoDevice{ctx, rate}, nil
}

func (d *otoDevice) rate() int  { return d.hz }
func (d *otoDevice) err() error { return d.ctx.Err() }

// latency is the device's buffer of two periods plus the period on its way
// into it: a period is half the buffer, and the library reads the next one
// when the last has just been taken.
func (d *otoDevice) latency() time.Duration { return buffer + buffer/2 }

func (d *otoDevice) voice(r io.Reader) voice {
	p := d.ctx.NewPlayer(r)
	p.SetBufferSize(int(buffer.Seconds()*float64(d.hz)) * frameBytes)
	return p
}
