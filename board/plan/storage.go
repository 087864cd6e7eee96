package plan

import (
	"math"

	"stillbeat/board"
)

// Storage is what photographs take besides time.
type Storage struct {
	Photographs int64   // retakes that are kept included
	Megabytes   float64 // of one copy, millions of bytes
	Copies      float64 // of all copies, millions of bytes
	Charges     int64   // batteries, full at the start; 0: from the mains
}

// Changes returns how often the battery is changed.
func (s Storage) Changes() int64 { return max(0, s.Charges-1) }

// storageOf returns what n photographs take: n (1 + retakes) of them, each of
// so many megabytes in so many copies.
func storageOf(n int64, p board.Planning) Storage {
	s := Storage{Photographs: int64(math.Ceil(float64(n)*(1+p.Retakes) - slack))}
	s.Megabytes = float64(s.Photographs) * p.Megabytes
	s.Copies = s.Megabytes * float64(p.Copies)
	if c := int64(p.Charge); c > 0 {
		s.Charges = (s.Photographs + c - 1) / c
	}
	return s
}
