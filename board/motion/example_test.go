package motion_test

import (
	"fmt"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// A cup falls 20 cm at 1:6, on ones, and lands on frame 12.
func ExampleSpace() {
	film := board.FrameRate{Num: 24, Den: 1}
	cup := board.ObjectMove{Object: "cup", Manner: board.Falling, Scale: 6, Keys: []board.Spot{{Height: 200}, {}}}
	table := motion.Space(cup, motion.Every(film, board.Span{Start: 0, End: 14}, 1), nil, motion.Limits{})
	for _, r := range table.Rows[9:] {
		fmt.Println(r.Frame, table.Words(r, true))
	}
	// Output:
	// 9 cup 87.5 mm high, step 23.6
	// 10 cup 61.1 mm high, step 26.4
	// 11 cup 31.9 mm high, step 29.2
	// 12 cup 0.0 mm high, step 31.9, lands
	// 13 cup 0.0 mm high
}

// A lid jumps on a film's click of 12 frames and lands on the third beat.
func ExampleTables() {
	film := board.New()
	film.Panels = []board.Panel{{ID: 1}}
	film.NextID, film.End = 2, board.Free(1.5)
	lid := motion.Suggest(board.Jumping, 1, 1)
	lid.Hits = []board.Hit{{Moment: 1, Start: board.Start{Anchor: board.Anchor{Beat: 2, Of: 1}}}}
	for _, e := range []board.Edit{board.SetClick(board.Click{Frames: 12}, 0), board.AddObjectMove(lid)} {
		var err error
		if film, err = e.Apply(film); err != nil {
			fmt.Println(err)
			return
		}
	}
	for _, r := range motion.Tables(film, motion.Limits{})[0].Rows {
		if r.Moment != "" {
			fmt.Println(r.Frame, r.Moment)
		}
	}
	// Output:
	// 3 anticipates
	// 11 pushes off
	// 13 takes off
	// 24 lands
	// 26 sinks in
	// 32 turns
	// 35 at rest
}

func ExampleSuggest() {
	ball := motion.Suggest(board.Bouncing, 1, 2)
	fmt.Printf("%s, 1:%g, from %g mm\n", ball.Object, ball.Scale, ball.Keys[0].Height)
	// Output: ball, 1:6, from 200 mm
}

// Two places on the set that are known in the picture show all others.
func ExampleSightThrough() {
	left, right := board.Spot{}, board.Spot{X: 200}
	sight, err := motion.SightThrough(left, right, board.Point{X: -0.4, Y: 0.3}, board.Point{X: 0.4, Y: 0.3}, false)
	if err != nil {
		fmt.Println(err)
		return
	}
	at := motion.Seen(sight, board.Spot{X: 100, Height: 50})
	fmt.Printf("%.2f %.2f\n", at.X, at.Y)
	// Output: 0.00 0.10
}

func ExampleLiveRate() {
	fmt.Printf("%.0f\n", motion.LiveRate(24, 16))
	// Output: 96
}
