package main

import (
	"stillbeat/board"
	"stillbeat/board/plan"
)

// planReport is the document of plan --json. Times are minutes, the contingency
// in them.
type planReport struct {
	File     string        `json:"file"`
	Take     int64         `json:"exposures_to_take"`
	OnSheet  int64         `json:"exposures_on_sheet"`
	Plates   int64         `json:"clean_plates"`
	Minutes  float64       `json:"minutes"`
	Desk     float64       `json:"desk_minutes"`
	Pace     planPace      `json:"pace"`
	Storage  planStorage   `json:"storage"`
	Scenes   []planScene   `json:"scenes"`
	Shots    []planShot    `json:"shots"`
	Sessions []planSession `json:"sessions"`
	Findings []planFinding `json:"findings"`
}

type planPace struct {
	Minutes float64     `json:"minutes_per_exposure"`
	From    plan.Source `json:"from"`
	Logged  int64       `json:"logged_exposures"`
	Least   float64     `json:"logged_least_minutes"`
	Most    float64     `json:"logged_most_minutes"`
}

type planStorage struct {
	Photographs int64   `json:"photographs"`
	Megabytes   float64 `json:"megabytes"`
	Copies      float64 `json:"megabytes_of_all_copies"`
	Charges     int64   `json:"charges"`
}

type planScene struct {
	Scene   string  `json:"scene"`
	Take    int64   `json:"exposures_to_take"`
	OnSheet int64   `json:"exposures_on_sheet"`
	Minutes float64 `json:"minutes"`
}

type planShot struct {
	Shot    string      `json:"shot"`
	Take    int64       `json:"exposures_to_take"`
	OnSheet int64       `json:"exposures_on_sheet"`
	Minutes float64     `json:"minutes"`
	Risks   []plan.Risk `json:"risks"`
	Plate   bool        `json:"clean_plate"`
	Objects []string    `json:"moving_objects"`
	Panels  []planPanel `json:"panels"`
}

type planPanel struct {
	Panel   string  `json:"panel"`
	Take    int64   `json:"exposures_to_take"`
	OnSheet int64   `json:"exposures_on_sheet"`
	Still   bool    `json:"still"`
	Repeats *string `json:"repeats"` // the panel that it shows again, or null
}

type planSession struct {
	Minutes float64     `json:"minutes"`
	Take    int64       `json:"exposures_to_take"`
	Storage planStorage `json:"storage"`
	Pieces  []planPiece `json:"shots"`
}

type planPiece struct {
	Shot    string  `json:"shot"`
	Part    int     `json:"part"`
	Parts   int     `json:"parts"`
	First   int64   `json:"first_exposure"`
	Take    int64   `json:"exposures_to_take"`
	SetUp   float64 `json:"setup_minutes"`
	Minutes float64 `json:"minutes"`
}

type planFinding struct {
	Panel  string    `json:"panel"`
	Kind   plan.Kind `json:"kind"`
	Reason string    `json:"reason"`
}

func newPlanStorage(s plan.Storage) planStorage {
	return planStorage{s.Photographs, micro(s.Megabytes), micro(s.Copies), s.Charges}
}

func newPlanReport(path string, b board.Board, p plan.Plan) planReport {
	numbers := b.Numbers()
	r := planReport{
		File: path, Take: p.Take, OnSheet: p.OnSheet, Plates: p.Plates, Minutes: micro(p.Minutes), Desk: micro(p.Desk),
		Pace:     planPace{micro(p.Pace.Minutes), p.Pace.From, p.Pace.Exposures, micro(p.Pace.Least), micro(p.Pace.Most)},
		Storage:  newPlanStorage(p.Storage),
		Findings: []planFinding{},
	}
	for _, s := range p.Scenes {
		r.Scenes = append(r.Scenes, planScene{s.Name, s.Take, s.OnSheet, micro(s.Minutes)})
	}
	for _, s := range p.Shots {
		shot := planShot{s.Name, s.Take, s.OnSheet, micro(s.Minutes), append([]plan.Risk{}, s.Risks...), s.Plate, append([]string{}, s.Objects...), nil}
		for _, panel := range s.Panels {
			out := planPanel{Panel: numbers[panel.Panel], Take: panel.Take, OnSheet: panel.OnSheet, Still: panel.Still}
			if panel.Repeats >= 0 {
				out.Repeats = &numbers[panel.Repeats]
			}
			shot.Panels = append(shot.Panels, out)
		}
		r.Shots = append(r.Shots, shot)
	}
	for _, s := range p.Sessions {
		session := planSession{Minutes: micro(s.Minutes), Take: s.Take, Storage: newPlanStorage(s.Storage)}
		for _, piece := range s.Pieces {
			session.Pieces = append(session.Pieces, planPiece{p.Shots[piece.Shot].Name, piece.Part, piece.Parts, piece.First, piece.Take, micro(piece.SetUp), micro(piece.Minutes)})
		}
		r.Sessions = append(r.Sessions, session)
	}
	for _, f := range p.Findings(b) {
		r.Findings = append(r.Findings, planFinding{numbers[f.Panel], f.Kind, f.Reason})
	}
	return r
}
