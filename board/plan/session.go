package plan

import (
	"fmt"

	"stillbeat/board"
)

// Session is one sitting.
type Session struct {
	Pieces  []Piece
	Take    int64   // photographs that are new, clean plates not counted
	Minutes float64 // contingency included
	Storage Storage
}

// Piece is a shot, or what a session has room for of one that is longer than a
// session.
type Piece struct {
	Shot    int     // place in Plan.Shots
	Part    int     // from 1
	Parts   int     // 1: all of the shot
	First   int64   // its first photograph, of the shot's new ones from 1
	Take    int64   // how many; 0: set-up alone
	SetUp   float64 // minutes of set-up in it
	Minutes float64
}

// MaxSessions is for how many full sessions of work a plan is made.
const MaxSessions = 5000

// slack is what sums of minutes may be off by.
const slack = 1e-6

// sessions lays shots into sessions; each is the minutes of an exposure.
//
// Shots with more risks come first, those with as many in the order of the
// film. A session takes the next one that still fits and, among those with as
// many risks, goes on with the scene it is in. No shot is split, unless it is
// longer than a session: then it is cut into as few pieces as that takes, in
// sessions in a row. Last, sessions that stay with a scene whatever the risks
// are taken instead if there are no more of them and nothing risky comes later.
func sessions(shots []Shot, p board.Planning, each float64) ([]Session, error) {
	var pieces float64
	for _, s := range shots {
		pieces += s.Minutes / p.Session
	}
	if pieces > MaxSessions {
		return nil, fmt.Errorf("the shoot would take more than %d sessions of %.4g minutes", MaxSessions, p.Session)
	}
	plain, grouped := lay(shots, p.Session, each, false), lay(shots, p.Session, each, true)
	if len(grouped) <= len(plain) && noLater(shots, grouped, plain) {
		plain = grouped
	}
	for i := range plain {
		s := &plain[i]
		photographs := int64(0)
		for _, piece := range s.Pieces {
			s.Take += piece.Take
			s.Minutes += piece.Minutes
			if piece.Part == 1 && shots[piece.Shot].Plate {
				photographs++
			}
		}
		s.Storage = storageOf(s.Take+photographs, p)
	}
	return plain, nil
}

// noLater reports whether every shot with a risk begins in the same session of
// a as of b or in an earlier one.
func noLater(shots []Shot, a, b []Session) bool {
	inA, inB := begins(a), begins(b)
	for i, s := range shots {
		if len(s.Risks) > 0 && inA[i] > inB[i] {
			return false
		}
	}
	return true
}

// begins returns in which session each shot begins.
func begins(sessions []Session) map[int]int {
	out := map[int]int{}
	for n, s := range sessions {
		for _, p := range s.Pieces {
			if p.Part == 1 {
				out[p.Shot] = n
			}
		}
	}
	return out
}
