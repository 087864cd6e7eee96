// Package plan plans the shoot of a film: how many photographs each shot takes,
// how long that is, in which sessions it is done, and a call sheet for each.
package plan

import (
	"fmt"
	"strings"

	"stillbeat/board"
	"stillbeat/board/sheet"
)

// Plan is the plan of a shoot. Times are minutes.
type Plan struct {
	Figures  board.Planning
	Pace     Pace
	Shots    []Shot    // in the order of the film
	Scenes   []Scene   // in the order of the film
	Sessions []Session // in the order they are to be shot
	Again    []int     // places in Shots of those with nothing new to take

	OnSheet int64   // exposures of the film as the sheet counts them
	Take    int64   // photographs that are new, clean plates not counted
	Plates  int64   // clean plates
	Minutes float64 // on the set, contingency included: of all shots
	Desk    float64 // for painting out rigs
	Storage Storage
}

// Scene sums up the shots of a scene.
type Scene struct {
	Name    string
	Shots   int
	OnSheet int64
	Take    int64
	Minutes float64
}

// Shot is a shot to be taken. Times are minutes with contingency.
type Shot struct {
	Shot    int // place in board.Shots
	Name    string
	Heading string
	Scene   int // place in board.Scenes
	Panels  []Panel
	Objects []string // that move, as they are named; one without a name is ""

	OnSheet int64
	Take    int64
	Rigged  int64 // photographs with a rig in view
	Plate   bool  // a clean plate is shot: a panel asks for it or has a rig in view
	Frames  board.Frame
	Risks   []Risk

	SetUp   float64 // the clean plate included
	Minutes float64 // all of it
}

// Begins returns in which session each shot begins, from 0, by its place in
// Shots; one that is in none is missing.
func (p Plan) Begins() map[int]int { return begins(p.Sessions) }

// Make plans the shoot of a film by its figures. The same film has the same
// plan.
func Make(b board.Board) (Plan, error) {
	figures := b.Planning()
	p := Plan{Figures: figures, Pace: PaceOf(figures)}
	each := p.Pace.Minutes * (1 + figures.Contingency)
	if each > figures.Session {
		return Plan{}, fmt.Errorf("an exposure takes %.4g minutes with contingency, and a session has %.4g", each, figures.Session)
	}
	p.Shots = shotsOf(b, p.Pace)
	numbers, scenes := b.AllNumbers(), b.Scenes()
	for i := range max(0, len(scenes)-1) {
		p.Scenes = append(p.Scenes, Scene{Name: numbers[scenes[i]].Scene})
	}
	for i, s := range p.Shots {
		scene := &p.Scenes[s.Scene]
		scene.Shots++
		scene.OnSheet += s.OnSheet
		scene.Take += s.Take
		scene.Minutes += s.Minutes
		p.OnSheet += s.OnSheet
		p.Take += s.Take
		p.Minutes += s.Minutes
		p.Desk += float64(s.Rigged) * figures.Retouch
		if s.Plate {
			p.Plates++
		}
		if s.Take == 0 {
			p.Again = append(p.Again, i)
		}
	}
	p.Storage = storageOf(p.Take+p.Plates, figures)
	var err error
	p.Sessions, err = sessions(p.Shots, figures, each)
	return p, err
}

// shotsOf counts what each shot takes.
func shotsOf(b board.Board, pace Pace) []Shot {
	c, figures := newCounter(b), b.Planning()
	from, scenes, names := b.Shots(), b.Scenes(), sheet.ShotNames(b)
	var out []Shot
	scene := 0
	for k, name := range names {
		for scenes[scene+1] <= from[k] {
			scene++
		}
		s := Shot{Shot: k, Name: name, Heading: strings.Join(strings.Fields(b.Panels[from[k]].Heading), " "),
			Scene: scene, Frames: c.starts[from[k+1]] - c.starts[from[k]]}
		var effect bool
		for i := from[k]; i < from[k+1]; i++ {
			p := c.panel(i)
			s.Panels = append(s.Panels, p)
			s.OnSheet += p.OnSheet
			s.Take += p.Take
			for _, o := range c.objects[i] {
				s.Objects = appendNew(s.Objects, o)
			}
			if p.Take == 0 {
				continue
			}
			marks := b.Panels[i].Marks
			effect = effect || marks.Effect
			s.Plate = s.Plate || marks.Plate || marks.Rig
			if marks.Rig {
				s.Rigged += p.Take
			}
		}
		if s.Take > 0 {
			s.SetUp = figures.SetUp
			if s.Plate {
				s.SetUp += figures.Plate
			}
			s.SetUp *= 1 + figures.Contingency
			shooting := float64(s.Take) * pace.Minutes * (1 + figures.Contingency)
			s.Minutes = s.SetUp + shooting
			s.Risks = risksOf(s, effect, shooting, b.Rate.Seconds(s.Frames), figures.Session)
		}
		out = append(out, s)
	}
	return out
}
