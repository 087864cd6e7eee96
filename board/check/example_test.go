package check_test

import (
	"context"
	"fmt"

	"stillbeat/board"
	"stillbeat/board/check"
)

func ExampleRun() {
	film, _ := board.SetTempo(120, 0).Apply(board.New()) // a beat every 12 frames
	film, _ = board.Insert(0, []board.Panel{{Picture: "cup"}, {Picture: "spoon"}, {}}, 2).Apply(film)
	film, _ = board.SetStart(1, board.Free(26.0/24)).Apply(film)
	report, _ := check.Run(context.Background(), film, check.Options{Session: 100})
	for _, f := range report.Findings {
		fmt.Printf("%s: panel %s %s\n", f.Severity, f.Number, f.What)
		fmt.Println("    to", f.Mend.Name)
		film, _ = f.Mend.Apply(film)
	}
	report, _ = check.Run(context.Background(), film, check.Options{Session: 100})
	fmt.Println(len(report.Findings), "left")
	// Output:
	// fault: panel 2 starts 83 ms (2.0 frames) after its beat
	//     to put panel 2 on the beat
	// fault: panel 3 is empty: the film goes on for 24 frames after its last picture
	//     to delete panel 3
	// 0 left
}

func ExampleLeastHold() {
	for _, fps := range []int64{12, 24, 25} {
		fmt.Print(check.LeastHold(board.FrameRate{Num: fps, Den: 1}), " ")
	}
	// Output: 2 4 5
}
