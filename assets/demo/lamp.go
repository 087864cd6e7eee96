package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// lamp is a jointed desk lamp. Its arm moves in the plane of its x axis.
type lamp struct {
	pose                  pose
	shoulder, elbow, head float64 // degrees from upright, to the right; the head 0 shines straight down
	lit                   bool
}

const (
	lowerArm = 22.0
	upperArm = 21.0
)

// standing is the lamp as it is through most of the film.
func standing(p pose) lamp { return lamp{pose: p, shoulder: 12, elbow: -70, head: 0} }

func (l lamp) joints() (foot, elbow, head vec) {
	foot = vec{Y: 3.4}
	s, c := math.Sincos(l.shoulder * math.Pi / 180)
	elbow = foot.Add(vec{X: lowerArm * s, Y: lowerArm * c})
	s, c = math.Sincos(l.elbow * math.Pi / 180)
	return foot, elbow, elbow.Add(vec{X: upperArm * s, Y: upperArm * c})
}

// headPose has its origin at the joint and looks down its -y axis.
func (l lamp) headPose() pose {
	_, _, head := l.joints()
	p := l.pose
	p.O = l.pose.Apply(head)
	return p.Lean(l.head, vec{})
}

// crown is the flat top of the shade, where things may land.
func (l lamp) crown() pose {
	p := l.headPose()
	p.O = p.Apply(vec{Y: 1.6})
	return p
}

func (l lamp) addTo(s *set) {
	foot, elbow, head := l.joints()
	base := stage.Turned(l.pose, [2]float64{7, 0}, [2]float64{7, 0}, [2]float64{7, 0.9}, [2]float64{6.4, 1.5}, [2]float64{2.4, 2.1}, [2]float64{1.5, 2.8}, [2]float64{1.3, 3.6})
	cone := stage.Turned(l.headPose(), [2]float64{7.8, -9}, [2]float64{7.8, -9}, [2]float64{7, -7}, [2]float64{3.9, -2.6}, [2]float64{2.6, -1})
	crown := stage.Turned(l.headPose(), [2]float64{2.7, -1.2}, [2]float64{2.7, -1.2}, [2]float64{2.7, 1.2}, [2]float64{2.4, 1.6}, [2]float64{2.4, 1.6}, [2]float64{0, 1.6})
	arm := func(a, b vec) stage.Loft { return stage.Tube(l.pose.Path(span(a, b)), 0.55) }
	knuckle := func(v vec) stage.Loft {
		return stage.Tube([]vec{l.pose.Apply(v.Add(vec{Z: -0.8})), l.pose.Apply(v.Add(vec{Z: 0.8}))}, 1.15)
	}
	s.Add(l.pose.O, []stage.Loft{base.Loft(), arm(foot, elbow)}, func() {
		s.Solid(olive, 3, base.Loft())
		s.Solid(steel, 2.4, arm(foot, elbow))
		s.Solid(olive, 2.4, knuckle(foot))
	})
	s.Add(l.headPose().O, []stage.Loft{arm(elbow, head), cone.Loft(), crown.Loft()}, func() {
		s.Solid(steel, 2.4, arm(elbow, head))
		s.Solid(olive, 2.4, knuckle(elbow))
		s.drawShade(l, cone, crown)
	})
}

// drawShade draws the lamp's shade: the part turned away first.
func (s *set) drawShade(l lamp, cone, crown stage.Lathe) {
	up := l.headPose().Y
	drawCrown := func() {
		s.Solid(olive, 2.8, crown.Loft())
		if s.Facing(crown.Top(), up) > 0.04 {
			s.Line(loop(crown.Disc(2.3, 1.6)), ink.Pen{Width: 1.6})
		}
	}
	drawCone := func() {
		s.Painted(olive, 3.2, func() { s.drawBand(cone, lighter(olive, 0.35), -7.9, -7.2) }, cone.Loft())
		if s.Facing(cone.Pose().Apply(vec{Y: -9}), up.Scale(-1)) > 0.02 {
			inside := darker(olive, 0.45)
			if l.lit {
				inside = bulbWarm
			}
			s.edged(cone.Disc(7.6, -9), inside, 2.4)
		}
	}
	if s.Facing(crown.Top(), up) > 0 {
		drawCone()
		drawCrown()
		return
	}
	drawCrown()
	drawCone()
}
