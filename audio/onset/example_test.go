package onset_test

import (
	"context"
	"fmt"

	"stillbeat/audio/onset"
)

func ExampleMeasure() {
	clicks := make([]float32, 3*8000) // three seconds at 8 kHz
	clicks[8000], clicks[12000] = 1, 1
	e, err := onset.Measure(context.Background(), clicks, 8000, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range e.Onsets() {
		fmt.Printf("%.2f s\n", o.Time)
	}
	// Output:
	// 1.00 s
	// 1.50 s
}
