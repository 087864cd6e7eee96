package board

// Timing is what a list from elsewhere says of a film: which pictures follow
// each other, when each starts and what is written on them. Lay it on a film
// with TakeTiming, or make a new one of it with NewFromTiming.
type Timing struct {
	Title   string
	Rate    FrameRate // of the list; for new boards
	Step    int       // frames per exposure, 0: the list does not say; for new boards
	Cues    []Cue     // in order of time; the first starts the film
	End     Moment
	Markers []Mark
	Grid    Grid   // beats in seconds of the film; for new boards
	Song    string // name of the song the list was laid on
}

// Moment is a place in a list: the second of film, and the start it was written
// from if the list has kept that. The second decides; the start says which
// beat is meant there.
type Moment struct {
	At  float64
	Was *Start
}

// Cue is a picture of a list. What the list does not say is nil.
type Cue struct {
	Moment
	ID     PanelID           // of the panel, 0: the list does not say
	Number string            // what the panel is called
	Gap    bool              // nothing is to be seen
	Words  map[string]string // by the names in Texts
	Marks  *Marks
	Into   *Transition

	Name    string // title of a panel that the film does not have yet, and so below
	Opens   Opening
	Heading string
	Fixed   Numbers
	Step    int
}

// Mark is a marker of a list.
type Mark struct {
	Moment
	Name string
}

// Texts names the texts of Words in the order they are read.
var Texts = []string{"title", "action", "sound", "note", "size", "camera"}

// Text returns the text with one of the names in Texts; nil for others.
func (w *Words) Text(name string) *string {
	switch name {
	case "title":
		return &w.Title
	case "action":
		return &w.Action
	case "sound":
		return &w.Sound
	case "note":
		return &w.Note
	case "size":
		return &w.Size
	case "camera":
		return &w.Camera
	}
	return nil
}

// panel returns the blank panel that stands for a picture the film does not
// have.
func (c Cue) panel() Panel {
	return Panel{Opens: c.Opens, Heading: c.Heading, Fixed: c.Fixed, Step: c.Step, Words: Words{Title: c.Name}}
}

// write puts what the list says on a panel.
func (c Cue) write(p *Panel) {
	for name, text := range c.Words {
		if to := p.Words.Text(name); to != nil {
			*to = text
		}
	}
	if c.Marks != nil {
		p.Marks = *c.Marks
	}
	if c.Into != nil {
		p.Into = *c.Into
	}
}
