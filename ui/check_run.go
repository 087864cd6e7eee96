package ui

import (
	"context"
	"errors"
	"reflect"
	"time"

	"stillbeat/board"
	"stillbeat/board/check"
	"stillbeat/board/desk"
	"stillbeat/board/picture"
)

// checkWait is how long the film must stay as it is before it is looked over.
const checkWait = 400 * time.Millisecond

// checkedFilm is what a check depends on.
type checkedFilm struct {
	desk  *desk.Desk
	board board.Board // nothing dismissed
	sound board.Sound
}

func (a checkedFilm) same(b checkedFilm) bool {
	return a.desk == b.desk && a.sound == b.sound && reflect.DeepEqual(a.board, b.board)
}

// checkRun looks the film over in the background, once it has stayed as it is
// for a while; a newer film ends the check of the one before.
type checkRun struct {
	w    *window
	wait time.Duration
	done func(check.Report)
	told func() // how it stands changed

	wanted, known checkedFilm
	turn          int // of the check wanted last
	under         bool
	trouble       string
	cancel        context.CancelFunc
	pictures      *picture.Cache // kept, so that the next check is quick
	of            *desk.Desk     // it draws from
}

// film is the film as it is now.
func (r *checkRun) film() checkedFilm {
	f := checkedFilm{r.w.desk, r.w.board, r.w.desk.Sound()}
	f.board.Dismissed = nil
	return f
}

// Known reports whether this film was looked over, perhaps before it was
// changed; Fresh, whether it is as it was then.
func (r *checkRun) Known() bool { return r.known.desk == r.w.desk && r.known.desk != nil }

// Fresh reports whether the film is as it was when it was looked over.
func (r *checkRun) Fresh() bool { return r.Known() && r.known.same(r.film()) }

// Words say how it stands.
func (r *checkRun) Words() string {
	switch {
	case r.trouble != "":
		return r.trouble
	case r.under:
		return "Looking the film over…"
	case r.Known() && !r.Fresh():
		return "The film has changed since."
	}
	return ""
}

// Want has the film looked over, unless that was done or is under way.
func (r *checkRun) Want() {
	f := r.film()
	if r.Fresh() || r.under && r.wanted.same(f) {
		return
	}
	r.Stop()
	r.wanted, r.under, r.trouble = f, true, ""
	turn := r.turn
	time.AfterFunc(r.wait, func() {
		r.w.post(func() {
			if turn == r.turn {
				r.start(turn)
			}
		})
	})
}

// Again looks the film over once more.
func (r *checkRun) Again() {
	r.Stop()
	r.known = checkedFilm{}
	r.Want()
	r.told()
}

// Stop ends the check under way.
func (r *checkRun) Stop() {
	r.turn++
	r.under = false
	if r.cancel != nil {
		r.cancel()
		r.cancel = nil
	}
}

// cache returns the pictures of checks.
func (r *checkRun) cache() *picture.Cache {
	if r.of != r.w.desk {
		r.of, r.pictures = r.w.desk, picture.NewCache(r.w.desk, 0)
	}
	return r.pictures
}

func (r *checkRun) start(turn int) {
	f, pictures := r.wanted, r.cache()
	own, cancel := context.WithCancel(context.Background())
	r.cancel = cancel
	var report check.Report
	r.w.jobs.Run("Looking the film over", func(ctx context.Context, p desk.Progress) (err error) {
		defer context.AfterFunc(ctx, func() {
			cancel()
			r.w.post(func() { r.ended(turn, "Stopped: what is shown may be old.") })
		})()
		report, err = lookOver(own, f, pictures, p)
		return err
	}, func(err error) {
		cancel()
		switch {
		case turn != r.turn:
		case err != nil && errors.Is(err, context.Canceled):
			r.ended(turn, "Stopped: what is shown may be old.")
		case err != nil:
			r.ended(turn, sentence(err.Error()))
		default:
			r.known, r.under = f, false
			r.done(report)
		}
	})
}

// ended notes that a check came to no end.
func (r *checkRun) ended(turn int, why string) {
	if turn == r.turn {
		r.under, r.trouble = false, why
		r.told()
	}
}

// lookOver checks a film with its song, if that is at hand.
func lookOver(ctx context.Context, f checkedFilm, pictures *picture.Cache, p desk.Progress) (check.Report, error) {
	o := check.Options{Pictures: pictures, Progress: p}
	if f.board.Song != nil && f.sound != nil {
		peak, err := check.PeakOf(ctx, f.board, f.sound)
		if err != nil {
			return check.Report{}, err
		}
		o.Peak = &peak
	}
	return check.Run(ctx, f.board, o)
}
