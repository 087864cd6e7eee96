package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"stillbeat/board/desk"
	"stillbeat/ui"
)

// Exit statuses.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

// app is one run of the program: where its words go, what hears its songs and
// how it opens the window. Tests put others in their place.
type app struct {
	out, errOut io.Writer
	terminal    bool // errOut is a terminal: show progress there
	ear         desk.Ear
	story       story                  // the demo film
	display     func() bool            // is there a screen for a window?
	window      func(ui.Options) error // returns when the window is closed

	quiet bool
}

// newApp returns the app that talks to out and errOut and opens real windows.
func newApp(out, errOut *os.File) *app {
	return &app{
		out: out, errOut: errOut, terminal: isTerminal(errOut),
		ear: ear{}, story: lastLump(), display: hasDisplay, window: ui.Run,
	}
}

// run carries out one command line and returns the exit status. Whatever goes
// wrong, a panic included, is told in one line on errOut.
func run(ctx context.Context, a *app, args []string) (code int) {
	defer func() {
		if r := recover(); r != nil {
			code = a.report(ctx, fmt.Errorf("internal error%s: %v", panicPlace(), r))
		}
	}()
	root := a.root()
	root.SetArgs(append([]string{}, args...)) // nil would mean those of the process
	return a.report(ctx, root.ExecuteContext(ctx))
}

// usageError is a wrong command line: the program did nothing.
type usageError struct {
	command string // whose help explains it: "stillbeat listen"
	err     error
}

func (e *usageError) Error() string { return e.err.Error() }
func (e *usageError) Unwrap() error { return e.err }

// wrong returns a usageError of cmd.
func wrong(cmd *cobra.Command, format string, args ...any) error {
	return &usageError{cmd.CommandPath(), fmt.Errorf(format, args...)}
}

// report tells of err, if any, and returns the exit status it stands for.
func (a *app) report(ctx context.Context, err error) int {
	var usage *usageError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintf(a.errOut, "stillbeat: %s\nTo get help: %s --help\n", oneLine(err.Error()), usage.command)
		return exitUsage
	case ctx.Err() != nil && errors.Is(err, ctx.Err()):
		fmt.Fprintln(a.errOut, "stillbeat: stopped before it was done; nothing was written")
	default:
		fmt.Fprintf(a.errOut, "stillbeat: %s\n", oneLine(err.Error()))
	}
	return exitFailed
}

// print writes a command's result in one go, so that a full disk is noticed.
func (a *app) print(text []byte) error {
	if _, err := a.out.Write(text); err != nil {
		return fmt.Errorf("write the result: %w", err)
	}
	return nil
}

// say tells a person what was done, unless asked to be quiet.
func (a *app) say(format string, args ...any) error {
	if a.quiet {
		return nil
	}
	return a.print([]byte(oneLine(fmt.Sprintf(format, args...)) + "\n"))
}

// panicPlace returns " at file.go:12", where the panic being recovered from
// began, for the report a user may send.
func panicPlace() string {
	pcs := make([]uintptr, 64)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(1, pcs)])
	panicked := false
	for {
		f, more := frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			panicked = true
		case panicked && !strings.HasPrefix(f.Function, "runtime."):
			return fmt.Sprintf(" at %s:%d", filepath.Base(f.File), f.Line)
		}
		if !more {
			return ""
		}
	}
}
