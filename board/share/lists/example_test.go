package lists_test

import (
	"fmt"

	"stillbeat/board"
	"stillbeat/board/share/lists"
)

// kettle is a film of two panels, a second and half a second long.
func kettle() board.Board {
	b := board.New()
	b.Title, b.NextID, b.End = "Kettle", 3, board.Free(1.5)
	b.Panels = []board.Panel{
		{ID: 1, Picture: "a", Words: board.Words{Title: "lid", Sound: "It boils."}},
		{ID: 2, Picture: "b", Start: board.Free(1)},
	}
	return b
}

func ExampleCutList() {
	parts, notes, err := lists.CutList(kettle(), false)
	fmt.Printf("%s%d notes, %v\n", parts[0], len(notes), err)
	// Output:
	// TITLE: Kettle
	// FCM: NON-DROP FRAME
	// 001  001      V     C        00:00:00:00 00:00:01:00 01:00:00:00 01:00:01:00
	// * FROM CLIP NAME: 001.png
	// * COMMENT: lid
	// 002  002      V     C        00:00:00:00 00:00:00:12 01:00:01:00 01:00:01:12
	// * FROM CLIP NAME: 002.png
	// 0 notes, <nil>
}

func ExampleSubRip() {
	text, err := lists.SubRip(kettle())
	fmt.Printf("%s%v\n", text, err)
	// Output:
	// 1
	// 00:00:00,000 --> 00:00:01,000
	// It boils.
	//
	// <nil>
}

func ExampleReadPanels() {
	timing, _, err := lists.ReadPanels([]byte("title;hold_s\nlid;0,5\nsteam;2\n"), board.FrameRate{Num: 24, Den: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := board.TakeTiming(timing).Apply(kettle())
	fmt.Println(b.Starts(), b.Panels[1].Title, err)
	// Output: [0 12 60] steam <nil>
}
