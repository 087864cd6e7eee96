package play

import "sync"

var (
	openLock sync.Mutex
	opened   *feeder
)

// openDevice returns the machine's output, tuned to a rate in samples a second
// unless it plays just now. Whether there is one, its err tells; it can take
// seconds.
func openDevice(rate int) (device, error) {
	openLock.Lock()
	defer openLock.Unlock()
	if opened == nil {
		opened = newFeeder(&machine{}, rate)
	}
	opened.tuneTo(rate)
	opened.lookNow()
	return opened, nil
}

// machine is the output of the sound server, else that of a sound card.
type machine struct{ output }

func (m *machine) open(hz int) error {
	m.output = &pulseOutput{}
	if m.output.open(hz) == nil {
		return nil
	}
	m.output = &alsa{}
	return m.output.open(hz)
}
