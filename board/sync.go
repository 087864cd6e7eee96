package board

import "math"

// SyncLimit is how far sound and picture may lie apart by one document.
type SyncLimit struct {
	Name   string
	Early  float64 // ms the sound may be ahead of the picture
	Late   float64 // ms it may be behind
	Source string
}

// SyncLimits are the limits SyncTable compares with. The documents' own text
// was not read: the sources are where the figures were found.
var SyncLimits = []SyncLimit{
	{"ITU-R BT.1359-1, acceptable", 90, 185, "articles on sync at tvtechnology.com"},
	{"ITU-R BT.1359-1, detectable", 45, 125, "articles on sync at tvtechnology.com"},
	{"ITU-R BS.1204, film: picture leads 2 frames, lags 1", 1000.0 / 24, 2000.0 / 24, "abstract of BS.1204"},
	{"EBU R37, end of chain", 40, 60, "tech.ebu.ch"},
	{"ATSC IS-191", 15, 45, "articles on sync at tvtechnology.com"},
	{"ITU-R BR.265, film: half a frame", 500.0 / 24, 500.0 / 24, "abstract of BS.1204"},
}

// SyncRow says how well beats can be met at one frame rate when each is put on
// the frame nearest to it.
type SyncRow struct {
	Rate  FrameRate
	Worst float64 // ms from a beat to its frame, at most
	Mean  float64 // ms, on average
	Early float64 // ms the sound is ahead of its frame, at most
	Late  float64 // ms it is behind, at most
	Keeps []bool  // for each of SyncLimits, whether all beats keep it
	Tempo float64 // beats per minute nearest to the film's at which beats are whole frames long
	Beat  int64   // frames per beat at that tempo
}

// Kept returns how many of SyncLimits all beats keep.
func (r SyncRow) Kept() int {
	n := 0
	for _, k := range r.Keeps {
		if k {
			n++
		}
	}
	return n
}

// ShootingRates are the rates a film is commonly shot at, for SyncTable.
var ShootingRates = []FrameRate{{8, 1}, {12, 1}, {15, 1}, {24, 1}, {25, 1}, {30, 1}}

// SyncTable returns a row for each rate, nil without beats. Beats before the
// film are left out.
func SyncTable(b Board, rates []FrameRate) []SyncRow {
	if !b.OnGrid() {
		return nil
	}
	rows := make([]SyncRow, len(rates))
	for i, r := range rates {
		rows[i] = b.syncRow(r)
	}
	return rows
}

func (b Board) syncRow(r FrameRate) SyncRow {
	row := SyncRow{Rate: r}
	n := 0
	for _, beat := range b.Grid.Beats {
		t := b.SongOffset() + beat.Time
		if t < 0 {
			continue
		}
		early := 1000 * (r.Seconds(r.Nearest(t)) - t)
		row.Early, row.Late = max(row.Early, early), max(row.Late, -early)
		row.Mean += math.Abs(early)
		n++
	}
	row.Worst = max(row.Early, row.Late)
	row.Mean /= float64(max(1, n))
	for _, l := range SyncLimits {
		row.Keeps = append(row.Keeps, row.Early <= l.Early+slack && row.Late <= l.Late+slack)
	}
	row.Tempo, row.Beat = r.WholeFrames(b.Grid.tempo())
	return row
}

// WholeFrames returns the tempo nearest to bpm at which a beat is a whole
// number of frames, 60 * rate / frames, and that number.
func (r FrameRate) WholeFrames(bpm float64) (tempo float64, frames int64) {
	perMinute := 60 * r.Float()
	few := max(1, int64(perMinute/bpm))
	fast, slow := perMinute/float64(few), perMinute/float64(few+1)
	if math.Abs(fast-bpm) <= math.Abs(slow-bpm) {
		return fast, few
	}
	return slow, few + 1
}
