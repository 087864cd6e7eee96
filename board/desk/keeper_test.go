package desk

import (
	"fmt"
	"sync"
	"testing"
	"testing/synctest"

	"stillbeat/board"
)

// slowSaver writes one film each time it is let, and fails while fail is set.
type slowSaver struct {
	gate chan struct{} // nil: at once

	mu     sync.Mutex
	fail   error
	tries  int
	titles []string // written
}

func (s *slowSaver) Save(p board.Past) error {
	if s.gate != nil {
		<-s.gate
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.tries++
	if s.fail != nil {
		return s.fail
	}
	s.titles = append(s.titles, p.Board().Title)
	return nil
}

func (s *slowSaver) failing(err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.fail = err
}

func titled(title string) board.Board {
	b := board.New()
	b.Title = title
	return b
}

func past(title string) board.Past { return board.NewPast(titled(title)) }

func TestKeeperWritesFewOfABurst(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &slowSaver{gate: make(chan struct{})}
		k := newKeeper(s, func(err error) { t.Error(err) })
		k.keep(past("first"))
		synctest.Wait() // the first is being written
		for i := range 100 {
			k.keep(past(fmt.Sprint(i)))
		}
		flushed := make(chan error)
		go func() { flushed <- k.flush() }()
		s.gate <- struct{}{}
		synctest.Wait()
		select {
		case <-flushed:
			t.Fatal("flush did not wait for the newest")
		default:
		}
		s.gate <- struct{}{}
		if err := <-flushed; err != nil {
			t.Error(err)
		}
		if got := fmt.Sprint(s.titles); got != "[first 99]" {
			t.Errorf("written: %s, want the first and the newest", got)
		}
	})
}

func TestKeeperTellsTroubleAndTriesAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var told []error
		s := &slowSaver{fail: errDisk}
		k := newKeeper(s, func(err error) { told = append(told, err) })
		k.keep(past("a"))
		synctest.Wait()
		if len(told) != 1 || told[0] != errDisk {
			t.Errorf("told %v", told)
		}
		if err := k.flush(); err != errDisk {
			t.Errorf("flush = %v while the disk is full", err)
		}
		s.failing(nil)
		if err := k.flush(); err != nil {
			t.Errorf("flush = %v when there is room again", err)
		}
		if got := fmt.Sprint(s.titles); got != "[a]" {
			t.Errorf("written: %s", got)
		}
		if err := k.flush(); err != nil || s.tries != 3 {
			t.Errorf("another flush: %v after %d writes, want none more than 3", err, s.tries)
		}

		s.failing(errDisk)
		k.keep(past("b"))
		synctest.Wait()
		s.failing(nil)
		k.keep(past("c"))
		if err := k.flush(); err != nil || fmt.Sprint(s.titles) != "[a c]" {
			t.Errorf("flush = %v with %v written, want the newest and not the one that failed", err, s.titles)
		}
	})
}

func TestKeeperStops(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := &slowSaver{gate: make(chan struct{})}
		k := newKeeper(s, func(err error) { t.Error(err) })
		k.keep(past("under way"))
		stopped := make(chan bool)
		go func() {
			k.stop()
			close(stopped)
		}()
		synctest.Wait()
		k.keep(past("too late"))
		s.gate <- struct{}{}
		<-stopped
		k.keep(past("far too late"))
		if err := k.flush(); err != nil || fmt.Sprint(s.titles) != "[under way]" {
			t.Errorf("flush = %v with %v written", err, s.titles)
		}
	})
}
