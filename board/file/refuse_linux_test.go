package file

import (
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"syscall"
	"testing"
)

func TestOpenRefusesWhatIsNoFile(t *testing.T) {
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe")
	if err := syscall.Mkfifo(pipe, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, path string
		is         error
		want       string
	}{
		{"nothing", filepath.Join(folder, "a.stillbeat"), fs.ErrNotExist, `open film "a.stillbeat": there is no such file or folder`},
		{"a folder", folder, ErrNotFilm, `open film "` + filepath.Base(folder) + `": this is a folder, not a film`},
		{"a pipe", pipe, ErrNotFilm, `open film "pipe": this is a pipe or device, not a film`},
		{"a name with a zero byte", "a\x00b", nil, `open film "a\x00b": invalid argument`},
		{"a name that is too long", strings.Repeat("a", 300), nil, `open film "` + strings.Repeat("a", 300) + `": file name too long`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := Open(c.path)
			checkError(t, err, c.is, c.want)
		})
	}
	if names := filesIn(t, folder); !reflect.DeepEqual(names, []string{"pipe"}) {
		t.Errorf("the folder holds %q", names)
	}
}

func TestOpenWithoutPermission(t *testing.T) {
	film, _ := goodFilm(t)
	for _, c := range []struct {
		name string
		mode fs.FileMode
	}{{"not readable", 0}, {"not writable", 0o444}} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(publicFolder(t), "a.stillbeat")
			mustWrite(t, path, film)
			if err := os.Chmod(path, c.mode); err != nil {
				t.Fatal(err)
			}
			var err error
			asNobody(t, func() { _, _, err = Open(path) })
			checkError(t, err, fs.ErrPermission, `open film "a.stillbeat": no permission to read and write it`)
			checkUntouched(t, path, film)
		})
	}
}

// publicFolder returns a folder that asNobody can look into.
func publicFolder(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.Chmod(filepath.Dir(folder), 0o755); err != nil {
		t.Fatal(err)
	}
	return folder
}

// asNobody runs do without the powers of an administrator. They belong to
// the thread, which ends with its goroutine.
func asNobody(t *testing.T, do func()) {
	t.Helper()
	done := make(chan struct{})
	go func() {
		defer close(done)
		if os.Geteuid() == 0 {
			runtime.LockOSThread()
			syscall.Setfsuid(65534)
		}
		do()
	}()
	<-done
}
