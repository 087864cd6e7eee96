package ui

import (
	"os"
	"runtime"
	"strconv"

	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

// windowSizes returns the size a window gets the first time, most of the screen
// as far as that serves, and the most there is room for. The toolkit does not
// tell the size of the screen; the library under it does, once it is
// initialised, which the toolkit repeats without harm. On macOS it has to be
// the first.
func windowSizes(app fyne.App) (usual, room fyne.Size) {
	usual, room = fyne.NewSize(1280, 800), fyne.NewSize(1e5, 1e5)
	if runtime.GOOS == "darwin" || glfw.Init() != nil {
		return usual, room
	}
	monitor := glfw.GetPrimaryMonitor()
	if monitor == nil {
		return usual, room
	}
	_, _, w, h := monitor.GetWorkarea()
	scale, _ := monitor.GetContentScale()
	scale *= userScale(app)
	if w <= 0 || h <= 0 || scale <= 0 {
		return usual, room
	}
	// What window managers put around a window, and a little air.
	const border = 44
	room = fyne.NewSize(float32(w)/scale-8, float32(h)/scale-border)
	return fyne.NewSize(min(1920, room.Width), min(1180, room.Height)), room
}

// screens returns how many there are at the machine, once the toolkit runs.
func screens() int { return len(glfw.GetMonitors()) }

// userScale is the scale asked for by hand: in the environment, else in the
// toolkit's settings.
func userScale(app fyne.App) float32 {
	if v, err := strconv.ParseFloat(os.Getenv("FYNE_SCALE"), 32); err == nil && v > 0 {
		return float32(v)
	}
	if v := app.Settings().Scale(); v > 0 {
		return v
	}
	return 1
}
