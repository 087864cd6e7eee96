// Stillbeat plans films that are shot frame by frame: pictures on the beats of
// a song, and the animatic they make.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	go func() {
		<-ctx.Done()
		stop() // a second Ctrl-C ends the program at once
	}()
	os.Exit(run(ctx, newApp(os.Stdout, os.Stderr), os.Args[1:]))
}
