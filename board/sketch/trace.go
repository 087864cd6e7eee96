package sketch

import (
	"image"
	"math"

	"stillbeat/board"
)

// trace returns the outlines of a region along the edges of its pixels: the
// region lies to the right of each as it is walked, so that outlines wind one
// way and those of holes the other.
func (m *mask) trace() [][]image.Point {
	// An edge is known by the corner it leaves and its way: right, down, left, up.
	ways := [4]image.Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	edge := func(p image.Point, way int) bool { // inside to the right, outside to the left
		in, out := p, p
		switch way {
		case 0:
			out.Y--
		case 1:
			in.X--
		case 2:
			in.X--
			in.Y--
			out.X--
		case 3:
			in.Y--
			out.X--
			out.Y--
		}
		return m.at(in.X, in.Y) && !m.at(out.X, out.Y)
	}
	seen := make(map[image.Point]bool) // corners left to the right, along the top of a pixel
	var loops [][]image.Point
	for y := range m.h {
		for x := range m.w {
			start := image.Pt(x, y)
			if i := y*m.w + x; !m.in[i] || y > 0 && m.in[i-m.w] || seen[start] {
				continue
			}
			var loop []image.Point
			for p, way := start, 0; ; {
				if way == 0 {
					seen[p] = true
				}
				loop = append(loop, p)
				p = p.Add(ways[way])
				// Turn right first: regions that touch at a corner stay apart.
				for _, turn := range []int{1, 0, 3} {
					if edge(p, (way+turn)%4) {
						way = (way + turn) % 4
						break
					}
				}
				if p == start && way == 0 {
					break
				}
			}
			loops = append(loops, loop)
		}
	}
	return loops
}

// maxPatch is the most dots of one patch: a region more ragged than that is
// simplified further.
const maxPatch = 20000

// joined simplifies loops and joins them into one: a hole is reached from the
// longest loop by a way there and back, which covers nothing.
func joined(loops [][]image.Point, place func(image.Point) board.Dot, pixel float64) []board.Dot {
	for within := 0.8 * pixel; ; within *= 2 {
		var rings [][]board.Dot
		count := 0
		for _, loop := range loops {
			ring := ringOf(loop, place, within)
			if len(ring) < 3 || math.Abs(ringArea(ring)) < 4*pixel*pixel {
				continue // a speck
			}
			rings = append(rings, ring)
			count += len(ring) + 2
		}
		if count <= maxPatch {
			return bridged(rings)
		}
	}
}

// ringOf simplifies a loop, halved where it is furthest from its start.
func ringOf(loop []image.Point, place func(image.Point) board.Dot, within float64) []board.Dot {
	dots := make([]board.Dot, 0, len(loop)+1)
	half, most := 0, -1
	for i, p := range loop {
		dots = append(dots, place(p))
		if d := p.Sub(loop[0]); d.X*d.X+d.Y*d.Y > most {
			half, most = i, d.X*d.X+d.Y*d.Y
		}
	}
	dots = append(dots, dots[0])
	one, two := Simplify(dots[:half+1], within), Simplify(dots[half:], within)
	return append(one[:len(one)-1], two[:len(two)-1]...)
}

func ringArea(ring []board.Dot) float64 {
	sum := 0.
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
	}
	return sum / 2
}

func bridged(rings [][]board.Dot) []board.Dot {
	if len(rings) == 0 {
		return nil
	}
	longest := 0
	for i, r := range rings {
		if len(r) > len(rings[longest]) {
			longest = i
		}
	}
	out := rings[longest]
	home := out[0]
	for i, r := range rings {
		if i != longest {
			out = append(append(append(out, home), r...), r[0])
		}
	}
	if len(rings) > 1 {
		out = append(out, home)
	}
	return out
}
