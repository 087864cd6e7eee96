package page

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html"
	"io"
	"strings"
)

//go:embed web
var web embed.FS

// scripts are the parts of the page's script, in their order.
var scripts = []string{"film.js", "pictures.js", "player.js", "strip.js", "notes.js", "save.js", "start.js"}

// script and style are what runs and how it looks, the same in every page.
var (
	script = "\"use strict\";\n" + read(scripts...)
	style  = read("page.css")
	shell  = read("page.html")
)

func read(names ...string) string {
	var out strings.Builder
	for _, name := range names {
		data, err := web.ReadFile("web/" + name)
		if err != nil {
			panic(err) // it is embedded
		}
		out.Write(data)
	}
	return out.String()
}

// policy lets a page run its own script and style, which are told by their
// hashes, show pictures and play sound that it holds, and nothing else: neither
// what comes from elsewhere nor what found its way into a text.
func policy() string {
	hash := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return "default-src 'none'; script-src " + hash(script) + "; style-src " + hash(style) +
		"; img-src data:; media-src blob:; base-uri 'none'; form-action 'none'"
}

// writer writes the parts of a page in their order; the first error stays.
type writer struct {
	out io.Writer
	err error
}

func (w *writer) put(parts ...string) {
	for _, p := range parts {
		if w.err == nil {
			_, w.err = io.WriteString(w.out, p)
		}
	}
}

// head is everything before the film.
func (w *writer) head(title string) {
	if strings.TrimSpace(title) == "" {
		title = "A film to look at"
	}
	w.put(strings.NewReplacer(
		"{{policy}}", html.EscapeString(policy()),
		"{{title}}", html.EscapeString(title),
		"{{style}}", style,
	).Replace(shell))
}

// data puts the document where the script finds it. Go writes <, > and & in
// JSON as escapes, so that no text can end the element.
func (w *writer) data(d document) {
	text, err := json.Marshal(d)
	if err != nil && w.err == nil {
		w.err = err
	}
	w.put(`<script type="application/json" id="data">`, string(text), "</script>\n")
}

func (w *writer) picture(n int, data []byte) error {
	w.put(fmt.Sprintf(`<script type="text/plain" id="p%d">`, n))
	w.base64(data)
	w.put("</script>\n")
	return w.err
}

// sound is put even where there is none, empty.
func (w *writer) sound(data []byte) {
	w.put(`<script type="text/plain" id="sound">`)
	w.base64(data)
	w.put("</script>\n")
}

func (w *writer) base64(data []byte) {
	if w.err != nil {
		return
	}
	e := base64.NewEncoder(base64.StdEncoding, w.out)
	if _, w.err = e.Write(data); w.err == nil {
		w.err = e.Close()
	}
}

func (w *writer) tail() { w.put("<script>", script, "</script>\n</body>\n</html>\n") }
