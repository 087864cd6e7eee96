package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"stillbeat/board/beside"
	"stillbeat/board/desk"
	"stillbeat/board/share"
	"stillbeat/board/share/page"
)

// writePage writes the review page, with progress, and tells how much is in it.
func (a *app) writePage(ctx context.Context, d *desk.Desk, o shareOptions) error {
	var made page.Made
	err := a.withSound(ctx, d, o, func(s share.Options, sound soundOf) error {
		opts := page.Options{Silent: o.silent, Progress: s.Progress, Caution: strings.Join(o.cautions, " "),
			Height: o.height, Name: strings.TrimSuffix(filepath.Base(o.to), filepath.Ext(o.to))}
		return beside.Save(o.to, func(w io.Writer) (err error) {
			made, err = page.Write(ctx, w, d.Board(), d.Pictures, sound, opts)
			return err
		})
	})
	if err != nil {
		return err
	}
	return a.say("%s of %dx%d take %s, the page %s", count(made.Pictures, "picture"), made.Width, made.Height,
		inMegabytes(made.PictureBytes), inMegabytes(made.Bytes))
}

func inMegabytes(n int64) string { return fmt.Sprintf("%.1f MB", float64(n)/1e6) }
