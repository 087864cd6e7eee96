package desk

// Compact drops the history and the pictures and songs the board does not use,
// and returns how many bytes the film is smaller on disk.
func (d *Desk) Compact() (won int64, err error) {
	if err := d.ReadOnly(); err != nil {
		return 0, err
	}
	if err := d.Flush(); err != nil {
		return 0, err
	}
	won, err = d.store.Compact()
	steps := d.Past().Steps
	if err == nil || len(steps) > 1 && !d.store.Holds(steps[len(steps)-1].ID) {
		d.history.Forget()
	}
	if d.OnChange != nil {
		d.OnChange()
	}
	return won, err
}
