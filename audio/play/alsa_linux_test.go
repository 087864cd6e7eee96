package play

import (
	"fmt"
	"syscall"
)

func Example_plainly() {
	for _, e := range []syscall.Errno{syscall.ENOENT, syscall.EBUSY, syscall.ECONNREFUSED, syscall.EIO, syscall.ENODEV, syscall.EINVAL} {
		fmt.Printf("no sound device: %s\n", plainly(e))
	}
	// Output:
	// no sound device: none was found
	// no sound device: another program has it to itself
	// no sound device: the sound server does not answer
	// no sound device: it takes no more sound
	// no sound device: it takes no more sound
	// no sound device:
}
