package ui

// Names of commands that buttons of the page do as well.
const (
	checkAgainName    = "Check the film again"
	checkGoName       = "Show what was found on the timeline"
	checkMendName     = "Mend what was found"
	checkMendKindName = "Mend all of this kind"
	worstCutName      = "The cut that fights the music most"
	checkDismissName  = "Dismiss what was found, or bring it back"
)

// checkCommands are those for what the film's check found.
func (w *window) checkCommands() []*command {
	p := w.check
	up := func(can func() bool) func() bool { return func() bool { return p.up() && (can == nil || can()) } }
	chosen := func() bool { _, ok := p.chosen(); return ok }
	c := []*command{{menu: "Edit"}}
	for _, each := range []*command{
		{name: checkAgainName, looks: true, do: p.run.Again, can: up(nil)},
		{name: "The next finding", looks: true, do: func() { p.step(1) }, can: up(nil)},
		{name: "The finding before", looks: true, do: func() { p.step(-1) }, can: up(nil)},
		{name: checkGoName, looks: true, do: p.goThere, can: up(chosen)},
		{name: "Show dismissed findings", looks: true, do: func() { p.showOld(!p.old) }, can: up(nil), ticked: func() bool { return p.old }},
		{},
		{name: checkMendName, do: p.mendOne, can: up(p.canMend)},
		{name: checkMendKindName, do: p.mendKind, can: up(func() bool { return len(p.ofKind()) > 1 })},
		{name: checkDismissName, do: p.turnDismissed, can: up(p.canDismiss)},
	} {
		each.menu, each.group = "Edit", "Check"
		c = append(c, each)
	}
	return c
}
