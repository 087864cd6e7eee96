package check

import (
	"context"
	"fmt"
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Screening is said with every word on flashing.
const Screening = "This is a screening, not a certification: broadcasters, festivals and local rules may ask for more."

// FlashCaution must go with a film that flashes.
const FlashCaution = "This film flashes in a way that may set off seizures in people with photosensitive epilepsy. " +
	"Warn everyone before it is shown, and ask which rules hold where it is shown. " + Screening

// flashing screens the film and finds pictures that cannot be drawn.
func (l look) flashing(ctx context.Context) ([]Finding, error) {
	film := picture.NewFilm(l.Pictures, l.Board)
	w, h := SizeFor(l.Aspect)
	blank := image.NewRGBA(image.Rect(0, 0, w, h))
	bad := map[int]error{} // by panel
	changes := film.Changes()
	next, stop := drawnAhead(ctx, changes, func(n board.Frame) (*image.RGBA, error) { return film.Frame(n, w, h) })
	defer stop()
	found, err := Flashes(ctx, func(n board.Frame) (*image.RGBA, error) {
		img, err := next(n)
		if err != nil && ctx.Err() == nil {
			if i := board.PanelAt(l.starts, n); bad[i] == nil {
				bad[i] = err
			}
			return blank, nil
		}
		return img, err
	}, FlashOptions{Rate: l.Rate, Length: l.starts[len(l.Panels)], Changes: changes, Loop: l.Loop, Progress: l.Progress})
	if err != nil {
		return nil, err
	}
	var out []Finding
	for i, err := range bad {
		f := l.at(BadPicture, i, i)
		f.Severity = Fault
		f.What = fmt.Sprintf("cannot be drawn: %v", err)
		f.Why = "The film cannot be shared before its picture is replaced; flashing was judged without it."
		f.Source = "the film itself"
		out = append(out, f)
	}
	for _, flash := range found.Flashes {
		if flash.Rule >= Television && overlapped(found.Flashes, flash) {
			continue // the second opinion is the first
		}
		out = append(out, l.flash(flash))
	}
	return out, nil
}

// overlapped reports whether a flash that fails WCAG's rules lies in the frames
// of another.
func overlapped(all []Flash, f Flash) bool {
	for _, o := range all {
		if o.Rule < Television && !o.KeptUp && o.Span.Overlaps(f.Span) {
			return true
		}
	}
	return false
}

// flash words a run of flashing. Its name holds how many changes it has, so that
// one that grew worse is told again.
func (l look) flash(f Flash) Finding {
	from := board.PanelAt(l.starts, f.Span.Start)
	out := l.at(Flicker, from, from)
	out.ID = fmt.Sprintf("%s-%s-%d", out.ID, [rules]string{"light", "red", "screen", "old-red"}[f.Rule], f.Changes)
	out.Span = f.Span
	changes := [rules]string{"light", "saturated red", "light on a television screen", "red, by an older rule,"}[f.Rule]
	what := fmt.Sprintf("begins flashing: %d changes of %s in a second over %.0f %% of a 10-degree field", f.Changes, changes, 100*f.Share)
	switch {
	case f.KeptUp:
		out.ID += "-long"
		out.What = fmt.Sprintf("begins flashing that stays within the limit but lasts %.0f s: up to %d changes of %s in a second",
			l.Rate.Seconds(f.Span.Len()), f.Changes, changes)
		out.Why = "Flashing that goes on for five seconds may be a risk even below the limit. " + Screening
		out.Source = "ITU-R BT.1702, quoted second-hand; an analyser's usual settings"
	case f.Rule < Television:
		out.Severity, out.Caution = Danger, FlashCaution
		out.What = what
		out.Why = fmt.Sprintf("More than three flashes (%d changes) in a second over a quarter of that field may set off seizures. %s", MostChanges, Screening)
		out.Source = "WCAG 2.2, 2.3.1"
		out.Mend = l.calmer(f.Span)
	default:
		out.What = what
		out.Why = "It passes WCAG 2.2, 2.3.1; this second opinion is stricter here. " + Screening
		out.Source = [rules]string{Television: "ITU-R BT.1702, quoted second-hand", OldRed: "an older rule for red flashes, quoted by WCAG"}[f.Rule]
	}
	return out
}

// calmer returns an edit that lets panels hold long enough not to flash: where
// they all follow each other by cuts and stand still, that is certain to pass.
func (l look) calmer(s board.Span) *board.Edit {
	least := LeastHold(l.Rate)
	var set []int
	for i, p := range l.Panels {
		if !l.span(i, i).Overlaps(s) {
			continue
		}
		if p.Into.Kind != board.Cut || !p.Drawing().Travel.Holds() {
			return nil
		}
		if l.hold(i) < least {
			set = append(set, i)
		}
	}
	if len(set) == 0 {
		return nil
	}
	e := board.SetHold(set, least)
	e.Name = fmt.Sprintf("hold for %s each what flashes", frames(least))
	return l.works(e)
}
