package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
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
	post    func(func()) // has something done on the window's goroutine
	row     *fyne.Container
	what    *widget.Label
	more    *canvas.Text // the time left, and how many wait
	bar     *widget.ProgressBar
	stopAll *widget.Button
	cancel  context.CancelFunc // of the job under way, nil for none
	now     job
	began   time.Time // of its first progress
	wait    []job
}

// job is a piece of work.
type job struct {
	what  string
	work  func(ctx context.Context, p desk.Progress) error
	done  func(error)
	after bool // it lets all others go before it, but its like
}

func newJobs(post func(func())) *jobs {
	j := &jobs{post: post, what: widget.NewLabel(""), more: small(""), bar: widget.NewProgressBar()}
	j.what.Truncation = fyne.TextTruncateEllipsis
	stop := quiet("Stop", j.Stop)
	j.stopAll = quiet("Stop all", j.StopAll)
	j.row = container.NewStack(canvas.NewRectangle(paperDark), container.NewBorder(nil, nil, nil,
		container.NewHBox(centred(j.more), fixedWidth(120, j.bar), stop, j.stopAll), j.what))
	j.row.Hide()
	return j
}

// Busy reports whether a job is under way.
func (j *jobs) Busy() bool { return j.cancel != nil }

// Stop stops the job under way; the next one goes on.
func (j *jobs) Stop() {
	if j.cancel != nil {
		j.cancel()
	}
}

// StopAll stops the job under way and those waiting.
func (j *jobs) StopAll() {
	j.wait = nil
	j.Stop()
}

// Run does work on a goroutine of its own, after those before it, then calls
// done on the window's goroutine; done is not called for a job that was
// stopped. It is for the window's goroutine alone.
func (j *jobs) Run(what string, work func(ctx context.Context, p desk.Progress) error, done func(error)) {
	j.add(job{what: what, work: work, done: done})
}

// Queue is Run for work that nothing waits for: all other work that waits goes
// before it.
func (j *jobs) Queue(what string, work func(ctx context.Context, p desk.Progress) error, done func(error)) {
	j.add(job{what, work, done, true})
}

// Queued counts the jobs of Queue that are under way or wait.
func (j *jobs) Queued() (n int) {
	for _, x := range append([]job{j.now}, j.wait...) {
		if x.after {
			n++
		}
	}
	return n
}

func (j *jobs) add(x job) {
	if !j.Busy() {
		j.start(x)
		return
	}
	at := len(j.wait)
	if i := slices.IndexFunc(j.wait, func(y job) bool { return y.after }); i >= 0 && !x.after {
		at = i
	}
	j.wait = slices.Insert(j.wait, at, x)
	j.tell(0)
}

func (j *jobs) start(x job) {
	ctx, cancel := context.WithCancel(context.Background())
	j.cancel, j.now, j.began = cancel, x, time.Time{}
	j.what.SetText(x.what)
	j.bar.SetValue(0)
	j.tell(0)
	j.row.Show()
	var last time.Time
	progress := func(f float64) {
		if now := time.Now(); now.Sub(last) > 60*time.Millisecond {
			last = now
			j.post(func() {
				if ctx.Err() == nil {
					j.tell(f)
				}
			})
		}
	}
	go func() {
		err := guarded(ctx, progress, x.work)
		j.post(func() {
			stopped := ctx.Err() != nil && (err == nil || errors.Is(err, context.Canceled))
			cancel()
			j.cancel, j.now = nil, job{}
			j.row.Hide()
			if !stopped {
				x.done(err)
			}
			if len(j.wait) > 0 && !j.Busy() {
				next := j.wait[0]
				j.wait = j.wait[1:]
				j.start(next)
			}
		})
	}()
}

// tell shows how far the job under way is, if it has come further, and how many
// wait.
func (j *jobs) tell(done float64) {
	if j.began.IsZero() && done > 0 {
		j.began = time.Now()
	}
	if done > j.bar.Value {
		j.bar.SetValue(done)
	}
	var parts []string
	if j.now.after {
		if left := leftWords(j.bar.Value, j.began); left != "" {
			parts = append(parts, left)
		}
	}
	waits := len(j.wait)
	if waits > 0 {
		verb := "wait"
		if waits == 1 {
			verb = "waits"
		}
		parts = append(parts, fmt.Sprintf("%d more %s", waits, verb))
	}
	setText(j.more, strings.Join(parts, "  ·  "))
	j.stopAll.Hidden = waits == 0
	j.row.Refresh()
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
