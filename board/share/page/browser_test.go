package page

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

var shots = flag.String("shots", "", "folder to put pictures of the pages into")

// browser is Chromium without a window, driven over a pair of pipes by the
// DevTools protocol: JSON messages that end with a zero byte. It reaches no
// network, and every address it asks for is noted.
type browser struct {
	t       *testing.T
	in, out *os.File
	read    *bufio.Reader
	session string
	sent    int
	asked   []string // addresses
	wrong   []string // errors the page met
	loaded  bool
	folder  string // of downloads
	close   func()
}

// shared is the one browser of all tests, which takes a while to start.
var shared *browser

func TestMain(m *testing.M) {
	flag.Parse()
	code := m.Run()
	if shared != nil {
		shared.close()
	}
	os.Exit(code)
}

// newBrowser returns the browser for a test, with nothing noted yet.
func newBrowser(t *testing.T) *browser {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("pipes beside the usual three are not handed on there")
	}
	if shared == nil {
		b, err := started(t)
		if err != nil {
			t.Fatalf("chromium is needed to look at the page: %v", err)
		}
		shared = b
	}
	b := shared
	b.t, b.asked, b.wrong, b.folder = t, nil, nil, t.TempDir()
	session := b.session
	b.session = ""
	b.call("Browser.setDownloadBehavior", map[string]any{"behavior": "allow", "downloadPath": b.folder}, nil)
	b.session = session
	return b
}

// started starts the browser and attaches to its page.
func started(t *testing.T) (*browser, error) {
	var program string
	err := exec.ErrNotFound
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"} {
		if program, err = exec.LookPath(name); err == nil {
			break
		}
	}
	if err != nil {
		return nil, err
	}
	toRead, in, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	out, toWrite, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	profile, err := os.MkdirTemp("", "browser")
	if err != nil {
		return nil, err
	}
	args := []string{"--headless=new", "--remote-debugging-pipe", "--user-data-dir=" + profile, "--no-first-run",
		"--disable-gpu", "--disable-dev-shm-usage", "--autoplay-policy=no-user-gesture-required", "--disable-background-networking",
		"--disable-component-update", "--host-resolver-rules=MAP * ~NOTFOUND", "--lang=en-US"}
	if os.Getuid() == 0 {
		args = append(args, "--no-sandbox") // which root cannot have
	}
	cmd := exec.Command(program, append(args, "about:blank")...)
	cmd.ExtraFiles = []*os.File{toRead, toWrite}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	toRead.Close()
	toWrite.Close()
	b := &browser{t: t, in: in, out: out, read: bufio.NewReaderSize(out, 1<<16)}
	b.close = func() {
		b.session = ""
		b.write("Browser.close", nil)
		gone := make(chan error, 1)
		go func() { gone <- cmd.Wait() }()
		select {
		case <-gone:
		case <-time.After(10 * time.Second):
			cmd.Process.Kill()
			<-gone
		}
		os.RemoveAll(profile)
	}
	var target struct{ TargetID string }
	b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target)
	var attached struct{ SessionID string }
	b.call("Target.attachToTarget", map[string]any{"targetId": target.TargetID, "flatten": true}, &attached)
	b.session = attached.SessionID
	for _, domain := range []string{"Page", "Network", "Runtime", "Log"} {
		b.call(domain+".enable", nil, nil)
	}
	return b, nil
}

func (b *browser) write(method string, params any) {
	b.sent++
	message := map[string]any{"id": b.sent, "method": method}
	if params != nil {
		message["params"] = params
	}
	if b.session != "" {
		message["sessionId"] = b.session
	}
	data, err := json.Marshal(message)
	if err == nil {
		_, err = b.in.Write(append(data, 0))
	}
	if err != nil {
		b.t.Logf("to the browser: %v", err)
	}
}

type reply struct {
	ID     int
	Method string
	Params struct {
		Request          struct{ URL string }
		ExceptionDetails json.RawMessage
		Entry            struct{ Level, Text string }
	}
	Result json.RawMessage
	Error  *struct{ Message string }
}

// next reads a message and notes what happened in the page.
func (b *browser) next() reply {
	b.t.Helper()
	b.out.SetReadDeadline(time.Now().Add(time.Minute))
	data, err := b.read.ReadBytes(0)
	if err != nil {
		b.t.Fatalf("the browser says nothing more: %v", err)
	}
	var r reply
	if err := json.Unmarshal(data[:len(data)-1], &r); err != nil {
		b.t.Fatal(err)
	}
	switch r.Method {
	case "Network.requestWillBeSent":
		b.asked = append(b.asked, r.Params.Request.URL)
	case "Runtime.exceptionThrown":
		b.wrong = append(b.wrong, string(r.Params.ExceptionDetails))
	case "Log.entryAdded":
		if r.Params.Entry.Level == "error" {
			b.wrong = append(b.wrong, r.Params.Entry.Text)
		}
	case "Page.loadEventFired":
		b.loaded = true
	}
	return r
}

func (b *browser) call(method string, params, result any) {
	b.t.Helper()
	b.write(method, params)
	for id := b.sent; ; {
		r := b.next()
		if r.ID != id {
			continue
		}
		if r.Error != nil {
			b.t.Fatalf("%s: %s", method, r.Error.Message)
		}
		if result != nil {
			if err := json.Unmarshal(r.Result, result); err != nil {
				b.t.Fatal(err)
			}
		}
		return
	}
}

// open shows a page on a screen of so many pixels.
func (b *browser) open(path string, w, h int, phone bool) {
	b.t.Helper()
	b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": w, "height": h, "deviceScaleFactor": 1, "mobile": phone}, nil)
	b.loaded = false
	b.call("Page.navigate", map[string]any{"url": "file://" + path}, nil)
	for !b.loaded {
		b.next()
	}
}

// eval works out an expression in the page, waiting for what it promises.
func (b *browser) eval(expression string, result any) {
	b.t.Helper()
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails json.RawMessage
	}
	b.call("Runtime.evaluate", map[string]any{"expression": expression, "awaitPromise": true, "returnByValue": true, "userGesture": true}, &got)
	if got.ExceptionDetails != nil {
		b.t.Fatalf("%s: %s", expression, got.ExceptionDetails)
	}
	if result != nil {
		if err := json.Unmarshal(got.Result.Value, result); err != nil {
			b.t.Fatalf("%s: %v in %s", expression, err, got.Result.Value)
		}
	}
}

// key presses a key: "ArrowLeft", "Shift+ArrowLeft", "Ctrl+Enter", " ".
func (b *browser) key(name string) {
	b.t.Helper()
	modifiers := 0
	for prefix, bit := range map[string]int{"Shift+": 8, "Ctrl+": 2} {
		if rest, held := strings.CutPrefix(name, prefix); held {
			name, modifiers = rest, bit
		}
	}
	code := map[string]int{" ": 32, "Enter": 13, "Tab": 9}[name]
	event := map[string]any{"type": "keyDown", "key": name, "modifiers": modifiers, "windowsVirtualKeyCode": code}
	if name == "Enter" || name == " " {
		event["text"] = map[string]string{"Enter": "\r", " ": " "}[name]
	}
	b.call("Input.dispatchKeyEvent", event, nil)
	b.call("Input.dispatchKeyEvent", map[string]any{"type": "keyUp", "key": name, "modifiers": modifiers, "windowsVirtualKeyCode": code}, nil)
}

// shot puts a picture of the page into the folder of -shots.
func (b *browser) shot(name string) {
	b.t.Helper()
	if *shots == "" {
		return
	}
	var got struct{ Data string }
	b.call("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true}, &got)
	data, err := base64.StdEncoding.DecodeString(got.Data)
	if err == nil {
		err = os.WriteFile(filepath.Join(*shots, name+".png"), data, 0o644)
	}
	if err != nil {
		b.t.Fatal(err)
	}
}

// clean fails if the page asked for anything that it does not hold, or met an
// error.
func (b *browser) clean() {
	b.t.Helper()
	for _, a := range b.asked {
		if !strings.HasPrefix(a, "data:") && !strings.HasPrefix(a, "blob:") && !strings.HasPrefix(a, "file://") && a != "about:blank" {
			b.t.Errorf("it asks for %.100s", a)
		}
	}
	for _, w := range b.wrong {
		b.t.Errorf("the page met an error: %.300s", w)
	}
}

// downloaded waits for a file that the page saves and returns what is in it.
func (b *browser) downloaded(name string) []byte {
	b.t.Helper()
	path := filepath.Join(b.folder, name)
	for range 200 {
		if data, err := os.ReadFile(path); err == nil && len(data) > 0 {
			os.Remove(path)
			return data
		}
		time.Sleep(25 * time.Millisecond)
	}
	left, _ := os.ReadDir(b.folder)
	b.t.Fatalf("%q was not saved; there is %v", name, left)
	return nil
}
