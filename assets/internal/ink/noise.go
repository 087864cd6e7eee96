package ink

import "math"

// hash returns a value 0..1 that depends on the two whole numbers only.
func hash(x, y int) float64 {
	h := uint32(x)*0x9E3779B1 ^ uint32(y)*0x85EBCA77
	h ^= h >> 15
	h *= 0x2C1B3C6D
	h ^= h >> 12
	h *= 0x297A2D39
	h ^= h >> 15
	return float64(h) / float64(math.MaxUint32)
}

// Noise is smooth value noise, -1..1, with bumps about one unit of t apart.
// Each seed gives another curve.
func Noise(t float64, seed int) float64 {
	i := math.Floor(t)
	return 2*mixf(hash(int(i), seed), hash(int(i)+1, seed), ease(t-i)) - 1
}

// noise2 is Noise over the plane.
func noise2(x, y float64, seed int) float64 {
	i, j := math.Floor(x), math.Floor(y)
	u, v := ease(x-i), ease(y-j)
	at := func(di, dj int) float64 { return hash(int(i)+di, (int(j)+dj)*7919+seed) }
	return 2*mixf(mixf(at(0, 0), at(1, 0), u), mixf(at(0, 1), at(1, 1), u), v) - 1
}

func ease(t float64) float64       { return t * t * (3 - 2*t) }
func mixf(a, b, t float64) float64 { return a + (b-a)*t }
