package score_test

import (
	"fmt"

	"stillbeat/audio/beat/score"
)

func ExampleContinuous() {
	truth := []float64{0.5, 1, 1.5, 2, 2.5, 3}
	half := []float64{0.5, 1.5, 2.5}
	c := score.Continuous(truth, half)
	fmt.Println(c.CMLt, c.AMLt)
	// Output: 0 1
}
