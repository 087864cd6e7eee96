//go:build !linux

package play

import (
	"fmt"
	"io"
	"sync"
	"time"

	"github.com/ebitengine/oto/v3"
)

// otoDevice is the machine's default output. The library opens one in the life
// of a process, and none after a first try that failed.
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
// call returns the first one's device, whatever its rate.
func openDevice(rate int) (device, error) {
	openLock.Lock()
	defer openLock.Unlock()
	if opened == nil && openErr == nil {
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
		return nil, errNoAnswer
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("open the sound device: %w", err)
	}
	return &otoDevice{ctx, rate}, nil
}

func (d *otoDevice) rate() int  { return d.hz }
func (d *otoDevice) err() error { return d.ctx.Err() }
func (d *otoDevice) look()      {} // the library opens nothing twice

// latency is the device's buffer of two periods plus the period on its way
// into it: a period is half the buffer, and the library reads the next one
// when the last has just been taken.
func (d *otoDevice) latency() time.Duration { return buffer + buffer/2 }

func (d *otoDevice) voice(r io.Reader) voice {
	p := d.ctx.NewPlayer(r)
	p.SetBufferSize(int(buffer.Seconds()*float64(d.hz)) * frameBytes)
	return otoVoice{p}
}

// otoVoice is silent once it is closed: the library's own Close does nothing,
// and what plays on is collected some time later.
type otoVoice struct{ *oto.Player }

func (v otoVoice) Close() error {
	v.Pause()
	return nil
}
