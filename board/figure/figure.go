// Package figure is a jointed stick figure, seen from the side and a little
// from the front: a quick stand-in for a puppet. It is pure geometry. Lengths
// never change and no joint turns further than it can, whatever is dragged.
package figure

import (
	"fmt"
	"math"
)

// Point is a place, x to the right and y down, in the units of the pose.
type Point struct{ X, Y float64 }

// Joint is a place on the figure that can be dragged.
type Joint uint8

// The joints. Near and far are the sides of the body.
const (
	Hips Joint = iota // the middle of the pelvis: the whole figure goes with it
	Neck              // between the shoulders
	Head              // the middle of the head
	NearShoulder
	NearElbow
	NearHand
	NearHip
	NearKnee
	NearFoot // on the ground, under the ankle
	NearToes
	FarShoulder
	FarElbow
	FarHand
	FarHip
	FarKnee
	FarFoot
	FarToes
	Joints // how many there are
)

// sideJoints is how many joints each side has.
const sideJoints = FarShoulder - NearShoulder

// Turn is what turns at a joint.
type Turn uint8

// The turns, in the order they are stored. All are 0 when the figure stands
// with its arms hanging, and grow as a limb bends or is raised forward.
const (
	Whole        Turn = iota // of the body with all on it, forward
	Spine                    // bends forward
	Nod                      // of the head, forward
	NearUpperArm             // raised forward
	NearForearm              // the elbow bends
	NearThigh                // raised forward
	NearShin                 // the knee bends, backward
	NearSole                 // the toes are raised
	FarUpperArm
	FarForearm
	FarThigh
	FarShin
	FarSole
	Turns // how many there are
)

const sideTurns = FarUpperArm - NearUpperArm

// Degree is how many units of a turn go into a degree.
const Degree = 1000

// Limits says from where to where each turn goes, in degrees. Those of the
// limbs are the usual range of motion of a healthy adult: elbow 0 to 150, knee
// 0 to 135, hip 30 back to 120 forward, shoulder 60 back to 180 forward, ankle
// 50 down to 20 up, neck 45 both ways. Tables in use for physical examination
// give them or values within 15 degrees (after the American Academy of
// Orthopaedic Surgeons, Joint Motion, 1965; from memory). Spine and neck are
// common practice.
var Limits = [Turns][2]float64{
	Whole: {-180, 180}, Spine: {-30, 90}, Nod: {-45, 45},
	NearUpperArm: {-60, 180}, NearForearm: {0, 150}, NearThigh: {-30, 120}, NearShin: {0, 135}, NearSole: {-50, 20},
	FarUpperArm: {-60, 180}, FarForearm: {0, 150}, FarThigh: {-30, 120}, FarShin: {0, 135}, FarSole: {-50, 20},
}

// Limits of a pose. Heads are counted in hundredths.
const (
	MinHeads   = 200
	MaxHeads   = 800
	UsualHeads = 750
	far        = 20 << 14 // how far it may be from the origin
	MinSize    = 64
	MaxSize    = 8 << 14
)

// Pose is a figure where it stands and as it is bent. It is a value.
type Pose struct {
	X, Y   int32   // of the hips
	Size   int32   // from head to foot, standing straight
	Heads  int32   // its height in heads, hundredths
	Left   bool    // it looks to the left
	Ground int32   // y of the line it stands on
	Pinned [2]bool // its near and its far foot stay where they are
	Turns  [Turns]int32
}

// New returns a figure of a size that stands on a line, its feet at x.
func New(x, ground, size int32) Pose {
	p := Pose{X: x, Ground: ground, Size: size, Heads: UsualHeads, Pinned: [2]bool{true, true}}
	p.Turns[NearUpperArm], p.Turns[FarUpperArm] = -6*Degree, 8*Degree
	p.Turns[NearForearm], p.Turns[FarForearm] = 12*Degree, 12*Degree
	return p.Standing()
}

// Check returns what is wrong with a pose that was read.
func (p Pose) Check() error {
	switch {
	case max(p.X, p.Y, p.Ground) > far || min(p.X, p.Y, p.Ground) < -far:
		return fmt.Errorf("the figure is too far from the frame")
	case p.Size < MinSize || p.Size > MaxSize:
		return fmt.Errorf("a figure of %d units: it takes %d to %d", p.Size, MinSize, MaxSize)
	case p.Heads < MinHeads || p.Heads > MaxHeads:
		return fmt.Errorf("a figure of %g heads: it takes %d to %d", float64(p.Heads)/100, MinHeads/100, MaxHeads/100)
	}
	for t, v := range p.Turns {
		if l := Limits[t]; float64(v) < l[0]*Degree || float64(v) > l[1]*Degree {
			return fmt.Errorf("a joint of the figure is bent to %g degrees: it goes from %g to %g", float64(v)/Degree, l[0], l[1])
		}
	}
	return nil
}

// Joints returns where the joints are.
func (p Pose) Joints() [Joints]Point {
	l := p.lengths()
	var out [Joints]Point
	whole := p.angle(Whole)
	torso := whole + p.angle(Spine)
	hips := Point{float64(p.X), float64(p.Y)}
	out[Hips] = hips
	out[Neck] = p.from(hips, math.Pi-torso, l.torso)
	out[Head] = p.from(out[Neck], math.Pi-torso-p.angle(Nod), l.neck)
	for side := range 2 {
		j, t, apart := Joint(side)*sideJoints, Turn(side)*sideTurns, 1.0
		if side == 0 {
			apart = -1
		}
		shoulder := p.from(out[Neck], math.Pi/2-torso, apart*l.shoulder)
		arm := p.angle(NearUpperArm+t) - torso
		elbow := p.from(shoulder, arm, l.upperArm)
		out[NearShoulder+j], out[NearElbow+j] = shoulder, elbow
		out[NearHand+j] = p.from(elbow, arm+p.angle(NearForearm+t), l.forearm)
		hip := p.from(hips, math.Pi/2-whole, apart*l.hip)
		thigh := p.angle(NearThigh+t) - whole
		knee := p.from(hip, thigh, l.thigh)
		shin := thigh - p.angle(NearShin+t)
		out[NearHip+j], out[NearKnee+j] = hip, knee
		out[NearFoot+j] = p.from(knee, shin, l.shin)
		out[NearToes+j] = p.from(out[NearFoot+j], shin+math.Pi/2+p.angle(NearSole+t), l.foot)
	}
	return out
}

// HeadRadius returns the radius of the head.
func (p Pose) HeadRadius() float64 { return p.lengths().head / 2 }

// from goes a way from a place at an angle that is 0 straight down and grows
// towards where the figure looks.
func (p Pose) from(at Point, angle, way float64) Point {
	s, c := math.Sincos(angle)
	if p.Left {
		s = -s
	}
	return Point{at.X + s*way, at.Y + c*way}
}

// towards returns the angle of the way from one place to another.
func (p Pose) towards(a, b Point) float64 {
	x := b.X - a.X
	if p.Left {
		x = -x
	}
	return math.Atan2(x, b.Y-a.Y)
}

func (p Pose) angle(t Turn) float64 { return float64(p.Turns[t]) / Degree * math.Pi / 180 }

// turn sets a turn to an angle, as near as its limits allow.
func (p *Pose) turn(t Turn, angle float64) {
	degrees := angle * 180 / math.Pi
	l := Limits[t]
	// The same direction may be written in several ways: the one within reach.
	middle := (l[0] + l[1]) / 2
	degrees -= 360 * math.Round((degrees-middle)/360)
	p.Turns[t] = int32(math.Round(min(max(degrees, l[0]), l[1]) * Degree))
}
