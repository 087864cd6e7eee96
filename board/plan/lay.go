package plan

import (
	"math"
	"slices"
)

// layer lays shots into sessions.
type layer struct {
	shots         []Shot
	session, each float64 // minutes of a session and of an exposure
	grouped       bool    // a scene goes on whatever the risks

	done []Session
	room float64 // minutes left of the last session
}

func lay(shots []Shot, session, each float64, grouped bool) []Session {
	l := layer{shots: shots, session: session, each: each, grouped: grouped}
	var waiting []int
	for i, s := range shots {
		if s.Take > 0 {
			waiting = append(waiting, i)
		}
	}
	slices.SortStableFunc(waiting, func(i, j int) int { return len(shots[j].Risks) - len(shots[i].Risks) })
	for len(waiting) > 0 {
		k := l.next(waiting)
		if k < 0 {
			l.open()
			continue
		}
		for n, piece := range l.cut(waiting[k], l.room) {
			if n > 0 {
				l.open()
			}
			s := &l.done[len(l.done)-1]
			s.Pieces = append(s.Pieces, piece)
			l.room = max(0, l.room-piece.Minutes)
		}
		waiting = slices.Delete(waiting, k, k+1)
	}
	return l.done
}

func (l *layer) open() {
	l.done = append(l.done, Session{})
	l.room = l.session
}

// next returns the place in the list of the shot that comes next in the last
// session, -1 if none fits.
func (l *layer) next(waiting []int) int {
	if len(l.done) == 0 {
		return -1
	}
	scene := -1
	if pieces := l.done[len(l.done)-1].Pieces; len(pieces) > 0 {
		scene = l.shots[pieces[len(pieces)-1].Shot].Scene
	}
	first := -1
	for k, i := range waiting {
		s := &l.shots[i]
		if first >= 0 && !l.grouped && len(s.Risks) < len(l.shots[waiting[first]].Risks) {
			break
		}
		if first >= 0 && s.Scene != scene || !l.fits(i) {
			continue
		}
		if s.Scene == scene || scene < 0 {
			return k
		}
		first = k
	}
	return first
}

// fits reports whether a shot can begin in what is left of the last session:
// all of it, or so that it takes no more pieces than if it began a session.
func (l *layer) fits(i int) bool {
	if s := &l.shots[i]; s.Minutes <= l.session+slack {
		return s.Minutes <= l.room+slack
	}
	return l.room >= l.session || l.parts(i, l.room) <= l.parts(i, l.session)
}

// parts counts the pieces of a shot that begins with so many minutes left; a
// beginning in which nothing gets done counts as one.
func (l *layer) parts(i int, room float64) int {
	n := 0
	l.pieces(i, room, func(Piece) { n++ })
	return n
}

// cut returns the pieces of a shot that begins with so many minutes left.
func (l *layer) cut(i int, room float64) (out []Piece) {
	if s := l.shots[i]; s.Minutes <= l.session+slack {
		return []Piece{{Shot: i, Part: 1, Parts: 1, First: 1, Take: s.Take, SetUp: s.SetUp, Minutes: s.Minutes}}
	}
	l.pieces(i, room, func(p Piece) { out = append(out, p) })
	for k := range out {
		out[k].Part, out[k].Parts = k+1, len(out)
	}
	return out
}

// pieces calls add for each piece: whole exposures after the set-up, which may
// be parted anywhere.
func (l *layer) pieces(i int, room float64, add func(Piece)) {
	s := l.shots[i]
	setUp, first := s.SetUp, int64(1)
	for first <= s.Take {
		p := Piece{Shot: i, First: first, SetUp: min(setUp, room)}
		if setUp -= p.SetUp; setUp <= slack {
			most := math.Floor((room - p.SetUp + slack) / l.each)
			p.Take = int64(min(float64(s.Take-first+1), max(0, most)))
		}
		p.Minutes = p.SetUp + float64(p.Take)*l.each
		first += p.Take
		room = l.session
		add(p)
	}
}
