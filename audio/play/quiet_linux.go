package play

// #cgo pkg-config: alsa
// #include <alsa/asoundlib.h>
//
// static void say_nothing(const char *file, int line, const char *function, int err, const char *format, ...) {}
// static void stillbeat_quiet_alsa(void) { snd_lib_error_set_handler(say_nothing); }
import "C"

// The sound library writes what it tries on the way to a device to standard
// error; what matters of it comes back as an error.
func init() { C.stillbeat_quiet_alsa() }
