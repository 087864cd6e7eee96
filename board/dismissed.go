package board

import (
	"fmt"
	"slices"
)

// Limits of what is dismissed.
const (
	MaxDismissed     = 20000
	maxDismissedName = 80 // bytes in one
)

// checkDismissed returns an error unless the names of what is dismissed are
// short and without spaces.
func (b Board) checkDismissed() error {
	if len(b.Dismissed) > MaxDismissed {
		return fmt.Errorf("%d dismissed findings: a film has at most %d", len(b.Dismissed), MaxDismissed)
	}
	for _, id := range b.Dismissed {
		if id == "" || len(id) > maxDismissedName {
			return fmt.Errorf("the dismissed finding %.40q: a name has 1 to %d letters", id, maxDismissedName)
		}
		for _, c := range []byte(id) {
			if c <= ' ' || c > '~' {
				return fmt.Errorf("the dismissed finding %.40q: a name has plain letters and no spaces", id)
			}
		}
	}
	return nil
}

// IsDismissed reports whether the finding of that name was dismissed.
func (b Board) IsDismissed(id string) bool {
	return slices.Contains(b.Dismissed, id)
}

// Dismiss marks findings of the film's check, by their names, as seen and
// accepted.
func Dismiss(ids []string) Edit {
	return Edit{Name: "dismiss " + countOf(len(ids), "finding"), Apply: func(b Board) (Board, error) {
		out := b
		out.Dismissed = slices.Clone(b.Dismissed)
		for _, id := range ids {
			if !out.IsDismissed(id) {
				out.Dismissed = append(out.Dismissed, id)
			}
		}
		return out.checked(b)
	}}
}

// Recall takes the mark off findings that were dismissed; with none named, off
// all of them.
func Recall(ids []string) Edit {
	name := "bring back all findings"
	if len(ids) > 0 {
		name = "bring back " + countOf(len(ids), "finding")
	}
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		out := b
		out.Dismissed = nil
		for _, id := range b.Dismissed {
			if len(ids) > 0 && !slices.Contains(ids, id) {
				out.Dismissed = append(out.Dismissed, id)
			}
		}
		return out.checked(b)
	}}
}

func countOf(n int, what string) string {
	if n == 1 {
		return "a " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
