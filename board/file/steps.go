package file

import (
	"database/sql"
	"encoding/json"
	"fmt"

	"stillbeat/board"
)

// writePast makes the history on disk that of the change.
func (c *change) writePast(tx *sql.Tx) error {
	steps, spares := []board.StepID{}, []board.StepID{}
	for _, r := range c.rows {
		if c.patches[r.id] == nil {
			steps = append(steps, r.id)
		}
	}
	for _, s := range c.spares {
		spares = append(spares, s.id)
	}
	if err := deleteOthers(tx, "history", steps); err != nil {
		return err
	}
	if err := deleteOthers(tx, "spare", spares); err != nil {
		return err
	}
	for _, r := range c.rows {
		if patch, ok := c.patches[r.id]; ok {
			if err := insertStep(tx, r, patch); err != nil {
				return err
			}
		}
	}
	if c.spare == nil {
		return nil
	}
	_, err := tx.Exec(`INSERT INTO spare (id, hash, data) VALUES (?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET hash = excluded.hash, data = excluded.data`, int64(c.at), c.now.hash(), c.spare)
	return err
}

// insertStep adds a step with its patch.
func insertStep(tx *sql.Tx, r row, patch []byte) error {
	if _, err := tx.Exec(`INSERT INTO history (id, name, before, after) VALUES (?, ?, ?, ?)`, int64(r.id), r.name, r.before, r.after); err != nil {
		return err
	}
	_, err := tx.Exec(`INSERT INTO patch (id, data) VALUES (?, ?)`, int64(r.id), patch)
	return err
}

// deleteOthers deletes the rows of a table whose ids are not in keep.
func deleteOthers(tx *sql.Tx, table string, keep []board.StepID) error {
	ids, err := json.Marshal(keep)
	if err != nil {
		return err
	}
	_, err = tx.Exec(`DELETE FROM `+table+` WHERE id NOT IN (SELECT value FROM json_each(?))`, string(ids))
	return err
}

// readRows returns the newest steps there are, oldest first.
func readRows(tx *sql.Tx) (out []row, err error) {
	found, err := tx.Query(fmt.Sprintf(`SELECT h.id, h.name, h.before, h.after, length(p.data)
		FROM history h JOIN patch p ON p.id = h.id
		WHERE max(length(h.name), length(h.before), length(h.after)) <= %d ORDER BY h.id DESC LIMIT %d`, maxName, board.MaxHistory))
	if err != nil {
		return nil, err
	}
	defer found.Close()
	for found.Next() {
		var r row
		if err := found.Scan(&r.id, &r.name, &r.before, &r.after, &r.size); err != nil {
			return nil, err
		}
		out = append([]row{r}, out...)
	}
	return out, found.Err()
}

// readSpares returns the spare boards there are.
func readSpares(tx *sql.Tx) (out []spare, err error) {
	found, err := tx.Query(fmt.Sprintf(`SELECT id, hash, length(data) FROM spare WHERE length(hash) <= %d ORDER BY id LIMIT %d`, maxName, board.MaxHistory))
	if err != nil {
		return nil, err
	}
	defer found.Close()
	for found.Next() {
		var s spare
		if err := found.Scan(&s.id, &s.hash, &s.size); err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, found.Err()
}
