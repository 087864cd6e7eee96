package beat_test

import (
	"context"
	"fmt"

	"stillbeat/audio/beat"
)

func ExampleAnalyse() {
	const rate = 8000
	ticks := make([]float32, 12*rate) // twelve seconds of a tick every half
	for i := rate / 4; i < len(ticks); i += rate / 2 {
		ticks[i], ticks[i+1] = 0.9, -0.9
	}
	r, err := beat.Analyse(context.Background(), ticks, rate, beat.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f BPM, first beats %.2f\n", r.Tempo, r.Beats[:3])
	// Output: 120 BPM, first beats [0.25 0.75 1.25]
}
