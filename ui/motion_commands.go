package ui

import "stillbeat/board/motion"

// Names of commands that buttons of the face do as well.
const (
	moveBeforeName = "The move before"
	moveAfterName  = "The next move"
	moveTableName  = "The move's exposures as a table"
	removeMoveName = "Remove the move"
	moveOverName   = "The move in the chosen panels"
	addKeyName     = "Add a key to the path"
	removeKeyName  = "Take the key out of the path"
	hitHereName    = "Put the moment on the beat here"
	hitFreeName    = "Set the moment free"
	hitEarlierName = "Put the moment a beat earlier"
	hitLaterName   = "Put the moment a beat later"
	sightName      = "Say where the set is seen"
)

// motionCommands are those for moves of objects.
func (w *window) motionCommands() []*command {
	f := w.motion
	const group = "Move objects"
	panel := func() bool { return w.chosen >= 0 }
	several := func() bool { return len(f.tables) > 1 && w.faces.up == f.face }
	shown := func() bool { return f.hasMove() && w.faces.up == f.face }
	keys := func() int {
		t, _ := f.table()
		return len(t.Move.Keys)
	}
	c := []*command{{menu: "Picture"}}
	for _, r := range motion.ReadyMoves() {
		c = append(c, &command{menu: "Picture", group: group, name: "Move: " + r.Name, do: func() { w.addMove(r) }, can: panel})
	}
	for _, each := range []*command{
		{},
		{name: moveBeforeName, looks: true, do: func() { f.turn(-1) }, can: several},
		{name: moveAfterName, looks: true, do: func() { f.turn(1) }, can: several},
		{name: moveTableName, looks: true, do: func() { f.show(!f.tableUp) }, can: shown, ticked: func() bool { return f.tableUp }},
		{name: moveOverName, do: w.moveOverChosen, can: shown},
		{name: addKeyName, do: f.addKey, can: shown},
		{name: removeKeyName, do: f.removeKey, can: func() bool { return shown() && keys() > 2 }},
		{name: hitHereName, do: f.hitHere, can: shown},
		{name: hitFreeName, do: f.hitFree, can: shown},
		{name: hitEarlierName, do: func() { f.hitBy(-1) }, can: shown},
		{name: hitLaterName, do: func() { f.hitBy(1) }, can: shown},
		{name: sightName, do: func() { f.sighting.SetChecked(!f.sighting.Checked) }, can: shown, ticked: func() bool { return f.sighting.Checked }},
		{name: removeMoveName, do: w.removeMove, can: shown},
	} {
		each.menu, each.group = "Picture", group
		c = append(c, each)
	}
	return c
}
