package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
)

// micro rounds to millionths, so that JSON shows no noise.
func micro(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// printJSON prints v as one document on one line.
func (a *app) printJSON(v any) error {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("write JSON: %w", err)
	}
	return a.print(out.Bytes())
}
