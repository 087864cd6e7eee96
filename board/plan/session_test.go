package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// 90 s on twos, 24 exposures an hour, 20 shots of 45 min, 20 %: 72 h, 24
// evenings of 3 h; 1296 photographs of 30 MB: 38.88 GB, two copies 77.76 GB
// (trade 6).
func TestTheShootOfNinetySeconds(t *testing.T) {
	p := planOf(t, shotsFilm(t, 2, 20, 108))
	if p.Take != 1080 || math.Abs(p.Minutes-72*60) > 1e-6 || len(p.Sessions) != 24 {
		t.Errorf("%d exposures, %g minutes, %d sessions; want 1080, 4320, 24", p.Take, p.Minutes, len(p.Sessions))
	}
	if s := p.Storage; s.Photographs != 1296 || Gigabytes(s.Megabytes) != "38.88 GB" || Gigabytes(s.Copies) != "77.76 GB" {
		t.Errorf("storage %+v, want 1296 photographs, 38.88 GB, 77.76 GB", s)
	}
	if got := len(p.Findings(shotsFilm(t, 2, 20, 108))); got != 20 {
		t.Errorf("%d shots are told to be longer than a session, want 20", got)
	}
}

func TestStorageAndBatteries(t *testing.T) {
	for _, c := range []struct {
		name             string
		n                int64
		retakes          float64
		charge           int
		photographs      int64
		charges, changes int64
	}{
		{"none", 0, 0.2, 300, 0, 0, 0},
		{"one charge to the last photograph", 250, 0.2, 300, 300, 1, 0},
		{"one photograph more", 251, 0.2, 300, 302, 2, 1},
		{"no retakes", 1080, 0, 300, 1080, 4, 3},
		{"from the mains", 1080, 0.2, 0, 1296, 0, 0},
	} {
		f := board.UsualPlanning
		f.Retakes, f.Charge = c.retakes, c.charge
		s := storageOf(c.n, f)
		if s.Photographs != c.photographs || s.Charges != c.charges || s.Changes() != c.changes {
			t.Errorf("%s: %+v and %d changes, want %d photographs, %d charges, %d changes", c.name, s, s.Changes(), c.photographs, c.charges, c.changes)
		}
	}
}

// laid says which shots are in each session: "2 3 | 1 | 4(1/2) | 4(2/2)".
func laid(p Plan) string {
	var out []string
	for _, s := range p.Sessions {
		var pieces []string
		for _, piece := range s.Pieces {
			name := p.Shots[piece.Shot].Name
			if piece.Parts > 1 {
				name += fmt.Sprintf("(%d/%d)", piece.Part, piece.Parts)
			}
			pieces = append(pieces, name)
		}
		out = append(out, strings.Join(pieces, " "))
	}
	return strings.Join(out, " | ")
}

// Sessions of 100 minutes, a minute an exposure, set-ups of 10; nothing for what
// goes wrong.
func TestSessions(t *testing.T) {
	rig, effect := board.Words{Marks: board.Marks{Rig: true}}, board.Words{Marks: board.Marks{Effect: true}}
	shot, scene := board.OpensShot, board.OpensScene
	for _, c := range []struct {
		name   string
		panels []board.Panel
		holds  []board.Frame // minutes of shooting
		want   string
	}{
		{"what fits is one session", []board.Panel{{}, {Opens: shot}}, []board.Frame{40, 40}, "1 2"},
		{"a minute more is two", []board.Panel{{}, {Opens: shot}}, []board.Frame{40, 41}, "1 | 2"},
		{"risky ones come first", []board.Panel{{}, {Opens: shot, Words: effect}, {Opens: shot, Words: rig}}, []board.Frame{40, 40, 40}, "2 3 | 1"},
		{"more risks come before fewer", []board.Panel{{Words: effect}, {Opens: shot, Words: rig}}, []board.Frame{40, 60}, "2 | 1"},
		{"a small one fills the room that is left", []board.Panel{{}, {Opens: shot}, {Opens: shot}}, []board.Frame{45, 45, 20}, "1 3 | 2"},
		{"a scene goes on where that costs nothing", []board.Panel{{}, {Opens: scene}, {Opens: shot}, {Opens: scene, Fixed: board.Numbers{}}},
			[]board.Frame{40, 40, 40, 40}, "1-1 2-2 | 2-3 3-4"},
		{"the risky scene stays together", []board.Panel{{}, {Opens: scene, Words: effect}, {Opens: shot}}, []board.Frame{40, 40, 40}, "2-2 2-3 | 1-1"},
		{"but not if something risky would wait", []board.Panel{{Words: rig}, {Opens: shot}, {Opens: scene, Words: effect}}, []board.Frame{40, 40, 40}, "1-1 2-3 | 1-2"},
		{"a long one is cut and told", []board.Panel{{}, {Opens: shot}}, []board.Frame{120, 40}, "1(1/2) | 1(2/2) 2"},
		{"a long one begins in what is left if that makes no more pieces", []board.Panel{{Words: board.Words{Marks: board.Marks{Rig: true, Effect: true}}}, {Opens: shot}},
			[]board.Frame{45, 120}, "1 2(1/2) | 2(2/2)"},
		{"and else begins a session", []board.Panel{{Words: board.Words{Marks: board.Marks{Rig: true, Effect: true}}}, {Opens: shot}},
			[]board.Frame{45, 185}, "1 | 2(1/2) | 2(2/2)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := board.UsualPlanning
			f.Session, f.SetUp, f.Plate, f.Pace, f.Contingency = 100, 10, 0, 1, 0
			b := film(t, 1, c.panels, c.holds...)
			if got := laid(planOf(t, do(t, b, board.SetPlan(f)))); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

// randomFilm returns a film of up to 40 shots with marks and scenes, and figures
// at random.
func randomFilm(t testing.TB, r *rand.Rand) board.Board {
	n := 1 + r.IntN(40)
	panels, holds := make([]board.Panel, n), make([]board.Frame, n)
	for i := range panels {
		p := &panels[i]
		p.Opens = []board.Opening{board.GoesOn, board.OpensShot, board.OpensShot, board.OpensScene}[r.IntN(4)]
		p.Rig, p.Effect, p.Plate, p.Still = r.IntN(5) == 0, r.IntN(6) == 0, r.IntN(7) == 0, r.IntN(4) == 0
		p.Picture = board.MediaID([]string{"", "aa", "bb", "cc", "dd", "ee"}[r.IntN(6)])
		holds[i] = board.Frame(1 + r.IntN([]int{12, 48, 400}[r.IntN(3)]))
	}
	f := board.UsualPlanning
	f.Pace, f.SetUp, f.Plate = 0.1+6*r.Float64(), float64(r.IntN(60)), float64(r.IntN(10))
	f.Contingency, f.Session, f.Every = r.Float64()/2, 10+float64(r.IntN(400)), r.IntN(4) == 0
	return do(t, film(t, 1+r.IntN(3), panels, holds...), board.SetPlan(f))
}

// Each shot is done once and whole unless it is longer than a session, none
// passes the end of one, parts follow each other, and sums are sums.
func TestPlansKeepTheRules(t *testing.T) {
	for seed := range uint64(2000) {
		b := randomFilm(t, rand.New(rand.NewPCG(seed, 7)))
		p := planOf(t, b)
		keepsRules(t, b, p)
		if again := planOf(t, b); !reflect.DeepEqual(p, again) {
			t.Fatalf("seed %d: two plans of one film differ", seed)
		}
		if t.Failed() {
			t.Fatalf("seed %d: %s", seed, laid(p))
		}
	}
}

func keepsRules(t *testing.T, b board.Board, p Plan) {
	t.Helper()
	session := p.Figures.Session
	taken, parts, last := map[int]int64{}, map[int]int{}, map[int]int{}
	var minutes float64
	for n, s := range p.Sessions {
		var sum float64
		if len(s.Pieces) == 0 {
			t.Errorf("session %d is empty", n+1)
		}
		for _, piece := range s.Pieces {
			if parts[piece.Shot]++; piece.Part != parts[piece.Shot] || piece.First != taken[piece.Shot]+1 {
				t.Errorf("part %d of shot %d from %d comes after %d parts with %d", piece.Part, piece.Shot, piece.First, parts[piece.Shot]-1, taken[piece.Shot])
			}
			if piece.Part > 1 && last[piece.Shot] != n-1 {
				t.Errorf("shot %d is parted by a session of others", piece.Shot)
			}
			if piece.Minutes <= 0 || piece.SetUp < 0 || piece.Take < 0 {
				t.Errorf("piece %+v", piece)
			}
			taken[piece.Shot] += piece.Take
			last[piece.Shot] = n
			sum += piece.Minutes
		}
		if math.Abs(sum-s.Minutes) > 1e-6 || sum > session+1e-6 {
			t.Errorf("session %d lasts %g of %g, its pieces %g", n+1, s.Minutes, session, sum)
		}
		minutes += sum
	}
	long := 0
	for i, s := range p.Shots {
		tooLong := s.Minutes > session+1e-6
		if taken[i] != s.Take || s.Take > 0 && tooLong != (parts[i] > 1) || s.Take == 0 && s.Minutes != 0 {
			t.Errorf("shot %d of %g minutes takes %d in %d parts with %d", i, s.Minutes, s.Take, parts[i], taken[i])
		}
		if tooLong {
			long++
		}
	}
	for _, f := range p.Findings(b) {
		if f.Kind == TooLong {
			long--
		}
	}
	if long != 0 {
		t.Errorf("%d shots longer than a session are not told", long)
	}
	if math.Abs(minutes-p.Minutes) > 1e-3 || p.OnSheet != b.Exposures() {
		t.Errorf("sessions of %g minutes for %g; %d exposures for %d", minutes, p.Minutes, p.OnSheet, b.Exposures())
	}
}

// No shot with fewer risks begins in a session in which a waiting one with more
// would have fitted.
func TestRiskyShotsDoNotWaitForOthers(t *testing.T) {
	for seed := range uint64(500) {
		p := planOf(t, randomFilm(t, rand.New(rand.NewPCG(seed, 9))))
		plain := lay(p.Shots, p.Figures.Session, p.Pace.Minutes*(1+p.Figures.Contingency), false)
		if len(p.Sessions) > len(plain) || !noLater(p.Shots, p.Sessions, plain) {
			t.Fatalf("seed %d: keeping scenes together costs something: %s", seed, laid(p))
		}
		begun := map[int]bool{}
		for n, s := range plain {
			room := p.Figures.Session
			for _, piece := range s.Pieces {
				if piece.Part == 1 {
					for i, other := range p.Shots {
						if !begun[i] && other.Take > 0 && len(other.Risks) > len(p.Shots[piece.Shot].Risks) && other.Minutes <= room {
							t.Fatalf("seed %d, session %d: shot %d begins while shot %d waits", seed, n+1, piece.Shot, i)
						}
					}
				}
				begun[piece.Shot] = true
				room -= piece.Minutes
			}
		}
	}
}

func TestPlansThatCannotBe(t *testing.T) {
	slow, endless := board.UsualPlanning, board.UsualPlanning
	slow.Pace, slow.Session = 100, 110
	endless.Pace, endless.Session = 9, 12
	for _, c := range []struct {
		b    board.Board
		want string
	}{
		{do(t, shotsFilm(t, 1, 1, 24), board.SetPlan(slow)), "an exposure takes 120 minutes with contingency, and a session has 110"},
		{do(t, shotsFilm(t, 1, 1, 20000), board.SetPlan(endless)), "more than 5000 sessions of 12 minutes"},
	} {
		if _, err := Make(c.b); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
		if f := Findings(c.b); len(f) != 1 || f[0].Kind != Impossible || f[0].Panel != -1 {
			t.Errorf("findings %+v", f)
		}
	}
	if p := planOf(t, board.New()); len(p.Sessions) != 0 || p.Minutes != 0 {
		t.Errorf("a film without panels has the plan %+v", p)
	}
}

// 20000 shots of half a second.
func BenchmarkManyShots(b *testing.B) {
	film := shotsFilm(b, 2, board.MaxPanels, 12)
	f := board.UsualPlanning
	f.SetUp, f.Pace = 10, 1
	film = do(b, film, board.SetPlan(f))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Make(film); err != nil {
			b.Fatal(err)
		}
	}
}
