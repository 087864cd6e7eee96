package file

import (
	"bytes"
	"encoding/binary"

	"stillbeat/board"
)

// text is a board as it is written: its JSON and, apart, that of its grid.
type text struct {
	board, grid         []byte
	boardHash, gridHash []byte
	of                  board.Grid // what grid was written from
}

// newText encodes a board; old is another board's text, whose grid is not
// written again if the board shares it.
func newText(b board.Board, old text) (t text, err error) {
	if t.board, err = encodeBoard(b); err != nil {
		return text{}, err
	}
	t.boardHash = sum(t.board)
	t.of = b.Grid
	if old.grid != nil && sameGrid(b.Grid, old.of) {
		t.grid, t.gridHash = old.grid, old.gridHash
		return t, nil
	}
	if t.grid, err = encode(b.Grid, maxJSON); err != nil {
		return text{}, err
	}
	t.gridHash = sum(t.grid)
	return t, nil
}

// decode reads a text whose hashes are right; old is another board's text,
// whose grid is shared if it is the same. The board keeps the rules.
func (t *text) decode(old text) (b board.Board, err error) {
	if b, err = decodeBoard(t.board); err != nil {
		return board.Board{}, err
	}
	if old.grid != nil && bytes.Equal(t.gridHash, old.gridHash) {
		b.Grid = old.of
	} else if b.Grid, err = decodeGrid(t.grid); err != nil {
		return board.Board{}, err
	}
	t.of = b.Grid
	return b, check(b)
}

// hash names the text.
func (t text) hash() []byte { return sum(append(bytes.Clone(t.boardHash), t.gridHash...)) }

// patchTo returns what leads from t to another text and back, packed.
func (t text) patchTo(next text) []byte {
	inBoard := makePatch(t.board, next.board)
	out := append(binary.AppendUvarint(nil, uint64(len(inBoard))), inBoard...)
	if !bytes.Equal(t.gridHash, next.gridHash) {
		out = append(out, makePatch(t.grid, next.grid)...)
	}
	return pack(out)
}

// patched returns the text a packed patch leads to from t, back or forth.
func (t text) patched(packed []byte, back bool) (out text, err error) {
	patch, err := unpack(packed)
	if err != nil {
		return text{}, err
	}
	n, used := binary.Uvarint(patch)
	if used <= 0 || n > uint64(len(patch)-used) {
		return text{}, errPatch
	}
	inBoard, inGrid := patch[used:used+int(n)], patch[used+int(n):]
	if out.board, err = applyPatch(t.board, inBoard, back, maxJSON); err != nil {
		return text{}, err
	}
	if out.grid, err = applyPatch(t.grid, inGrid, back, maxJSON); err != nil {
		return text{}, err
	}
	out.boardHash, out.gridHash = sum(out.board), sum(out.grid)
	return out, nil
}

// spare returns the text packed in one piece.
func (t text) spare() []byte {
	out := append(binary.AppendUvarint(nil, uint64(len(t.board))), t.board...)
	return pack(append(out, t.grid...))
}

// fromSpare is the text in a packed piece.
func fromSpare(packed []byte) (t text, err error) {
	data, err := unpack(packed)
	if err != nil {
		return text{}, err
	}
	n, used := binary.Uvarint(data)
	if used <= 0 || n > uint64(len(data)-used) {
		return text{}, errPatch
	}
	t.board, t.grid = data[used:used+int(n)], data[used+int(n):]
	t.boardHash, t.gridHash = sum(t.board), sum(t.grid)
	return t, nil
}
