package plan

import "strings"

// Risk is a reason to shoot something early, while there is time to do it
// again.
type Risk string

// The risks.
const (
	Rig    Risk = "rig"            // one stands in the frame
	Effect Risk = "effect"         // one is made in the camera
	Many   Risk = "many exposures" // they fill half a session or more
	Long   Risk = "long"           // on the screen for LongSeconds or more
)

// LongSeconds is from when on a shot counts as long: a bump of the table late
// in it costs all of it. Common practice has no figure; this one is our own.
const LongSeconds = 10

// risksOf returns the risks of a shot that takes so many minutes after its
// set-up and is so many seconds long.
func risksOf(s Shot, effect bool, shooting, seconds, session float64) (out []Risk) {
	for _, r := range []struct {
		on   bool
		risk Risk
	}{{s.Rigged > 0, Rig}, {effect, Effect}, {shooting >= session/2, Many}, {seconds >= LongSeconds, Long}} {
		if r.on {
			out = append(out, r.risk)
		}
	}
	return out
}

// Mind says what is to be minded in a shot: its risks, and a clean plate.
func (s Shot) Mind() string {
	var out []string
	for _, r := range s.Risks {
		out = append(out, string(r))
	}
	if s.Plate {
		out = append(out, "clean plate")
	}
	return strings.Join(out, ", ")
}
