package ui

import (
	"context"
	"image"

	"stillbeat/board"
	"stillbeat/board/share"
	"stillbeat/board/share/guess"
	reviewpage "stillbeat/board/share/page"
	"stillbeat/board/share/printed"
)

// How large exports get, from a part of what goes into them.

func guessMP4(ctx context.Context, e *export) (guess.Size, error) {
	return share.Estimate(ctx, e.board, e.desk.Pictures, e.sound, e.opts)
}

func guessGIF(ctx context.Context, e *export) (guess.Size, error) {
	return share.EstimateGIF(ctx, e.board, e.desk.Pictures, e.opts)
}

func guessPNG(ctx context.Context, e *export) (guess.Size, error) {
	if e.choice.Each == eachFrame {
		return share.EstimateFrames(ctx, e.board, e.desk.Pictures, e.opts)
	}
	return share.EstimatePanels(ctx, e.board, e.desk.Pictures, e.opts)
}

func guessWAV(_ context.Context, e *export) (guess.Size, error) {
	return share.SizeOfWAV(e.board, e.sound, e.opts)
}

func guessPage(ctx context.Context, e *export) (guess.Size, error) {
	return reviewpage.Estimate(ctx, e.board, e.desk.Pictures, e.pageOptions())
}

func guessPDF(ctx context.Context, e *export) (guess.Size, error) {
	return printed.Estimate(ctx, e.board, e.desk.Pictures, e.paperOptions())
}

// seenFrame draws a frame as it is written, no larger than it is shown.
func seenFrame(e *export, n board.Frame, wide, high int) (image.Image, error) {
	small := e.opts
	small.Width, small.Height = e.board.Aspect.Inside(wide, high)
	return share.Still(e.board, e.desk.Pictures, n, small)
}

// seenPaper draws the page that has the panel at a frame.
func seenPaper(e *export, n board.Frame, wide, high int) (image.Image, error) {
	panel := board.PanelAt(e.board.Starts(), n)
	return printed.Preview(e.board, e.desk.Pictures, e.paperOptions(), panel/e.choice.PerPage, min(high, 3*wide/2))
}
