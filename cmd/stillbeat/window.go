package main

import (
	"context"
	"errors"
	"os"
	"runtime"
	"strings"

	"stillbeat/ui"
)

var errNoDisplay = errors.New("there is no display to open a window on; the commands work without one: stillbeat --help")

// show opens the window on a film, "" for an empty one, and returns when it is
// closed.
func (a *app) show(film string) error {
	settleLocale()
	behind := *a
	behind.quiet = true // the window shows how far the demo film is
	return a.window(ui.Options{Film: film, Ear: a.ear, Demo: func() (string, error) {
		return behind.freshDemo(context.Background())
	}})
}

// hasDisplay reports whether a window can be opened at all.
func hasDisplay() bool {
	switch runtime.GOOS {
	case "windows", "darwin":
		return true
	}
	return os.Getenv("DISPLAY") != "" || os.Getenv("WAYLAND_DISPLAY") != ""
}

// settleLocale names a language for the toolkit where the environment names
// none (unset, C, POSIX), which it would complain about.
func settleLocale() {
	locale := ""
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if locale = os.Getenv(name); locale != "" {
			break
		}
	}
	locale, _, _ = strings.Cut(locale, ".")
	if locale == "" || locale == "C" || locale == "POSIX" {
		os.Setenv("LC_ALL", "en_GB.UTF-8")
	}
}
