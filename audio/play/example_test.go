package play_test

import (
	"fmt"

	"stillbeat/audio/play"
)

func ExamplePlayer() {
	var p play.Player
	p.Load(nil, 0) // a silent film: the clock leads
	p.Play(2)
	fmt.Println("playing:", p.Playing(), "past second 2:", p.Position() >= 2)
	p.Stop()
	fmt.Println("playing:", p.Playing(), "at", p.Position(), "trouble:", p.Trouble())
	// Output:
	// playing: true past second 2: true
	// playing: false at 0 trouble: <nil>
}
