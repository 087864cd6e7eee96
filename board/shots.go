package board

import (
	"fmt"
	"slices"
)

// Opening says what begins at a panel.
type Opening string

// What begins: nothing, a shot, or a scene and with it a shot. The first panel
// of the film opens a scene in any case. A new shot begins where the camera is
// set up anew; a move of the camera does not make one.
const (
	GoesOn     Opening = ""
	OpensShot  Opening = "shot"
	OpensScene Opening = "scene"
)

func (o Opening) check() error {
	switch o {
	case GoesOn, OpensShot, OpensScene:
		return nil
	}
	return fmt.Errorf("%.40q is neither a shot nor a scene", string(o))
}

// Opening returns what begins at panel i.
func (b Board) Opening(i int) Opening {
	if i == 0 {
		return OpensScene
	}
	return b.Panels[i].Opens
}

// Shots returns the first panel of each shot and, last, the number of panels.
// A board without panels has none.
func (b Board) Shots() []int { return b.openings(func(o Opening) bool { return o != GoesOn }) }

// Scenes returns the first panel of each scene and, last, the number of
// panels.
func (b Board) Scenes() []int { return b.openings(func(o Opening) bool { return o == OpensScene }) }

func (b Board) openings(begins func(Opening) bool) []int {
	if len(b.Panels) == 0 {
		return nil
	}
	var out []int
	for i := range b.Panels {
		if begins(b.Opening(i)) {
			out = append(out, i)
		}
	}
	return append(out, len(b.Panels))
}

// Open lets a shot or a scene begin at each of the chosen panels, or the shot
// before go on there.
func Open(set []int, o Opening) Edit {
	name := map[Opening]string{GoesOn: "one shot up to", OpensShot: "new shot at", OpensScene: "new scene at"}[o]
	return onSeveral(named(name, set), set, func(b Board, chosen []int) (Board, error) {
		out := b
		out.Panels = slices.Clone(b.Panels)
		for _, i := range chosen {
			p := &out.Panels[i]
			p.Opens = o
			if o == GoesOn && i > 0 {
				p.Heading, p.Fixed.Scene, p.Fixed.Shot = "", "", ""
			}
		}
		return out.checked(b)
	})
}

// SetHeading names the shot or scene that begins at panel i.
func SetHeading(i int, heading string) Edit {
	return merging(onPanels("heading", []int{i}, func(p *Panel) { p.Heading = heading }))
}

// opening is what a panel opens, to be handed on.
type opening struct {
	opens       Opening
	heading     string
	scene, shot string
}

func (p *Panel) takeOpening() opening {
	o := opening{p.Opens, p.Heading, p.Fixed.Scene, p.Fixed.Shot}
	p.Opens, p.Heading, p.Fixed.Scene, p.Fixed.Shot = GoesOn, "", "", ""
	return o
}

func (p *Panel) setOpening(o opening) {
	p.Opens, p.Heading, p.Fixed.Scene, p.Fixed.Shot = o.opens, o.heading, o.scene, o.shot
}

// parted splits panels and holds into those chosen and the others. A shot or a
// scene of which all panels are chosen goes with what it opens; one of which
// some stay begins with the first of those.
func (b Board) parted(chosen []int) (in, out []Panel, inHolds, outHolds []Frame) {
	panels, holds := slices.Clone(b.Panels), b.Holds()
	isIn := func(i int) bool { _, found := slices.BinarySearch(chosen, i); return found }
	staying := func(from, to int) int { // the first panel that stays, to if none does
		for from < to && isIn(from) {
			from++
		}
		return from
	}
	if len(panels) > 0 {
		panels[0].Opens = OpensScene
	}
	for shots := b.Shots(); len(shots) > 1; shots = shots[1:] {
		if first := staying(shots[0], shots[1]); first > shots[0] && first < shots[1] {
			panels[first].setOpening(panels[shots[0]].takeOpening())
		}
	}
	for scenes := b.Scenes(); len(scenes) > 1; scenes = scenes[1:] {
		gone := &panels[scenes[0]]
		first := staying(scenes[0], scenes[1])
		if first == scenes[0] || first == scenes[1] || gone.Opens == GoesOn {
			continue
		}
		panels[first].Opens, panels[first].Fixed.Scene = OpensScene, gone.Fixed.Scene
		if gone.Heading != "" {
			panels[first].Heading = gone.Heading
		}
		gone.Opens, gone.Heading, gone.Fixed.Scene = OpensShot, "", ""
	}
	for i, p := range panels {
		if isIn(i) {
			in, inHolds = append(in, p), append(inHolds, holds[i])
		} else {
			out, outHolds = append(out, p), append(outHolds, holds[i])
		}
	}
	return in, out, inHolds, outHolds
}

// meet settles what opens where panels were put before rest[at], which it may
// change: whole shots do not swallow the panels they were put before, and
// others join the shot they were put into.
func meet(put, rest []Panel, at int) {
	if len(put) == 0 || at == len(rest) {
		return
	}
	next := &rest[at]
	switch {
	case at == 0 && put[0].Opens == GoesOn:
		put[0].setOpening(next.takeOpening())
	case at == 0 && put[0].Opens == OpensShot: // it is in the first scene
		scene := next.takeOpening()
		next.Opens, next.Fixed.Shot = OpensShot, scene.shot
		put[0].Opens, put[0].Fixed.Scene = OpensScene, scene.scene
		if put[0].Heading == "" {
			put[0].Heading = scene.heading
		}
	case put[0].Opens != GoesOn && next.Opens == GoesOn:
		next.Opens = OpensShot
	}
}
