package ui

import (
	"fyne.io/fyne/v2"
	"github.com/go-gl/glfw/v3.3/glfw"
)

// fitScreen gives a new window most of the screen, as far as that serves, and
// never more than there is. The toolkit does not tell the size of the screen;
// the library under it does.
func fitScreen(win fyne.Window) {
	monitor := glfw.GetPrimaryMonitor()
	if monitor == nil {
		return
	}
	_, _, w, h := monitor.GetWorkarea()
	scale := win.Canvas().Scale()
	if w <= 0 || h <= 0 || scale <= 0 {
		return
	}
	// What window managers put around a window, and a little air.
	const border = 44
	win.Resize(fyne.NewSize(min(1920, float32(w)/scale-8), min(1180, float32(h)/scale-border)))
	win.CenterOnScreen()
}
