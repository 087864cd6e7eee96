package check

import (
	"context"
	"errors"
	"strings"
	"testing"

	"stillbeat/board"
)

// flickering is a film of black and white panels of n frames each between
// calm ones.
func flickering(t testing.TB, n board.Frame) board.Board {
	holds := []board.Frame{48}
	for range 12 {
		holds = append(holds, n)
	}
	b := film(t, append(holds, 48)...)
	for i := 1; i <= 12; i++ {
		b = do(t, b, board.SetPicture([]int{i}, board.MediaID([]string{"grey 0", "grey 255"}[i%2])))
	}
	return b
}

func TestAFilmThatFlashes(t *testing.T) {
	b := flickering(t, 3)
	all := checked(t, b, Options{Pictures: greyCache()})
	found := of(Flicker, all)
	if len(found) != 1 {
		t.Fatalf("found %+v", found)
	}
	f := found[0]
	// The panels change every 3 frames from frame 48 on: 8 in a second.
	if f.Severity != Danger || f.Number != "2" || f.Span.Start != 48 || f.Span.End < 80 || f.Span.End > 85 ||
		!strings.Contains(f.What, "8 changes of light in a second over 100 %") || f.Source != "WCAG 2.2, 2.3.1" ||
		!strings.Contains(f.Why, "screening, not a certification") || f.Caution != FlashCaution {
		t.Errorf("found %+v", f)
	}
	if all[0].ID != f.ID {
		t.Errorf("first comes %q", all[0].What)
	}
	if f.Mend == nil || f.Mend.Name != "hold for 4 frames each what flashes" {
		t.Fatalf("it is mended by %+v", f.Mend)
	}
	if left := of(Flicker, checked(t, do(t, b, *f.Mend), Options{Pictures: greyCache()})); len(left) > 0 {
		t.Errorf("once mended there is still %q", left[0].What)
	}
	if at := of(Flicker, checked(t, flickering(t, 4), Options{Pictures: greyCache()})); len(at) > 0 {
		t.Errorf("at the limit there is %q", at[0].What)
	}
	moving := do(t, b, board.SetMove([]int{3}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	if f := of(Flicker, checked(t, moving, Options{Pictures: greyCache()})); len(f) != 1 || f[0].Mend != nil {
		t.Errorf("where the camera moves it is mended by %+v", f)
	}
}

// Flashing may be dismissed from the list, but its caution stays, and flashing
// that grew worse is told again.
func TestTheCautionOfFlashingStays(t *testing.T) {
	b := flickering(t, 3)
	f := checked(t, b, Options{Pictures: greyCache()})[0]
	b = do(t, b, board.Dismiss([]string{f.ID}))
	all := checked(t, b, Options{Pictures: greyCache()})
	if !all[0].Dismissed || len(of(Flicker, Open(all))) > 0 {
		t.Errorf("dismissed, it is still open: %+v", all[0])
	}
	if c := Cautions(all); len(c) != 1 || c[0] != FlashCaution {
		t.Errorf("the cautions are %q", c)
	}
	if c := Cautions(checked(t, film(t, 24, 24), Options{Pictures: greyCache()})); len(c) > 0 {
		t.Errorf("a calm film has the cautions %q", c)
	}
	for i := 1; i <= 12; i++ {
		b = do(t, b, board.SetHold([]int{i}, 1))
	}
	if worse := of(Flicker, Open(checked(t, b, Options{Pictures: greyCache()}))); len(worse) != 1 {
		t.Errorf("worse, there is %+v", worse)
	}
}

func TestPicturesThatCannotBeDrawnAreFound(t *testing.T) {
	b := do(t, film(t, 12, 12, 12), board.SetPicture([]int{1}, "torn"))
	found := of(BadPicture, checked(t, b, Options{Pictures: greyCache()}))
	if len(found) != 1 || found[0].Number != "2" || found[0].Severity != Fault || !strings.Contains(found[0].What, "it is lost") {
		t.Errorf("found %+v", found)
	}
}

func TestOrderAndGroups(t *testing.T) {
	b := bare(t, started(t, flickering(t, 3), 13, 86), 0)
	all := checked(t, b, Options{Pictures: greyCache(), Shortest: 4})
	last, frame := 0, board.Frame(0)
	for _, f := range all {
		k := strings.Index("danger fault hint", string(f.Severity))
		if k < last || k == last && f.Span.Start < frame {
			t.Errorf("%s at frame %d comes too late", f.Severity, f.Span.Start)
		}
		last, frame = k, f.Span.Start
	}
	n := 0
	groups := Groups(all)
	for _, g := range groups {
		n += len(g.Findings)
		for _, f := range g.Findings {
			if f.Kind != g.Kind {
				t.Errorf("%s is in the group %s", f.ID, g.Kind)
			}
		}
	}
	if n != len(all) || groups[0].Kind != Flicker || len(groups) < 4 {
		t.Errorf("%d of %d findings are in %d groups, first %s", n, len(all), len(groups), groups[0].Kind)
	}
	ids := map[string]bool{}
	for _, f := range all {
		if ids[f.ID] {
			t.Errorf("%s is there twice", f.ID)
		}
		ids[f.ID] = true
	}
}

func TestFindingsOfOneNameAreToldApart(t *testing.T) {
	b := moving(t, moving(t, film(t, 12, 12), 990, 0), 1200, 0)
	b = do(t, b, board.Dismiss([]string{"step:1~2"}))
	found := of(Step, checked(t, b, Options{}))
	if len(found) != 2 || found[0].ID != "step:1" || found[0].Dismissed || found[1].ID != "step:1~2" || !found[1].Dismissed {
		t.Errorf("found %+v", found)
	}
}

// A dismissed finding stays dismissed when panels move.
func TestDismissalsFollowThePanel(t *testing.T) {
	b := started(t, film(t, 12, 24, 12), 1, 14)
	id := of(OffBeat, checked(t, b, Options{}))[0].ID
	b = do(t, do(t, b, board.Dismiss([]string{id})), board.Insert(0, make([]board.Panel, 1), 1))
	found := of(OffBeat, checked(t, b, Options{}))
	if len(found) != 1 || found[0].ID != id || !found[0].Dismissed || found[0].Number != "3" {
		t.Errorf("found %+v", found)
	}
}

func TestWhatWasNotLookedAtIsSaid(t *testing.T) {
	b := sung(t, film(t, 12), 9, 0)
	r, err := Run(context.Background(), b, Options{})
	if err != nil || len(r.Unchecked) != 2 {
		t.Errorf("not looked at: %q, %v", r.Unchecked, err)
	}
	r, err = Run(context.Background(), b, Options{Peak: &Peak{}, Pictures: greyCache()})
	if err != nil || len(r.Unchecked) != 0 || len(r.Findings) != 0 {
		t.Errorf("a good film has %+v, %v", r, err)
	}
	if r, err := Run(context.Background(), board.New(), Options{Pictures: greyCache()}); err != nil || len(r.Findings) > 0 {
		t.Errorf("an empty board has %+v, %v", r, err)
	}
}

func TestTheCheckStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	o := Options{Pictures: greyCache(), Progress: func(done float64) { cancel() }}
	if _, err := Run(ctx, flickering(t, 3), o); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled, it says %v", err)
	}
}
