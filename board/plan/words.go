package plan

import (
	"fmt"
	"math"
)

// Hours writes minutes as people say them: "45 min", "3 h", "2 h 05 min".
func Hours(minutes float64) string {
	m := int64(math.Round(minutes))
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}

// Gigabytes writes millions of bytes: "38.88 GB".
func Gigabytes(megabytes float64) string { return fmt.Sprintf("%.2f GB", megabytes/1000) }

// Summary returns what the whole shoot takes: what a figure is, and the figure.
func (p Plan) Summary() [][2]string {
	f := p.Figures
	var out [][2]string
	add := func(what, format string, v ...any) { out = append(out, [2]string{what, fmt.Sprintf(format, v...)}) }
	add("Exposures to take", "%d; the sheet has %d", p.Take, p.OnSheet)
	if f.Every {
		add("", "still panels and repeats for each exposure too; passages from both sides")
	} else {
		add("", "one for a still panel, repeats once, passages from both sides")
	}
	add("Pace", "%s", p.Pace.words())
	shots := int64(len(p.Shots) - len(p.Again))
	add("Set-ups", "%s of %.4g min", count(shots, "shot"), f.SetUp)
	if p.Plates > 0 {
		add("Clean plates", "%d of %.4g min", p.Plates, f.Plate)
	}
	add("On the set", "%s, with %.4g%% for what goes wrong", Hours(p.Minutes), 100*f.Contingency)
	add("Sessions", "%d of %s", len(p.Sessions), Hours(f.Session))
	if p.Desk > 0 {
		add("At the desk", "%s of painting out rigs, %.4g min a photograph", Hours(p.Desk), f.Retouch)
	}
	add("Photographs", "%d with %.4g%% retakes and clean plates", p.Storage.Photographs, 100*f.Retakes)
	add("Storage", "%s, %s in %s of %.4g MB each", Gigabytes(p.Storage.Megabytes), Gigabytes(p.Storage.Copies), copies(f.Copies), f.Megabytes)
	if f.Charge > 0 {
		add("Batteries", "%s of %d photographs; the mains are steadier", count(p.Storage.Charges, "charge"), f.Charge)
	}
	return out
}

// PieceName names a piece: "2-5", "2-5 (1 of 3)".
func (p Plan) PieceName(piece Piece) string {
	name := p.Shots[piece.Shot].Name
	if piece.Parts > 1 {
		name += fmt.Sprintf(" (%d of %d)", piece.Part, piece.Parts)
	}
	return name
}

// words says a pace: "2.5 min for an exposure, 24 in an hour (usual)".
func (p Pace) words() string {
	out := fmt.Sprintf("%.3g min for an exposure, %.3g in an hour (%s", p.Minutes, 60/p.Minutes, p.From)
	if p.Entries > 0 {
		out += fmt.Sprintf("; %s logged, from %.3g to %.3g min", count(p.Exposures, "exposure"), p.Least, p.Most)
	}
	return out + ")"
}

func count(n int64, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func copies(n int) string {
	if n == 1 {
		return "1 copy"
	}
	return fmt.Sprintf("%d copies", n)
}
