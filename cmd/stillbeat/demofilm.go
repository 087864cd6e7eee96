package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"runtime"
	"slices"
	"sync"

	"stillbeat/assets/demo"
	"stillbeat/audio/clip"
	"stillbeat/audio/wav"
	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/motion"
)

// story is what the demo film is made of.
type story struct {
	panels []demo.Panel
	beats  []float64 // seconds of the tune
	draw   func(panel int) *image.RGBA
	tune   func() (samples [][]float32, rate int)
}

func lastLump() story {
	return story{demo.Panels(), demo.Beats(), demo.Picture, demo.Tune}
}

// withDemo makes the demo film at path; before it is put there, also may work
// with it.
func (a *app) withDemo(ctx context.Context, path string, also func(*desk.Desk) error) error {
	pictures, err := a.drawDemo(ctx)
	if err != nil {
		return err
	}
	song, err := a.hearDemo(ctx)
	if err != nil {
		return err
	}
	return withNewFilm(path, func(d *desk.Desk) error {
		if err := d.LaySong(song); err != nil {
			return err
		}
		if err := d.AddPictures(0, pictures, 1); err != nil {
			return err
		}
		if err := d.Do(a.story.tell()); err != nil {
			return err
		}
		if err := a.story.count(d); err != nil {
			return err
		}
		if err := a.story.throw(d); err != nil {
			return err
		}
		if also != nil {
			return also(d)
		}
		return ctx.Err()
	})
}

// drawDemo draws the demo's pictures as PNG files, several at a time.
func (a *app) drawDemo(ctx context.Context) ([]desk.ReadPicture, error) {
	m := a.meter()
	defer m.close()
	told := m.stage("drawing the pictures")
	panels := a.story.panels
	pictures := make([]desk.ReadPicture, len(panels))
	errs := make([]error, len(panels))
	var (
		all  sync.WaitGroup
		mu   sync.Mutex
		done int
	)
	turn := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, p := range panels {
		all.Go(func() {
			turn <- struct{}{}
			defer func() {
				if r := recover(); r != nil {
					errs[i] = fmt.Errorf("draw picture %d: %v", i+1, r)
				}
				<-turn
			}()
			if errs[i] = ctx.Err(); errs[i] != nil {
				return
			}
			var out bytes.Buffer
			errs[i] = png.Encode(&out, a.story.draw(i))
			pictures[i] = desk.ReadPicture{Name: p.Title + ".png", Data: out.Bytes()}
			mu.Lock()
			defer mu.Unlock()
			if done++; told != nil {
				told(float64(done) / float64(len(panels)))
			}
		})
	}
	all.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return pictures, nil
}

// hearDemo plays the demo's tune into a WAV file and listens to it as to any
// song.
func (a *app) hearDemo(ctx context.Context) (*desk.ReadSong, error) {
	m := a.meter()
	defer m.close()
	told := m.stage("listening to the tune")
	samples, rate := a.story.tune()
	var file bytes.Buffer
	if err := wav.Encode(&file, &clip.Clip{Rate: rate, Samples: samples, Title: demo.Title}); err != nil {
		return nil, err
	}
	song := &desk.ReadSong{Name: demoName + ".wav", Data: file.Bytes()}
	var err error
	song.Heard, err = a.ear.Hear(ctx, desk.SongFile{Name: song.Name, Data: song.Data}, desk.Wish{Beats: true}, told)
	return song, err
}

// count says by hand where the bars start, as a user would, if they were heard
// to start on another beat.
func (s story) count(d *desk.Desk) error {
	g := d.Board().Grid
	first := g.Near(s.beats[0], 1).Beat
	if first < 0 || first >= len(g.Beats) || g.Beats[first].Bar {
		return nil
	}
	return d.Do(board.SetBars(first, demo.BeatsPerBar))
}

// tell titles the film, writes the words on its panels and starts each panel
// on the beat of the board nearest to its beat in the story.
func (s story) tell() board.Edit {
	return board.Edit{Name: "tell the story", Apply: func(b board.Board) (board.Board, error) {
		if !b.OnGrid() || len(s.panels) != len(b.Panels) {
			return b, fmt.Errorf("%d panels do not fit %d pictures on %d beats", len(s.panels), len(b.Panels), len(b.Grid.Beats))
		}
		tune := board.NewGrid(s.beats, nil)
		on := func(beat int) board.Start {
			start := board.Start{Anchor: b.Grid.Near(tune.Time(beat, 0, 1), 1)}
			start.Time = b.Seconds(start)
			return start
		}
		b.Title, b.Step = demo.Title, 2
		b.Panels = slices.Clone(b.Panels)
		for i, p := range s.panels {
			to := &b.Panels[i]
			to.Words = board.Words{Title: p.Title, Action: p.Action, Sound: p.Sound, Size: p.Shot, Marks: board.Marks{Rig: p.Rig, Plate: p.Rig}}
			to.Heading, to.Still = p.Scene, p.Still
			if i > 0 {
				to.Start, to.Opens = on(p.Start), opens(p)
			}
			if p.Melt {
				to.Into = board.Transition{Kind: board.Dissolve, Frames: board.Dissolve.UsualFrames()}
			}
			b.End = on(p.Start + p.Beats)
		}
		return b, b.Check()
	}}
}

// opens says what a panel of the story opens.
func opens(p demo.Panel) board.Opening {
	switch {
	case p.Scene != "":
		return board.OpensScene
	case p.Same:
		return board.GoesOn
	}
	return board.OpensShot
}

// throw has the objects of the story thrown along their ways: off as their
// panel begins.
func (s story) throw(d *desk.Desk) error {
	for i, p := range s.panels {
		if p.Way == nil {
			continue
		}
		b := d.Board()
		spot := func(s demo.Spot) board.Spot { return board.Spot{X: s.X, Height: s.Height} }
		point := func(s demo.Spot) board.Point { return board.Point{X: s.SeenX, Y: s.SeenY} }
		from, to := p.Way.From, p.Way.To
		sight, err := motion.SightThrough(spot(from), spot(to), point(from), point(to), false)
		if err != nil {
			return err
		}
		if err := d.Do(board.AddObjectMove(board.ObjectMove{
			Object: p.Way.Object, First: b.Panels[i].ID, Last: b.Panels[i].ID, Manner: board.Jumping,
			Keys: []board.Spot{spot(from), spot(to)}, Rise: p.Way.Rise, Scale: p.Way.Scale, Sight: sight,
			Hits: []board.Hit{{Moment: 0, Start: b.Panels[i].Start}},
		})); err != nil {
			return err
		}
	}
	return nil
}
