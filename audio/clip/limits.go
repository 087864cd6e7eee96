package clip

import (
	"errors"
	"fmt"
)

// ErrTooBig says that the decoded sound would not fit a sane amount of memory.
var ErrTooBig = errors.New("the sound unpacks to far more than its file can hold")

// ErrEmpty says that a file of a known format holds no samples.
var ErrEmpty = errors.New("there is no sound in it")

// Limits on what a reader accepts.
const (
	MinRate     = 1_000   // Hz
	MaxRate     = 768_000 // Hz
	MaxChannels = 8
)

// Decoded values (samples times channels) a file may unpack to: a free
// allowance, 16 minutes of stereo at 44.1 kHz, plus a number for each byte.
// The densest MPEG frame unpacks to 24 values for each byte, so only files
// made to blow up, or hours of digital silence, meet this limit.
const (
	freeValues    = 80 << 20
	valuesPerByte = 32
)

// CheckFormat returns an error wrapping ErrFormat unless rate (Hz) and
// channels are within the limits above.
func CheckFormat(rate, channels int) error {
	if channels < 1 || channels > MaxChannels {
		return fmt.Errorf("%w: it has %d channels, and 1 to %d can be read", ErrFormat, channels, MaxChannels)
	}
	if rate < MinRate || rate > MaxRate {
		return fmt.Errorf("%w: its sample rate is %d Hz, and %d to %d Hz can be read", ErrFormat, rate, MinRate, MaxRate)
	}
	return nil
}

// CheckSize returns ErrTooLong or ErrTooBig if a sound of so many samples per
// channel may not come out of a file of fileBytes bytes.
func CheckSize(rate, channels, samples, fileBytes int) error {
	if samples > MaxSeconds*rate {
		return ErrTooLong
	}
	if samples*channels > freeValues+valuesPerByte*fileBytes {
		return ErrTooBig
	}
	return nil
}
