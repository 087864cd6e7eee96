package file

import "syscall"

// freeSpace returns how many bytes can be written into a folder. Tests replace
// it.
var freeSpace = func(folder string) (bytes int64, known bool) {
	var s syscall.Statfs_t
	if err := syscall.Statfs(folder, &s); err != nil {
		return 0, false
	}
	return int64(s.Bavail) * s.Bsize, true
}
