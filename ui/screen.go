package ui

import (
	"runtime"

	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

// windowSize returns the size a new window gets: most of the screen, as far
// as that serves, and never more than there is. The toolkit does not tell the
// size of the screen; the library under it does, once it is initialised,
// which the toolkit repeats without harm. On macOS it has to be the first.
func windowSize() fyne.Size {
	usual := fyne.NewSize(1280, 800)
	if runtime.GOOS == "darwin" || glfw.Init() != nil {
		return usual
	}
	monitor := glfw.GetPrimaryMonitor()
	if monitor == nil {
		return usual
	}
	_, _, w, h := monitor.GetWorkarea()
	scale, _ := monitor.GetContentScale()
	if w <= 0 || h <= 0 || scale <= 0 {
		return usual
	}
	// What window managers put around a window, and a little air.
	const border = 44
	return fyne.NewSize(min(1920, float32(w)/scale-8), min(1180, float32(h)/scale-border))
}
