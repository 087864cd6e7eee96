package board

import (
	"errors"
	"fmt"
	"slices"
)

// Planning is what the shoot is planned by. Times are minutes; in Pace alone 0
// is not none.
type Planning struct {
	Pace        float64 `json:"pace"`        // for an exposure; 0: learnt from the log, UsualPace without one
	SetUp       float64 `json:"set_up"`      // for each shot before its first exposure: set, lamps, camera
	Plate       float64 `json:"plate"`       // for a clean plate
	Retouch     float64 `json:"retouch"`     // at the desk, for each photograph with a rig in view
	Contingency float64 `json:"contingency"` // time on the set for what goes wrong, as a part of the rest
	Session     float64 `json:"session"`     // the length of one

	Retakes   float64 `json:"retakes"`   // photographs taken again and kept, as a part of the others
	Megabytes float64 `json:"megabytes"` // of a photograph, millions of bytes
	Copies    int     `json:"copies"`    // of each photograph, the first included
	Charge    int     `json:"charge"`    // photographs on one charge of the battery; 0: the camera runs from the mains

	Every bool     `json:"every"`         // still panels and repeats are photographed for each exposure too
	Log   []Logged `json:"log,omitempty"` // what was shot, in any order
}

// Logged says what a spell of shooting gave.
type Logged struct {
	Shot      string  `json:"shot,omitempty"` // the number it was called by then
	Exposures int     `json:"exposures"`
	Minutes   float64 `json:"minutes"` // they took, without the set-up
}

// UsualPace is the pace, in minutes for an exposure, as long as nobody has set
// one or logged any: 24 in an hour, of the 20 to 60 that are common practice on
// a simple set of one's own.
const UsualPace = 2.5

// UsualPlanning has the figures of a film for which none are set, all of them
// common practice: sessions of an evening, camera files of 24 megapixels.
var UsualPlanning = Planning{SetUp: 45, Plate: 5, Retouch: 3, Contingency: 0.2, Session: 180, Retakes: 0.2, Megabytes: 30, Copies: 2, Charge: 300}

// Limits of a plan.
const (
	MaxLogged    = 5000 // entries of the log
	MaxMinutes   = 1440 // of a session, a set-up, a plate or a retouch
	LeastMinutes = 10   // of a session
	MaxPace      = 600  // minutes for an exposure
)

// Planning returns what the shoot is planned by. Its log is shared: do not
// change it.
func (b Board) Planning() Planning {
	if b.Plan == nil {
		return UsualPlanning
	}
	return *b.Plan
}

// check returns an error that names the first figure that is out of bounds.
func (p Planning) check() error {
	for _, f := range []struct {
		what            string
		v, least, limit float64
	}{
		{"a pace of %g minutes for an exposure", p.Pace, 0, MaxPace},
		{"a set-up of %g minutes", p.SetUp, 0, MaxMinutes},
		{"%g minutes for a clean plate", p.Plate, 0, MaxMinutes},
		{"%g minutes of retouching for a photograph", p.Retouch, 0, MaxMinutes},
		{"a contingency of %g times the time", p.Contingency, 0, 5},
		{"a session of %g minutes", p.Session, LeastMinutes, MaxMinutes},
		{"retakes of %g times the photographs", p.Retakes, 0, 10},
		{"%g megabytes for a photograph", p.Megabytes, 0, 1000},
		{"%g copies", float64(p.Copies), 1, 10},
		{"%g photographs on a charge", float64(p.Charge), 0, 100000},
	} {
		if !(f.v >= f.least && f.v <= f.limit) {
			return fmt.Errorf(f.what+": a plan takes %g to %g", f.v, f.least, f.limit)
		}
	}
	if len(p.Log) > MaxLogged {
		return fmt.Errorf("%d entries in the log: it has at most %d", len(p.Log), MaxLogged)
	}
	for i, l := range p.Log {
		switch {
		case len(l.Shot) > 40 || !readable(l.Shot):
			return fmt.Errorf("the shot of log entry %d is too long or not readable", i+1)
		case l.Exposures < 1 || l.Exposures > 1e6:
			return fmt.Errorf("log entry %d has %d exposures: it takes 1 to 1000000", i+1, l.Exposures)
		case !(l.Minutes > 0 && l.Minutes <= 1e5):
			return fmt.Errorf("log entry %d has %g minutes: it takes more than 0 and up to 100000", i+1, l.Minutes)
		}
	}
	return nil
}

// SetPlan sets what the shoot is planned by, its log too.
func SetPlan(p Planning) Edit {
	return merging(Edit{Name: "plan of the shoot", Apply: func(b Board) (Board, error) {
		return b.withPlan(p)
	}})
}

// Log enters what a spell of shooting gave.
func Log(l Logged) Edit {
	return Edit{Name: "log of the shoot", Apply: func(b Board) (Board, error) {
		p := b.Planning()
		p.Log = append(slices.Clone(p.Log), l)
		return b.withPlan(p)
	}}
}

// RemoveLog takes entry i out of the log.
func RemoveLog(i int) Edit {
	return Edit{Name: "log of the shoot", Apply: func(b Board) (Board, error) {
		p := b.Planning()
		if i < 0 || i >= len(p.Log) {
			return b, errors.New("there is no such entry in the log")
		}
		p.Log = slices.Delete(slices.Clone(p.Log), i, i+1)
		return b.withPlan(p)
	}}
}

func (b Board) withPlan(p Planning) (Board, error) {
	out := b
	if p.Log = slices.Clone(p.Log); len(p.Log) == 0 {
		p.Log = nil
	}
	out.Plan = &p
	return out.checked(b)
}
