package board

import (
	"math"
	"testing"
)

func TestAFilmWithoutFiguresHasTheUsual(t *testing.T) {
	if p := New().Planning(); p.Session != 180 || p.Pace != 0 || len(p.Log) != 0 {
		t.Errorf("it has %+v", p)
	}
	if err := UsualPlanning.check(); err != nil {
		t.Error(err)
	}
}

func TestSetPlan(t *testing.T) {
	p := UsualPlanning
	p.SetUp, p.Contingency = 0, 0 // none is a figure too
	p.Log = []Logged{{"1A", 12, 30}}
	b := do(t, atFrames(0, 24), SetPlan(p))
	p.Log[0].Exposures = 99 // the board has its own
	if got := b.Planning(); got.SetUp != 0 || got.Contingency != 0 || got.Log[0].Exposures != 12 {
		t.Errorf("it has %+v", got)
	}
	b = do(t, b, Log(Logged{Exposures: 4, Minutes: 9.5}))
	if l := b.Planning().Log; len(l) != 2 || l[1].Minutes != 9.5 {
		t.Errorf("the log is %+v", l)
	}
	b = do(t, do(t, b, RemoveLog(0)), RemoveLog(0))
	if l := b.Planning().Log; l != nil {
		t.Errorf("the log is %+v, want none, as it is read from files", l)
	}
	refused(t, b, RemoveLog(0), "there is no such entry")
}

func TestWrongPlans(t *testing.T) {
	b := atFrames(0, 24)
	for _, c := range []struct {
		name   string
		change func(*Planning)
		want   string
	}{
		{"a pace below none", func(p *Planning) { p.Pace = -1 }, "a pace of -1 minutes for an exposure: a plan takes 0 to 600"},
		{"no number", func(p *Planning) { p.SetUp = math.NaN() }, "a set-up of NaN minutes"},
		{"without end", func(p *Planning) { p.Retouch = math.Inf(1) }, "+Inf minutes of retouching"},
		{"a plate of two days", func(p *Planning) { p.Plate = 2880 }, "2880 minutes for a clean plate"},
		{"a contingency beyond all", func(p *Planning) { p.Contingency = 5.5 }, "a contingency of 5.5"},
		{"a session of no time", func(p *Planning) { p.Session = 0 }, "a session of 0 minutes: a plan takes 10 to 1440"},
		{"retakes", func(p *Planning) { p.Retakes = 11 }, "retakes of 11"},
		{"megabytes", func(p *Planning) { p.Megabytes = -0.5 }, "-0.5 megabytes"},
		{"no copy", func(p *Planning) { p.Copies = 0 }, "0 copies"},
		{"a charge", func(p *Planning) { p.Charge = -1 }, "-1 photographs on a charge"},
		{"a log without end", func(p *Planning) { p.Log = make([]Logged, MaxLogged+1) }, "5001 entries in the log"},
		{"a shot of no text", func(p *Planning) { p.Log = []Logged{{"a\xff", 1, 1}} }, "the shot of log entry 1"},
		{"nothing exposed", func(p *Planning) { p.Log = []Logged{{"1", 1, 1}, {"1", 0, 1}} }, "log entry 2 has 0 exposures"},
		{"in no time", func(p *Planning) { p.Log = []Logged{{"1", 1, 0}} }, "log entry 1 has 0 minutes"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := UsualPlanning
			c.change(&p)
			refused(t, b, SetPlan(p), c.want)
		})
	}
}

func TestStill(t *testing.T) {
	b := do(t, atFrames(0, 24, 48, 72), SetStill([]int{0, 1}, true))
	if !b.Panels[0].Still || !b.Panels[1].Still || b.Panels[2].Still {
		t.Fatalf("panels %+v", b.Panels)
	}
	if j := do(t, b, Join(upTo(0, 2))); !j.Panels[0].Still {
		t.Error("two still panels joined are not still")
	}
	if j := do(t, b, Join(upTo(1, 3))); j.Panels[1].Still {
		t.Error("a still panel joined with another is still")
	}
	if s := do(t, b, Split(0, 12)); !s.Panels[0].Still || !s.Panels[1].Still {
		t.Error("a still panel split in two is not still")
	}
	if b = do(t, b, SetStill(one(0), false)); b.Panels[0].Still {
		t.Error("it stays still")
	}
}
