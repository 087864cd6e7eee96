// Package locale names a language for the window's toolkit where the
// environment names none (unset, C, POSIX, C.UTF-8): the toolkit reads the
// environment while it is initialised and complains on standard error about a
// language it cannot parse.
//
// So it has to be done before the toolkit's packages are initialised. Go does
// that in the order of import paths among the packages whose imports are done
// (language specification, Program initialization): this package needs little,
// and its path sorts before text/template, which the toolkit's languages need.
// A test of the program checks that nothing is printed.
package locale

import (
	"os"
	"strings"
)

func init() {
	locale := ""
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if locale = os.Getenv(name); locale != "" {
			break
		}
	}
	if language, _, _ := strings.Cut(locale, "."); language == "" || language == "C" || language == "POSIX" {
		os.Setenv("LC_ALL", "en_GB.UTF-8")
	}
}
