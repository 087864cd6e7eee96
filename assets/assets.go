// Package assets holds what the program carries with it. The demonstration
// film is in assets/demo.
package assets

import _ "embed"

//go:generate go run ./drawicon icon.png

// Icon is the program's icon: a PNG of 512 by 512 pixels.
//
//go:embed icon.png
var Icon []byte
