package board

import (
	"math"
	"strings"
	"testing"
)

func TestCheckRefuses(t *testing.T) {
	long := strings.Repeat("x", MaxText+1)
	for name, c := range map[string]struct {
		spoil func(*Board)
		want  string
	}{
		"no rate":                 {func(b *Board) { b.Rate = FrameRate{} }, "frame rate"},
		"rate too fast":           {func(b *Board) { b.Rate = FrameRate{121, 1} }, "frame rate"},
		"film on zeros":           {func(b *Board) { b.Step = 0 }, "step"},
		"film on thirteens":       {func(b *Board) { b.Step = 13 }, "step"},
		"title too long":          {func(b *Board) { b.Title = long }, "title"},
		"title not text":          {func(b *Board) { b.Title = "\xff" }, "title"},
		"no next id":              {func(b *Board) { b.NextID = 0; b.Panels = nil }, "ids count from 1"},
		"id used twice":           {func(b *Board) { b.Panels[1].ID = b.Panels[0].ID }, "panel 2 has the id 1"},
		"id zero":                 {func(b *Board) { b.Panels[0].ID = 0 }, "panel 1 has the id 0"},
		"id never given out":      {func(b *Board) { b.Panels[2].ID = b.NextID }, "panel 3 has the id 4"},
		"a picture of no height":  {func(b *Board) { b.Aspect = Aspect{16, 0} }, "makes no sense"},
		"a picture too narrow":    {func(b *Board) { b.Aspect = Aspect{1, 5} }, "too narrow"},
		"placed too far away":     {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Fit: ByHand, At: Point{0, 21}}} }, "panel 2"},
		"placed at no place":      {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Fit: ByHand, At: Point{math.NaN(), 0}}} }, "panel 2"},
		"scaled to nothing":       {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Fit: ByHand, Scale: 0.001}} }, "panel 2"},
		"scaled without a number": {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Fit: ByHand, Scale: math.NaN()}} }, "panel 2"},
		"turned without a hand":   {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Turn: 5}} }, "by hand alone"},
		"fitted somehow":          {func(b *Board) { b.Panels[1].Drawn = &Drawn{Placed: Placement{Fit: "somehow"}} }, "panel 2"},
		"framed by nothing":       {func(b *Board) { b.Panels[1].Drawn = &Drawn{Travel: CameraMove{To: Framing{Width: math.NaN()}}} }, "panel 2"},
		"framed by a pinhole":     {func(b *Board) { b.Panels[1].Drawn = &Drawn{Travel: CameraMove{From: Framing{Width: 0.001}}} }, "panel 2"},
		"spaced somehow":          {func(b *Board) { b.Panels[1].Drawn = &Drawn{Travel: CameraMove{Spacing: "somehow"}} }, "panel 2"},
		"lettered somehow":        {func(b *Board) { b.Panels[1].Drawn = &Drawn{Lettering: []Letter{{Kind: "somehow"}}} }, "panel 2"},
		"lettered in no ink":      {func(b *Board) { b.Panels[1].Drawn = &Drawn{Lettering: []Letter{{Kind: Label, Ink: "red"}}} }, "panel 2"},
		"lettered too large":      {func(b *Board) { b.Panels[1].Drawn = &Drawn{Lettering: []Letter{{Kind: Label, Size: 3}}} }, "panel 2"},
		"lettering too long": {func(b *Board) {
			b.Panels[1].Drawn = &Drawn{Lettering: []Letter{{Kind: Label, Text: long[:MaxLetters+1]}}}
		}, "panel 2"},
		"lettered all over":       {func(b *Board) { b.Panels[1].Drawn = &Drawn{Lettering: make([]Letter, MaxLettering+1)} }, "at most 100"},
		"a note before its panel": {func(b *Board) { b.Panels[1].FrameNotes = &FrameNotes{{-1, "x"}} }, "panel 2: a note -1 seconds"},
		"a note at no time":       {func(b *Board) { b.Panels[1].FrameNotes = &FrameNotes{{math.NaN(), "x"}} }, "panel 2: a note NaN seconds"},
		"a note without words":    {func(b *Board) { b.Panels[1].FrameNotes = &FrameNotes{{0, ""}} }, "panel 2: a note on a frame is empty"},
		"notes out of order":      {func(b *Board) { b.Panels[1].FrameNotes = &FrameNotes{{1, "x"}, {0, "y"}} }, "panel 2: the notes on its frames"},
		"too many notes": {func(b *Board) {
			notes := make(FrameNotes, MaxFrameNotes+1)
			b.Panels[1].FrameNotes = &notes
		}, "panel 2: 1001 notes"},
		"panel on minus ones":     {func(b *Board) { b.Panels[1].Step = -1 }, "panel 2 is on -1s"},
		"panel on thirteens":      {func(b *Board) { b.Panels[1].Step = 13 }, "panel 2 is on 13s"},
		"start not a number":      {func(b *Board) { b.Panels[1].Start.Time = math.NaN() }, "panel 2"},
		"start at no time":        {func(b *Board) { b.Panels[1].Start.Time = math.Inf(-1) }, "panel 2"},
		"start after three hours": {func(b *Board) { b.Panels[1].Start.Time = MaxSeconds + 1 }, "panel 2"},
		"end not a number":        {func(b *Board) { b.End.Time = math.NaN() }, "the end of the film"},
		"part past the beat":      {func(b *Board) { b.Panels[1].Start.Anchor = Anchor{Of: 4, Part: 4} }, "makes no sense"},
		"negative part":           {func(b *Board) { b.Panels[1].Start.Anchor = Anchor{Of: 4, Part: -1} }, "makes no sense"},
		"too many parts":          {func(b *Board) { b.Panels[1].Start.Anchor = Anchor{Of: MaxParts + 1} }, "makes no sense"},
		"negative parts":          {func(b *Board) { b.Panels[1].Start.Anchor = Anchor{Of: -1} }, "makes no sense"},
		"beat out of sight":       {func(b *Board) { b.Panels[1].Start.Anchor = Anchor{Of: 1, Beat: math.MinInt} }, "makes no sense"},
		"offset out of sight":     {func(b *Board) { b.End.Anchor = Anchor{Of: 1, Offset: math.MaxInt64} }, "makes no sense"},
		"film too long":           {func(b *Board) { b.End = Free(MaxSeconds); b.Panels[2].Start = Free(MaxSeconds) }, "the longest is 3"},
		"words too long":          {func(b *Board) { b.Panels[0].Note = long }, "panel 1 has a text"},
		"words not text":          {func(b *Board) { b.Panels[0].Sound = "a\xc3" }, "panel 1 has a text"},
		"too many panels":         {func(b *Board) { b.Panels = make([]Panel, MaxPanels+1) }, "20001 panels"},
		"beats run back":          {func(b *Board) { b.Grid.Beats[1].Time = 5 }, "ascending"},
		"beat not a number":       {func(b *Board) { b.Grid.Beats[1].Time = math.NaN() }, "ascending"},
		"beat at no time":         {func(b *Board) { b.Grid.Beats[0].Time = math.Inf(-1) }, "ascending"},
		"beats too close":         {func(b *Board) { b.Grid.Beats[1].Time = b.Grid.Beats[0].Time + 1e-9 }, "apart"},
		"onsets run back":         {func(b *Board) { b.Grid.Onsets[1].Time = 0 }, "onsets"},
		"onset not a number":      {func(b *Board) { b.Grid.Onsets[0].Time = math.NaN() }, "onsets"},
		"onset after three hours": {func(b *Board) { b.Grid.Onsets[1].Time = 1e300 }, "onsets"},
		"strength not a number":   {func(b *Board) { b.Grid.Onsets[0].Strength = math.NaN() }, "onsets"},
		"tempo not a number":      {func(b *Board) { b.Grid.Tempo = math.NaN() }, "tempo"},
		"confidence infinite":     {func(b *Board) { b.Grid.Confidence = math.Inf(1) }, "tempo"},
		"bars of one beat":        {func(b *Board) { b.Grid.Beats[1].Metre = 1 }, "bars of 1 beats from beat 2"},
		"bars of thirteen":        {func(b *Board) { b.Grid.Beats[1].Metre = 13 }, "bars of 13 beats"},
		"too many beats":          {func(b *Board) { b.Grid.Beats = make([]Beat, MaxBeats+1) }, "500001 beats"},
		"unsure of nothing":       {func(b *Board) { b.Grid.Unsure[0].To = b.Grid.Unsure[0].From }, "unsure"},
		"lock without an end":     {func(b *Board) { b.Grid.Locks[0].To = math.Inf(1) }, "locked"},
		"lock without a start":    {func(b *Board) { b.Grid.Locks[0].From = math.NaN() }, "locked"},
		"locks that touch":        {func(b *Board) { b.Grid.Locks = []Stretch{{0, 1}, {1, 2}} }, "locked"},
		"too many locks":          {func(b *Board) { b.Grid.Locks = manyStretches(MaxStretches + 1) }, "locked"},
		"moved over no panels":    {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Last = 99 }) }, "no run of panels"},
		"moved backwards":         {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.First, m.Last = m.Last, m.First }) }, "no run of panels"},
		"moved without an id":     {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.ID = 0 }) }, "move 1 has the id 0"},
		"two moves of one id":     {func(b *Board) { b.Moves = append(oneMove(b, nil), oneMove(b, nil)...) }, "move 2 has the id 1"},
		"moved somehow":           {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Manner = "somehow" }) }, "no way to move"},
		"moved nowhere":           {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Keys = m.Keys[:1] }) }, "a path of 1 keys"},
		"moved at no place":       {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Keys[1].Y = math.NaN() }) }, "key 2"},
		"moved out of the house":  {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Keys[0].Height = 1e6 }) }, "key 1"},
		"moved to no scale":       {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Scale = math.Inf(1) }) }, "scale"},
		"moved to a scale below":  {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Scale = -6 }) }, "scale"},
		"rebounds for ever":       {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Rebound = 1 }) }, "rebound"},
		"never damped":            {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Damping = math.NaN() }) }, "damping"},
		"anticipates backwards":   {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Anticipate = -0.1 }) }, "anticipation"},
		"hits what is not there":  {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Hits = []Hit{{Moment: 2}} }) }, "moment 2"},
		"hits one moment twice":   {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Hits = make([]Hit, 2) }) }, "moment 0"},
		"hits at no time":         {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Hits = []Hit{{1, Free(math.NaN())}} }) }, "move 1"},
		"a set seen from nowhere": {func(b *Board) { b.Moves = oneMove(b, func(m *ObjectMove) { m.Sight.At.X = 21 }) }, "move 1"},
		"trim not a number":       {func(b *Board) { b.Song.TrimIn = math.NaN() }, "trim"},
		"trim the wrong way":      {func(b *Board) { b.Song.TrimOut = -1 }, "trim"},
		"fade without an end":     {func(b *Board) { b.Song.FadeIn = math.Inf(1) }, "fade"},
		"fade the wrong way":      {func(b *Board) { b.Song.FadeOut = -0.1 }, "fade"},
		"trims take all":          {func(b *Board) { b.Song.TrimIn = 1.875 }, "leave nothing"},
		"fades overlap":           {func(b *Board) { b.Song.FadeOut = 1.2 }, "do not fit"},
		"gain not a number":       {func(b *Board) { b.Song.Gain = math.NaN() }, "gain"},
		"too loud":                {func(b *Board) { b.Song.Gain = 12.5 }, "gain of 12.5 dB"},
		"too soft":                {func(b *Board) { b.Song.Gain = -61 }, "gain of -61 dB"},
		"song starts nowhere":     {func(b *Board) { b.Song.Offset = math.NaN() }, "impossible"},
		"song of negative length": {func(b *Board) { b.Song.Seconds = -1 }, "impossible"},
		"song of endless length":  {func(b *Board) { b.Song.Seconds = math.Inf(1) }, "impossible"},
		"song name too long":      {func(b *Board) { b.Song.Name = long }, "impossible"},
	} {
		t.Run(name, func(t *testing.T) {
			b := do(t, small(t), Duplicate(one(0)))
			c.spoil(&b)
			err := b.Check()
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("Check() = %v, want an error that says %q", err, c.want)
			}
			if strings.Contains(err.Error(), "\n") || len(err.Error()) > 200 {
				t.Errorf("not one short line: %q", err)
			}
		})
	}
}

// oneMove returns a move over the first two panels, spoilt.
func oneMove(b *Board, spoil func(*ObjectMove)) []ObjectMove {
	m := ObjectMove{ID: 1, First: b.Panels[0].ID, Last: b.Panels[1].ID, Keys: []Spot{{}, {X: 40}}}
	if spoil != nil {
		spoil(&m)
	}
	return []ObjectMove{m}
}

// manyStretches returns n stretches in order.
func manyStretches(n int) []Stretch {
	out := make([]Stretch, n)
	for i := range out {
		out[i] = Stretch{float64(i) / 8, float64(i)/8 + 0.0625}
	}
	return out
}
