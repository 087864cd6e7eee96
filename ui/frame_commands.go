package ui

import (
	"fmt"
	"strings"

	"stillbeat/board"
)

// Names of commands that buttons of the face do as well.
const (
	framePlaceName  = "Place the picture in the frame"
	frameCameraName = "Move the camera in the panel"
	flipName        = "Flip the picture left to right"
	putBackName     = "Put the picture back"
	swapName        = "Swap start and end of the move"
	moveOnName      = "Start where the camera before ends"
	playPanelName   = "Play the chosen panels"
	outsideName     = "Open the picture in another program…"
)

var fitCommands = map[board.Fitting]string{
	board.Fitted: "Fit the whole picture into the frame",
	board.Filled: "Fill the frame with the picture",
	board.ByHand: "Place the picture by hand",
}

// command is what the ready move is called as a command.
func (r readyMove) command() string {
	return "Camera: " + strings.ToLower(r.name[:1]) + r.name[1:]
}

// frameCommands are those on how the picture lies and what the camera does.
func (w *window) frameCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	const group, camera = "Picture in the frame", "Camera"
	c := []*command{
		{menu: "Picture"},
		{menu: "Picture", group: group, name: framePlaceName, looks: true, do: func() { w.framing.show(w.framing.place) }},
		{menu: "Picture", group: group},
	}
	for _, f := range board.Fittings {
		c = append(c, &command{menu: "Picture", group: group, name: fitCommands[f], do: func() { w.fitPicture(f) }, can: w.hasPicture,
			ticked: func() bool { return w.hasPicture() && w.board.Panels[w.chosen].Drawing().Placed.Fit == f }})
	}
	c = append(c, []*command{
		{menu: "Picture", group: group, name: flipName, do: w.flipPicture, can: w.hasPicture},
		{menu: "Picture", group: group, name: putBackName, do: func() { w.placePicture(board.Placement{}) }, can: w.hasPicture},
		{menu: "Picture", group: camera, name: frameCameraName, looks: true, do: func() { w.framing.show(w.framing.camera) }},
		{menu: "Picture", group: camera},
	}...)
	for _, r := range readyMoves {
		c = append(c, &command{menu: "Picture", group: camera, name: r.command(), do: func() { w.readyMove(r) }, can: panel})
	}
	return append(c, []*command{
		{menu: "Picture", group: camera},
		{menu: "Picture", group: camera, name: swapName, do: w.swapMove, can: w.moves},
		{menu: "Picture", group: camera, name: moveOnName, do: w.moveOn, can: func() bool { return w.chosen > 0 }},
		{menu: "Picture", name: outsideName, near: nearPanel, do: w.openOutside, can: panel},
		{menu: "Picture", name: "The program for pictures…", looks: true, do: w.outsideDialog},
		{menu: "Picture"},
	}...)
}

// countedPanels says how many panels there are.
func countedPanels(n int) string { return fmt.Sprintf("%d %s", n, plural(int64(n), "panel")) }
