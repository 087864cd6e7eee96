package stage

import (
	"image"
	"math"
	"testing"

	"stillbeat/assets/internal/ink"
)

var frame = image.Rect(0, 0, 400, 300)

// ahead looks along -z from 100 cm away; at that distance 200 cm fill the height.
var ahead = Camera{Eye: Vec{0, 0, 100}, Angle: 90}

func scene() *Scene {
	s := NewScene(image.NewRGBA(frame), ahead, Light{Ray: Vec{1, -1, 0}})
	s.Canvas.Fill(ink.RGB(0xffffff))
	return s
}

func TestProject(t *testing.T) {
	tests := []struct {
		name string
		p    Vec
		want ink.Pt
	}{
		{"the target is in the middle", Vec{0, 0, 0}, ink.Pt{X: 200, Y: 150}},
		{"up is up", Vec{0, 100, 0}, ink.Pt{X: 200, Y: 0}},
		{"right is right", Vec{50, 0, 0}, ink.Pt{X: 275, Y: 150}},
		{"twice as near is twice as large", Vec{50, 0, 50}, ink.Pt{X: 350, Y: 150}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := scene().Project(tt.p)
			if math.Hypot(got.X-tt.want.X, got.Y-tt.want.Y) > 1e-9 {
				t.Errorf("Project(%v) = %v, want %v", tt.p, got, tt.want)
			}
		})
	}
}

func TestPoseTurns(t *testing.T) {
	tests := []struct {
		name string
		pose Pose
		p    Vec
		want Vec
	}{
		{"a quarter turn takes x to the back", At(0, 0, 0).Turn(90), Vec{1, 0, 0}, Vec{0, 0, -1}},
		{"leaning right takes the top to the right", At(0, 0, 0).Lean(90, Vec{}), Vec{0, 1, 0}, Vec{1, 0, 0}},
		{"pitching takes the top to the viewer", At(0, 0, 0).Pitch(90, Vec{}), Vec{0, 1, 0}, Vec{0, 0, 1}},
		{"the pivot of a lean stays", At(3, 0, 0).Lean(37, Vec{2, 0, 0}), Vec{2, 0, 0}, Vec{5, 0, 0}},
		{"the pivot of a pitch stays", At(3, 0, 0).Pitch(37, Vec{0, 0, 2}), Vec{0, 0, 2}, Vec{3, 0, 2}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.pose.Apply(tt.p); got.Sub(tt.want).Len() > 1e-9 {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

func TestShadowLiesOnTheTable(t *testing.T) {
	post := Tube([]Vec{{0, 1, 0}, {0, 10, 0}}, 0.5)
	far := 0.0
	for _, ring := range post.shadow(Vec{2, -1, 0}) {
		for _, p := range ring {
			if p.Y != 0 {
				t.Fatalf("shadow point %v is off the table", p)
			}
			far = max(far, p.X)
		}
	}
	// The top is 10.5 cm up; light falling one down for two across throws it 21 cm.
	if math.Abs(far-21) > 0.8 {
		t.Errorf("the shadow reaches %.1f cm, want about 21", far)
	}
}

func TestSilhouetteOfACylinder(t *testing.T) {
	s := scene()
	drum := Turned(At(0, -20, 0), [2]float64{10, 0}, [2]float64{10, 0}, [2]float64{10, 40})
	box := s.Silhouette(drum.Loft()).Rect
	// 20 cm by 40 cm at 1.5 pixels a centimetre, and the front a little nearer.
	if w, h := box.Dx(), box.Dy(); w < 30 || w > 35 || h < 60 || h > 72 {
		t.Errorf("the silhouette is %d by %d pixels, want about 30 by 60 to 67", w, h)
	}
}

// Lit from the right, half of what is seen of an upright drum turns away.
func TestZoneIsHalfOfADrum(t *testing.T) {
	s := scene()
	drum := Turned(At(0, -20, 0), [2]float64{10, 0}, [2]float64{10, 0}, [2]float64{10, 40}).Loft()
	count := func(limit float64) float64 {
		mask := s.Canvas.Mask(s.view.zone(drum, Vec{X: 1}, limit)...)
		sum := 0.0
		for _, a := range mask.Pix {
			sum += float64(a) / 255
		}
		return sum
	}
	if half, whole := count(0), count(2); math.Abs(half/whole-0.5) > 0.02 {
		t.Errorf("the shaded part is %.3f of what is seen, want one half", half/whole)
	}
}

func TestHull(t *testing.T) {
	got := hull([]ink.Pt{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 2, Y: 1}, {X: 4, Y: 4}, {X: 0, Y: 4}, {X: 1, Y: 2}})
	if len(got) != 4 {
		t.Errorf("hull is %v, want the four corners", got)
	}
}

func TestPolygonBehindTheCameraIsCut(t *testing.T) {
	s := scene()
	for _, p := range s.view.polygon([]Vec{{-10, -5, 0}, {10, -5, 0}, {10, -5, 500}, {-10, -5, 500}}) {
		if math.IsNaN(p.X) || math.IsInf(p.X, 0) || p.Y < 150 {
			t.Errorf("point %v: want everything below the horizon", p)
		}
	}
	if got := s.view.polygon([]Vec{{0, 0, 200}, {1, 0, 200}, {0, 1, 200}}); len(got) != 0 {
		t.Errorf("a polygon behind the camera is seen at %v", got)
	}
}

func TestFarIsDrawnFirst(t *testing.T) {
	s := scene()
	var order []string
	for _, it := range []struct {
		name string
		z    float64
	}{{"near", 20}, {"far", -20}, {"middle", 0}} {
		s.Add(Vec{Z: it.z}, nil, func() { order = append(order, it.name) })
	}
	s.Finish()
	if len(order) != 3 || order[0] != "far" || order[1] != "middle" || order[2] != "near" {
		t.Errorf("drawn in the order %v", order)
	}
}
