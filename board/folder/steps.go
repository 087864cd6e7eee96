package folder

import "context"

// steps counts what is done of a job and stops it when its context ends.
type steps struct {
	ctx         context.Context
	progress    func(float64) // may be nil
	made, total int
}

// done counts a step that ended with err, and returns err or the reason to
// stop.
func (s *steps) done(err error) error {
	if err != nil {
		return err
	}
	s.made++
	if s.progress != nil {
		s.progress(float64(s.made) / float64(s.total))
	}
	return s.ctx.Err()
}
