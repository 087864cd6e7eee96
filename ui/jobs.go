package ui

import (
	"context"
	"errors"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/desk"
)

// jobs runs long work one piece at a time, with its progress and a way to
// stop it in the foot of the window.
type jobs struct {
	post   func(func()) // has something done on the window's goroutine
	row    *fyne.Container
	what   *widget.Label
	bar    *widget.ProgressBar
	cancel context.CancelFunc // of the job under way, nil for none
	wait   []func()
}

func newJobs(post func(func())) *jobs {
	j := &jobs{post: post, what: widget.NewLabel(""), bar: widget.NewProgressBar()}
	j.what.Truncation = fyne.TextTruncateEllipsis
	stop := widget.NewButton("Stop", j.Stop)
	stop.Importance = widget.LowImportance
	j.row = container.NewStack(canvas.NewRectangle(paperDark),
		container.NewBorder(nil, nil, nil, container.NewHBox(fixedWidth(180, j.bar), stop), j.what))
	j.row.Hide()
	return j
}

// Busy reports whether a job is under way.
func (j *jobs) Busy() bool { return j.cancel != nil }

// Stop stops the job under way and those waiting.
func (j *jobs) Stop() {
	j.wait = nil
	if j.cancel != nil {
		j.cancel()
	}
}

// Run does work on a goroutine of its own, after those before it, then calls
// done on the window's goroutine; done is not called for a job that was
// stopped. It is for the window's goroutine alone.
func (j *jobs) Run(what string, work func(ctx context.Context, p desk.Progress) error, done func(error)) {
	if j.Busy() {
		j.wait = append(j.wait, func() { j.Run(what, work, done) })
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	j.cancel = cancel
	j.what.SetText(what)
	j.bar.SetValue(0)
	j.row.Show()
	var last time.Time
	progress := func(f float64) {
		if now := time.Now(); now.Sub(last) > 60*time.Millisecond {
			last = now
			j.post(func() { j.bar.SetValue(f) })
		}
	}
	go func() {
		err := guarded(ctx, progress, work)
		j.post(func() {
			stopped := ctx.Err() != nil && (err == nil || errors.Is(err, context.Canceled))
			cancel()
			j.cancel = nil
			j.row.Hide()
			if !stopped {
				done(err)
			}
			if len(j.wait) > 0 && !j.Busy() {
				next := j.wait[0]
				j.wait = j.wait[1:]
				next()
			}
		})
	}()
}

// guarded turns a panic in work into an error.
func guarded(ctx context.Context, p desk.Progress, work func(context.Context, desk.Progress) error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("something went wrong inside Stillbeat: %v", r)
		}
	}()
	return work(ctx, p)
}
