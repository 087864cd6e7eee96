package plan

import (
	"slices"
	"strings"
)

// lockDown is what is looked at before the first exposure. Common practice; the
// registration mark, the legs, the weight, the mains and the lamps are asked for
// by several guides to the trade.
var lockDown = []string{
	"Camera on manual: exposure, focus, white balance, ISO",
	"Stabiliser and sleep timer off, card empty, clock right",
	"Legs taped or glued down, on a hard floor, weight low",
	"Table and set cannot creep; puppets screwed or held by magnets",
	"A mark on the set by which a bump shows, away from what moves",
	"Camera and lamps on steady mains, cables out of the way",
	"No daylight, screen or shirt reflected; black cloth hung",
	"Lamps new enough for the whole shot and warm before the first exposure",
	"A test exposure looked at in full size",
	"Clean plate in the same light, before or after the take",
}

// cautions are the dangers of the table. Rosin: Health and Safety Executive of
// Great Britain; the others are common practice.
var cautions = []string{
	"Lamps get hot: keep cloth and paper clear of them, let them cool, leave none on alone.",
	"Solder fumes can bring on asthma: extract them and keep your head out of them.",
	"Cut away from your hand, with the blade sheathed between cuts; gloves for putty and resin, a mask for sanding.",
	"Every 20 minutes look at something far away for 20 seconds; stand up between shots.",
	"The rules of the place you work in come first.",
}

// Cautions returns what to take care of at the table, as call sheets say it.
func Cautions() []string { return slices.Clone(cautions) }

// shutterAdvice says which shutter times to take under lamps.
func shutterAdvice() string {
	return "Shutter times without flicker under lamps: mains of 50 Hz " + strings.Join(Even(50), ", ") +
		"; of 60 Hz " + strings.Join(Even(60), ", ") + " s. The longer the safer."
}
