package ui

import (
	"fmt"
	"time"

	"stillbeat/board/share"
)

// leftWords says how long work still takes of which a part is done since it
// began; "" while that cannot be told.
func leftWords(done float64, began time.Time) string {
	if began.IsZero() {
		return ""
	}
	left, known := share.Left(done, time.Since(began))
	if !known {
		return ""
	}
	s := int64(left.Round(time.Second) / time.Second)
	if s < 90 {
		return fmt.Sprintf("%d s left", max(1, s))
	}
	return fmt.Sprintf("%d min left", (s+30)/60)
}
