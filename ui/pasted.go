package ui

import (
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// maxPasted is the longest text that is looked through for paths, in bytes.
const maxPasted = 1 << 20

// pathsIn returns the paths of files that a text is made of, one a line: as they
// are, in quotes, after "file://" with escapes, several in quotes on a line. Of a
// text that holds anything else it returns none.
func pathsIn(text string) []string {
	if len(text) > maxPasted {
		return nil
	}
	var out []string
	for k, line := range strings.Split(strings.ReplaceAll(text, "\r", "\n"), "\n") {
		line = strings.Trim(line, " \t\x00")
		switch {
		case line == "":
			continue
		case strings.HasPrefix(line, "#"): // a remark in a list of addresses (RFC 2483, 5)
			continue
		case k < 2 && (line == "copy" || line == "cut" || strings.HasPrefix(line, "x-special/")):
			continue // what some file managers put above their list
		}
		found := pathsOnLine(line)
		if len(found) == 0 {
			return nil
		}
		out = append(out, found...)
	}
	return out
}

// pathsOnLine reads one line.
func pathsOnLine(line string) []string {
	if line[0] == '\'' || line[0] == '"' {
		return quotedPaths(line)
	}
	if path, ok := addressPath(line); ok {
		return []string{path}
	}
	if strings.HasPrefix(line, "~/") {
		line = filepath.Join(homeFolder(), line[2:])
	}
	if !filepath.IsAbs(line) {
		return nil
	}
	if _, err := os.Stat(line); err != nil { // as typed on a command line
		if plain := strings.ReplaceAll(line, `\ `, " "); plain != line {
			line = plain
		}
	}
	return []string{filepath.Clean(line)}
}

// quotedPaths reads paths in quotes with blanks between them.
func quotedPaths(line string) []string {
	var out []string
	for line != "" {
		quote := line[0]
		if quote != '\'' && quote != '"' {
			return nil
		}
		path, rest, closed := strings.Cut(line[1:], string(quote))
		if !closed || path == "" {
			return nil
		}
		if p, ok := addressPath(path); ok {
			path = p
		}
		if !filepath.IsAbs(path) {
			return nil
		}
		out, line = append(out, filepath.Clean(path)), strings.TrimLeft(rest, " \t,")
	}
	return out
}

// addressPath returns the path in an address that begins with "file:" (RFC 8089).
func addressPath(s string) (string, bool) {
	if len(s) < 5 || !strings.EqualFold(s[:5], "file:") {
		return "", false
	}
	u, err := url.Parse(s)
	if err != nil || u.Host != "" && !strings.EqualFold(u.Host, "localhost") && u.Host != hostName() {
		return "", false
	}
	path := u.Path
	if runtime.GOOS == "windows" {
		path = filepath.FromSlash(strings.TrimPrefix(path, "/"))
	}
	return filepath.Clean(path), filepath.IsAbs(path)
}

func hostName() string {
	name, err := os.Hostname()
	if err != nil {
		return "localhost"
	}
	return name
}
