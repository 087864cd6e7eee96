package paper_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"stillbeat/board/internal/paper"
)

// made is the time tests say a document was made.
var made = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func page(size paper.Size) *paper.Doc {
	d := paper.New(size, "Cup and spoon", made)
	d.AddPage()
	return d
}

func bytesOf(t testing.TB, d *paper.Doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if _, err := d.WriteTo(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// poppler runs a tool of poppler-utils, which reads PDF files by itself, on a
// document. "FILE" among the arguments is its name.
func poppler(t *testing.T, data []byte, tool string, args ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "out.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = file
		}
	}
	cmd := exec.Command(tool, args...)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s (of poppler-utils): %v %s", tool, err, complaints.String())
	}
	if complaints.Len() > 0 {
		t.Errorf("%s: %s", tool, complaints.String())
	}
	return string(out)
}
