package ui

import "encoding/json"

// keysKey is where the program keeps the keys that were changed.
const keysKey = "keys"

// keyset says which key does which command. Each key does one.
type keyset struct {
	commands []*command // those that have a name
	usual    map[*command]chord
	named    map[string]*command
}

// newKeyset takes the usual keys from the commands and lays the changed ones
// over them, as save wrote them; what cannot be read of them is left out.
func newKeyset(commands []*command, saved string) *keyset {
	k := &keyset{usual: map[*command]chord{}, named: map[string]*command{}}
	for _, c := range commands {
		if c.name != "" {
			k.commands = append(k.commands, c)
			k.usual[c], k.named[c.name] = c.chord(), c
		}
	}
	var changed map[string]string
	if json.Unmarshal([]byte(saved), &changed) != nil {
		return k
	}
	given := map[chord]*command{}
	for _, c := range k.commands {
		s, ok := changed[c.name]
		if to, read := readChord(s); ok && read && given[to] == nil {
			c.key, c.mod = to.key, to.mod
			if to != (chord{}) {
				given[to] = c
			}
		}
	}
	for _, c := range k.commands {
		if by := given[c.chord()]; by != nil && by != c {
			c.key, c.mod = "", 0 // a command that came with a later version
		}
	}
	return k
}

// save writes the keys that are not the usual ones.
func (k *keyset) save() string {
	changed := map[string]string{}
	for _, c := range k.commands {
		if k.changed(c) {
			changed[c.name] = c.chord().stored()
		}
	}
	data, _ := json.Marshal(changed) // a map of strings always can be
	return string(data)
}

func (k *keyset) changed(c *command) bool { return c.chord() != k.usual[c] }

// of returns the key of a command by its name, "" for none.
func (k *keyset) of(name string) string {
	if c := k.named[name]; c != nil {
		return c.keyName()
	}
	return ""
}

// holder returns the command a key does, nil for none.
func (k *keyset) holder(key chord) *command {
	for _, c := range k.commands {
		if key != (chord{}) && c.chord() == key {
			return c
		}
	}
	return nil
}

// give makes key the command's and takes it from the one that had it, which is
// returned.
func (k *keyset) give(c *command, key chord) (robbed *command) {
	if robbed = k.holder(key); robbed == c {
		return nil
	}
	if robbed != nil {
		robbed.key, robbed.mod = "", 0
	}
	c.key, c.mod = key.key, key.mod
	return robbed
}

// reset gives all commands their usual keys.
func (k *keyset) reset() {
	for _, c := range k.commands {
		c.key, c.mod = k.usual[c].key, k.usual[c].mod
	}
}
