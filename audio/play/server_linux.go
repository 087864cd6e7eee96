package play

import (
	"cmp"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"

	"github.com/jfreymuth/pulse/proto"
)

// connect speaks to the first sound server that answers, and tells it who
// speaks. What it says by itself goes to hear.
func connect(hear func(any)) (net.Conn, *proto.Client, error) {
	err := errors.New("there is no sound server")
	for _, s := range servers(os.Getenv, os.Getuid()) {
		var conn net.Conn
		if conn, err = net.DialTimeout(s.network, s.address, answer); err != nil {
			continue
		}
		client := &proto.Client{Callback: hear}
		client.SetTimeout(answer)
		client.Open(conn)
		if err = greet(client); err == nil {
			return conn, client, nil
		}
		conn.Close()
	}
	return nil, nil, err
}

func greet(client *proto.Client) error {
	var reply proto.AuthReply
	if err := client.Request(&proto.Auth{Version: client.Version(), Cookie: cookie()}, &reply); err != nil {
		return err
	}
	client.SetVersion(reply.Version)
	props := proto.PropList{"application.name": proto.PropListString("Stillbeat")}
	return client.Request(&proto.SetClientName{Props: props}, &proto.SetClientNameReply{})
}

// cookie returns what shows a server of another machine, or of another user,
// that this one may be heard; those of one's own do not ask for it.
func cookie() []byte {
	home, _ := os.UserHomeDir()
	for _, name := range []string{os.Getenv("PULSE_COOKIE"), filepath.Join(home, ".config/pulse/cookie"), filepath.Join(home, ".pulse-cookie")} {
		if b, err := os.ReadFile(name); err == nil && len(b) == 256 {
			return b
		}
	}
	return make([]byte, 256)
}

// server is where a sound server listens, in the words of package net.
type server struct{ network, address string }

// servers returns where to look: where PULSE_SERVER says, a list of addresses
// as the server's documentation has them
// (freedesktop.org/wiki/Software/PulseAudio/Documentation/User/ServerStrings),
// else at the sockets of the user and of the machine.
func servers(getenv func(string) string, uid int) []server {
	var found []server
	if list := getenv("PULSE_SERVER"); list != "" {
		for _, s := range strings.Fields(list) {
			if strings.HasPrefix(s, "{") { // of one machine only
				_, s, _ = strings.Cut(s, "}")
			}
			network, address, named := strings.Cut(s, ":")
			switch {
			case strings.HasPrefix(s, "/"):
				found = append(found, server{"unix", s})
			case named && network == "unix":
				found = append(found, server{"unix", address})
			case named && (network == "tcp" || network == "tcp4" || network == "tcp6"):
				found = append(found, server{network, withPort(address)})
			}
		}
		return found
	}
	run := cmp.Or(getenv("XDG_RUNTIME_DIR"), fmt.Sprintf("/run/user/%d", uid))
	if own := getenv("PULSE_RUNTIME_PATH"); own != "" {
		found = append(found, server{"unix", filepath.Join(own, "native")})
	}
	found = append(found, server{"unix", filepath.Join(run, "pulse/native")})
	linked, _ := filepath.Glob(filepath.Join(getenv("HOME"), ".config/pulse/*-runtime/native"))
	for _, name := range append(linked, "/run/pulse/native") {
		found = append(found, server{"unix", name})
	}
	return found
}

// withPort adds the port servers listen on to an address without one.
func withPort(address string) string {
	if _, _, err := net.SplitHostPort(address); err == nil {
		return address
	}
	return net.JoinHostPort(strings.Trim(address, "[]"), "4713")
}
