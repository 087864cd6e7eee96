package figure

import "math"

// Drag returns the figure after a joint was dragged towards a place: a hand or
// a foot takes its limb along, the hips the whole body, while feet that are
// pinned stay. It goes as near as lengths, limits and pins allow.
func (p Pose) Drag(j Joint, to Point) Pose {
	now := p.Joints()
	side := Turn(0)
	base := j
	if j >= FarShoulder {
		side, base = sideTurns, j-sideJoints
	}
	torso := p.angle(Whole) + p.angle(Spine)
	at := func(k Joint) Point { // of the same side
		if j >= FarShoulder {
			k += sideJoints
		}
		return now[k]
	}
	switch base {
	case Hips, NearHip:
		return p.dragHips(Point{to.X - now[j].X, to.Y - now[j].Y})
	case Neck, NearShoulder:
		if p.Pinned == [2]bool{} { // nothing holds it: all of it leans
			p.turn(Whole, math.Pi-p.towards(now[Hips], to)-p.angle(Spine))
			break
		}
		p.turn(Spine, math.Pi-p.towards(now[Hips], to)-p.angle(Whole))
	case Head:
		p.turn(Nod, math.Pi-p.towards(now[Neck], to)-torso)
	case NearElbow:
		p.turn(NearUpperArm+side, p.towards(at(NearShoulder), to)+torso)
	case NearHand:
		l := p.lengths()
		p.reach(limb{NearUpperArm + side, NearForearm + side, l.upperArm, l.forearm, 1, -torso}, at(NearShoulder), to)
	case NearKnee:
		return p.keepPins(func(q *Pose) { q.turn(NearThigh+side, q.towards(at(NearHip), to)+q.angle(Whole)) })
	case NearFoot:
		if p.pinned(side) { // it slides
			to.Y = float64(p.Ground)
		}
		return p.placeFoot(side, at(NearHip), to)
	case NearToes:
		foot := at(NearFoot)
		shin := p.angle(NearThigh+side) - p.angle(Whole) - p.angle(NearShin+side)
		p.turn(NearSole+side, p.towards(foot, to)-shin-math.Pi/2)
	}
	return p
}

func (p Pose) pinned(side Turn) bool { return p.Pinned[side/sideTurns] }

// limb is an upper part and a lower one that bends one way.
type limb struct {
	upper, lower Turn
	a, b         float64 // lengths
	bends        float64 // 1: the lower part turns forward, -1: backward
	base         float64 // angle of the upper part when its turn is 0
}

// reach bends a limb so that its end comes as near to a place as it can.
func (p *Pose) reach(l limb, root, to Point) {
	d := math.Hypot(to.X-root.X, to.Y-root.Y)
	// The law of cosines gives the angle between the parts.
	inner := math.Acos(min(max((l.a*l.a+l.b*l.b-d*d)/(2*l.a*l.b), -1), 1))
	p.turn(l.lower, math.Pi-inner)
	bend := p.angle(l.lower)
	ahead := math.Atan2(l.b*math.Sin(bend), l.a+l.b*math.Cos(bend))
	p.turn(l.upper, p.towards(root, to)-l.bends*ahead-l.base)
	// Where the upper part is held back, the lower one does what it can.
	angle := l.base + p.angle(l.upper)
	joint := p.from(root, angle, l.a)
	best := *p
	p.turn(l.lower, l.bends*(p.towards(joint, to)-angle))
	if best.miss(l, root, to) <= p.miss(l, root, to) {
		*p = best
	}
}

// miss returns how far the end of a limb is from a place.
func (p *Pose) miss(l limb, root, to Point) float64 {
	angle := l.base + p.angle(l.upper)
	end := p.from(p.from(root, angle, l.a), angle+l.bends*p.angle(l.lower), l.b)
	return math.Hypot(end.X-to.X, end.Y-to.Y)
}

// placeFoot brings a foot to a place, its sole level if the ankle allows.
func (p Pose) placeFoot(side Turn, hip, to Point) Pose {
	l := p.lengths()
	p.reach(limb{NearThigh + side, NearShin + side, l.thigh, l.shin, -1, -p.angle(Whole)}, hip, to)
	p.turn(NearSole+side, -(p.angle(NearThigh+side) - p.angle(Whole) - p.angle(NearShin+side)))
	return p
}

// pinHolds is how far a pinned foot may be from its place, for rounding.
const pinHolds = 4

// dragHips moves the body as far towards a place as its pinned feet can stay.
func (p Pose) dragHips(by Point) Pose {
	return p.keepWay(func(q *Pose, k float64) {
		q.X = clamped(float64(p.X) + k*by.X)
		q.Y = clamped(float64(p.Y) + k*by.Y)
	})
}

// keepPins makes a change unless a pinned foot would leave its place by it.
func (p Pose) keepPins(change func(*Pose)) Pose {
	q := p
	change(&q)
	if q.feetFrom(p) > pinHolds {
		return p
	}
	return q
}

// keepWay makes as much of a change, k from 0 to 1, as pinned feet allow.
func (p Pose) keepWay(change func(q *Pose, k float64)) Pose {
	try := func(k float64) (Pose, bool) {
		q := p
		change(&q, k)
		q = q.planted(p)
		return q, q.feetFrom(p) <= pinHolds
	}
	if q, ok := try(1); ok {
		return q
	}
	best, lo, hi := p, 0., 1.
	for range 16 {
		k := (lo + hi) / 2
		if q, ok := try(k); ok {
			best, lo = q, k
		} else {
			hi = k
		}
	}
	return best
}

// planted brings the pinned feet back to where they were.
func (p Pose) planted(was Pose) Pose {
	before, now := was.Joints(), p.Joints()
	for side := range 2 {
		if p.Pinned[side] {
			p = p.placeFoot(Turn(side)*sideTurns, now[NearHip+Joint(side)*sideJoints], before[NearFoot+Joint(side)*sideJoints])
		}
	}
	return p
}

// feetFrom returns how far a pinned foot is from where it was.
func (p Pose) feetFrom(was Pose) float64 {
	before, now := was.Joints(), p.Joints()
	most := 0.
	for side := range 2 {
		if j := NearFoot + Joint(side)*sideJoints; p.Pinned[side] {
			most = max(most, math.Hypot(now[j].X-before[j].X, now[j].Y-before[j].Y))
		}
	}
	return most
}

func clamped(v float64) int32 { return int32(math.Round(min(max(v, -far), far))) }
