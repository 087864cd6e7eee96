package otio_test

import (
	"fmt"

	"stillbeat/board"
	"stillbeat/board/share/otio"
)

// A film goes out as a timeline, is cut elsewhere and takes the new timing.
func Example() {
	b := board.New()
	b.NextID, b.End = 3, board.Free(2)
	b.Panels = []board.Panel{{ID: 1, Picture: "a"}, {ID: 2, Picture: "b", Start: board.Free(1)}}
	text, err := otio.Write(b, otio.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	timing, notes, err := otio.Read(text)
	if err != nil {
		fmt.Println(err)
		return
	}
	timing.Cues[1].At = 0.5 // as somebody cut it
	b, err = board.TakeTiming(timing).Apply(b)
	fmt.Println(b.Starts(), len(notes), err)
	// Output: [0 12 48] 0 <nil>
}
