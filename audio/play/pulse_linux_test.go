package play

import (
	"io"
	"math"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/jfreymuth/pulse"
)

// withServer runs a test with a PulseAudio of its own, whose sink plays in
// real time into nothing. stop kills it.
func withServer(t *testing.T, test func(t *testing.T, stop func())) {
	t.Helper()
	if _, err := exec.LookPath("pulseaudio"); err != nil {
		t.Skip("needs pulseaudio")
	}
	dir, err := os.MkdirTemp("", "play") // a socket's path must be short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	socket := filepath.Join(dir, "s")
	t.Setenv("PULSE_RUNTIME_PATH", dir)
	t.Setenv("PULSE_SERVER", "unix:"+socket)
	server := exec.Command("pulseaudio", "-n", "--daemonize=no", "--use-pid-file=no", "--exit-idle-time=-1", "--realtime=no", "--high-priority=no",
		"-L", "module-native-protocol-unix auth-anonymous=1 socket="+socket,
		"-L", "module-null-sink sink_name=test rate=48000 format=s16le channels=2")
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	stop := sync.OnceFunc(func() {
		server.Process.Kill()
		server.Wait()
	})
	defer stop()
	for range 200 {
		if conn, err := net.Dial("unix", socket); err == nil {
			conn.Close()
			test(t, stop)
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatal("pulseaudio does not listen")
}

// recorder keeps what the server's sink plays, the left side at 48 kHz.
type recorder struct {
	mu    sync.Mutex
	heard []int16
}

func record(t *testing.T) *recorder {
	t.Helper()
	c, err := pulse.NewClient()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Close)
	source, err := c.SourceByID("test.monitor")
	if err != nil {
		t.Fatal(err)
	}
	r := &recorder{}
	stream, err := c.NewRecord(pulse.Int16Writer(func(b []int16) (int, error) {
		r.mu.Lock()
		defer r.mu.Unlock()
		r.heard = append(r.heard, b...)
		return len(b), nil
	}), pulse.RecordSource(source), pulse.RecordMono, pulse.RecordSampleRate(48000))
	if err != nil {
		t.Fatal(err)
	}
	stream.Start()
	return r
}

// loud returns the first and the last loud sample and all between.
func (r *recorder) loud() []int16 {
	r.mu.Lock()
	defer r.mu.Unlock()
	loud := func(v int16) bool { return v > 1000 || v < -1000 }
	first := slices.IndexFunc(r.heard, loud)
	if first < 0 {
		return nil
	}
	last := len(r.heard) - 1
	for !loud(r.heard[last]) {
		last--
	}
	return slices.Clone(r.heard[first : last+1])
}

// until waits for something, and ends the test if it does not come about.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	for range 1000 {
		if is() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("%s: it never came about", what)
}

// openPulse opens the output, and has silence played until the sink runs
// evenly: it makes two seconds of silence ahead while it has no stream.
func openPulse(t *testing.T, r *recorder) *pulseOutput {
	t.Helper()
	p := &pulseOutput{}
	if err := p.open(48000); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.close)
	until(t, "silence is recorded", func() bool {
		give(t, p, 4800, 0)
		r.mu.Lock()
		defer r.mu.Unlock()
		return len(r.heard) > 24000
	})
	until(t, "silence is heard", func() bool { return empty(t, p) })
	return p
}

// give writes so many pairs of a tone of 480 Hz.
func give(t *testing.T, p *pulseOutput, pairs int, level float64) {
	t.Helper()
	for taken := 0; taken < pairs; {
		block := make([]float32, min(480, pairs-taken)*channels)
		for i := range block {
			block[i] = float32(level * math.Cos(2*math.Pi*480*float64(taken+i/channels)/48000))
		}
		n, err := p.write(block, level == 0)
		if err != nil {
			t.Fatal(err)
		}
		taken += n
	}
}

// empty reports whether nothing is left but what the sink itself holds.
func empty(t *testing.T, p *pulseOutput) bool {
	t.Helper()
	n, err := p.delay()
	if err != nil {
		t.Fatal(err)
	}
	return n < 960
}

// ready is a sound that the server holds whole before it is played, so that a
// busy machine does not tear it.
const ready = 11000

// TestServerHearsWhatIsWritten gives a server a tone and compares what its sink
// played.
func TestServerHearsWhatIsWritten(t *testing.T) {
	withServer(t, func(t *testing.T, _ func()) {
		r := record(t)
		p := openPulse(t, r)
		give(t, p, ready, 0.5)
		until(t, "all is heard", func() bool { return len(r.loud()) > ready-50 })
		for i, v := range r.loud() {
			if want := 0.5 * 32767 * math.Cos(2*math.Pi*float64(i)/100); math.Abs(float64(v)-want) > 2 {
				t.Fatalf("sample %d is %d, want %.0f", i, v, want)
			}
		}
		until(t, "nothing is left", func() bool { return empty(t, p) })
	})
}

// TestServerThatRanDryGoesOn lets the server play all it has, and more is
// heard as before.
func TestServerThatRanDryGoesOn(t *testing.T) {
	withServer(t, func(t *testing.T, _ func()) {
		r := record(t)
		p := openPulse(t, r)
		give(t, p, 9600, 0.5)
		until(t, "all is heard", func() bool { return empty(t, p) && len(r.loud()) > 9500 })
		time.Sleep(300 * time.Millisecond)
		give(t, p, 9600, 0.5)
		if n, err := p.delay(); err != nil || n < 4800 || n > 24000 {
			t.Errorf("with 9600 pairs written the delay is %d pairs, %v", n, err)
		}
		until(t, "all is heard again", func() bool { return empty(t, p) })
		until(t, "and was played", func() bool { return len(r.loud()) > 9600+9500+9600 })
	})
}

// TestServerDrops takes back what it was given, which is not played then.
func TestServerDrops(t *testing.T) {
	withServer(t, func(t *testing.T, _ func()) {
		r := record(t)
		p := openPulse(t, r)
		if err := p.pause(true); err != nil {
			t.Fatal(err)
		}
		give(t, p, 9600, 0.5)
		if n, err := p.delay(); err != nil || n < 9600 {
			t.Errorf("held with 9600 pairs written the delay is %d pairs, %v", n, err)
		}
		if err := p.drop(); err != nil {
			t.Fatal(err)
		}
		if n, err := p.delay(); err != nil || n >= 9600 {
			t.Errorf("after all was dropped the delay is %d pairs, %v", n, err)
		}
		if err := p.pause(false); err != nil {
			t.Fatal(err)
		}
		give(t, p, ready, 0.5)
		// What is recorded of a sink that begins again can lack some milliseconds.
		until(t, "the rest is heard", func() bool { return empty(t, p) && len(r.loud()) > ready-1000 })
		if n := len(r.loud()); n > ready {
			t.Errorf("%d samples were played, want %d", n, ready)
		}
	})
}

// TestServerEnds: what plays goes on by the clock, and says why.
func TestServerEnds(t *testing.T) {
	withServer(t, func(t *testing.T, stop func()) {
		f := newFeeder(&pulseOutput{}, 48000)
		p := &Player{open: func(int) (device, error) { f.lookNow(); return f, nil }}
		p.Load(song(48000, ramp(0, 60*48000)), 0)
		p.Play(1)
		until(t, "it plays", func() bool { return p.Position() > 1.2 })
		if err := p.Trouble(); err != nil {
			t.Error(err)
		}
		stop()
		until(t, "it is noticed", func() bool { return p.Position() > 0 && p.Trouble() != nil })
		at := p.Position()
		until(t, "the film goes on", func() bool { return p.Position() > at+0.2 })
		p.Stop()
	})
}

// TestServerThatDoesNotSpeak: what listens there may be no sound server.
func TestServerThatDoesNotSpeak(t *testing.T) {
	for _, c := range []struct {
		name  string
		speak func(net.Conn)
	}{
		{"it hangs up", func(c net.Conn) { c.Close() }},
		{"it hangs up after a word", func(c net.Conn) { c.Write([]byte("hello")); c.Close() }},
		{"it refuses and hangs up", func(c net.Conn) {
			io.ReadFull(c, make([]byte, 20))                                         // a descriptor: length, channel, offset, flags
			refusal := []byte("L\x00\x00\x00\x00L\x00\x00\x00\x00L\x00\x00\x00\x01") // an error to request 0: access denied
			c.Write(append([]byte{0, 0, 0, byte(len(refusal)), 255, 255, 255, 255, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, refusal...))
			c.Close()
		}},
		{"it says nothing", func(net.Conn) {}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir, err := os.MkdirTemp("", "play")
			if err != nil {
				t.Fatal(err)
			}
			defer os.RemoveAll(dir)
			listener, err := net.Listen("unix", filepath.Join(dir, "s"))
			if err != nil {
				t.Fatal(err)
			}
			defer listener.Close()
			go func() {
				for {
					conn, err := listener.Accept()
					if err != nil {
						return
					}
					c.speak(conn)
				}
			}()
			t.Setenv("PULSE_SERVER", "unix:"+filepath.Join(dir, "s"))
			if err := (&pulseOutput{}).open(48000); err == nil {
				t.Error("it was opened")
			}
			time.Sleep(50 * time.Millisecond) // for what the connection may still do
		})
	}
}

func TestServers(t *testing.T) {
	home := t.TempDir()
	linked := filepath.Join(home, ".config/pulse/0123-runtime/native")
	if err := os.MkdirAll(filepath.Dir(linked), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(linked, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		env  map[string]string
		want []server
	}{
		{"nothing said", map[string]string{}, []server{{"unix", "/run/user/1000/pulse/native"}, {"unix", "/run/pulse/native"}}},
		{"the session's folder", map[string]string{"XDG_RUNTIME_DIR": "/x"}, []server{{"unix", "/x/pulse/native"}, {"unix", "/run/pulse/native"}}},
		{"the server's own folder", map[string]string{"PULSE_RUNTIME_PATH": "/p"}, []server{{"unix", "/p/native"}, {"unix", "/run/user/1000/pulse/native"}, {"unix", "/run/pulse/native"}}},
		{"a link in the home", map[string]string{"HOME": home}, []server{{"unix", "/run/user/1000/pulse/native"}, {"unix", linked}, {"unix", "/run/pulse/native"}}},
		{"a socket", map[string]string{"PULSE_SERVER": "unix:/s", "XDG_RUNTIME_DIR": "/x"}, []server{{"unix", "/s"}}},
		{"a path", map[string]string{"PULSE_SERVER": "/s"}, []server{{"unix", "/s"}}},
		{"some, of one machine each", map[string]string{"PULSE_SERVER": "{abc}unix:/s {def}tcp:desk:4700"}, []server{{"unix", "/s"}, {"tcp", "desk:4700"}}},
		{"without a port", map[string]string{"PULSE_SERVER": "tcp:desk tcp4:10.0.0.2 tcp6:[::1]"}, []server{{"tcp", "desk:4713"}, {"tcp4", "10.0.0.2:4713"}, {"tcp6", "[::1]:4713"}}},
		{"no address", map[string]string{"PULSE_SERVER": "nonsense {abc ftp:desk"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := servers(func(k string) string { return c.env[k] }, 1000); !slices.Equal(got, c.want) {
				t.Errorf("%v, want %v", got, c.want)
			}
		})
	}
}
