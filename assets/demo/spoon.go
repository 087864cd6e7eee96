package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// spoon lies along its x axis with the bowl at -x; its origin is the middle of
// its underside.
type spoon struct {
	pose pose
	dip  float64 // how much of it, from the bowl on, is under the tea and not drawn, cm
}

// spoonHalf is half a spoon's length, cm.
const spoonHalf = 11.0

// spoonWidth is the half width at u, spoonRise the height of the middle.
func spoonWidth(u float64) float64 {
	bowl := 0.0
	if t := (u + 7.4) / 3.6; math.Abs(t) < 1 {
		bowl = 2.3 * math.Sqrt(1-t*t) * (1 - 0.12*t)
	}
	return max(bowl, 0.42+0.05*max(u+3, 0)*min(1, max(0, (spoonHalf-u)*1.4)))
}

func spoonRise(u float64) float64 {
	if u < -4 {
		return 0.55 + 0.28*math.Cos((u+7.4)*math.Pi/3.6*0.9+math.Pi)
	}
	return 0.76 + 0.55*math.Exp(-(u+1.3)*(u+1.3)/3)
}

// bowl is where something lying in the bowl rests.
func (sp spoon) bowl() vec { return sp.pose.Apply(vec{X: -7.4, Y: 0.45}) }

func (sp spoon) loft() stage.Loft {
	var out stage.Loft
	for u := -spoonHalf + sp.dip; u <= spoonHalf+0.01; u += 0.25 {
		w, y := max(spoonWidth(u), 0.05), spoonRise(u)
		ring := make([]vec, 12)
		for i := range ring {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
			ring[i] = sp.pose.Apply(vec{X: u, Y: y + 0.22*sin, Z: w * cos})
		}
		out = append(out, ring)
	}
	return out
}

func (sp spoon) addTo(s *set) {
	s.Add(sp.pose.Apply(vec{X: -2}), []stage.Loft{sp.loft()}, func() { sp.draw(s) })
}

func (sp spoon) draw(s *set) {
	whole := s.Solid(steel, 2.4, sp.loft())
	hollow := make([]vec, 40)
	for i := range hollow {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40)
		u := -7.4 + 3*cos
		hollow[i] = sp.pose.Apply(vec{X: u, Y: spoonRise(u) + 0.2, Z: 1.75 * sin})
	}
	if sp.dip > 0 || s.Facing(sp.bowl(), sp.pose.Y) < 0.05 {
		return
	}
	mask := s.Mask(hollow)
	s.Canvas.Paint(mask, steelDark, 0.75)
	s.Canvas.Paint(ink.Within(s.Mask(shifted(hollow, vec{X: -0.5, Z: 0.5})), mask), steel, 0.7)
	s.Outline(mask, 1.3)
	s.Clipped(whole, func() {
		shine := make([]vec, 20)
		for i := range shine {
			u := -1 + 0.5*float64(i)
			shine[i] = sp.pose.Apply(vec{X: u, Y: spoonRise(u) + 0.2, Z: -0.1})
		}
		s.Line(shine, ink.Pen{Width: 1.8, Taper: 30, Colour: frameWhite})
	})
}
