package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// fewCommands is a small set: Join on J, Split on S, Share on Ctrl+E, About
// without a key, and a separator.
func fewCommands() []*command {
	return []*command{
		{menu: "Panel", name: "Join", key: fyne.KeyJ}, {menu: "Panel"},
		{menu: "Panel", name: "Split", key: fyne.KeyS},
		{menu: "File", name: "Share", key: fyne.KeyE, mod: ctrl},
		{menu: "Help", name: "About"},
	}
}

// keysOf writes down the keys of commands.
func keysOf(commands []*command) string {
	var out []string
	for _, c := range commands {
		if c.name != "" {
			out = append(out, c.name+" "+c.keyName())
		}
	}
	return strings.TrimSpace(strings.Join(out, ", "))
}

func TestKeysAreGivenAndTakenBack(t *testing.T) {
	commands := fewCommands()
	k := newKeyset(commands, "")
	if robbed := k.give(k.named["About"], chord{fyne.KeyF2, shift}); robbed != nil {
		t.Errorf("a key that was free is taken from %q", robbed.name)
	}
	if robbed := k.give(k.named["Join"], chord{fyne.KeyE, ctrl}); robbed != k.named["Share"] {
		t.Errorf("Ctrl+E is taken from %v, want Share", robbed)
	}
	if got, want := keysOf(commands), "Join Ctrl+E, Split S, Share , About Shift+F2"; got != want {
		t.Errorf("the keys are %q, want %q", got, want)
	}
	if robbed := k.give(k.named["Join"], chord{fyne.KeyE, ctrl}); robbed != nil || k.of("Join") != "Ctrl+E" {
		t.Errorf("its own key is taken from %v", robbed)
	}
	saved := k.save()
	again := fewCommands()
	newKeyset(again, saved)
	if got, want := keysOf(again), keysOf(commands); got != want {
		t.Errorf("kept as %s they come back as %q, want %q", saved, got, want)
	}
	k.reset()
	if got, want := keysOf(commands), "Join J, Split S, Share Ctrl+E, About"; got != want {
		t.Errorf("as they were: %q, want %q", got, want)
	}
	if got := k.save(); got != "{}" {
		t.Errorf("the usual keys are kept as %s", got)
	}
}

func TestKeptKeysThatDoNotFit(t *testing.T) {
	usual := "Join J, Split S, Share Ctrl+E, About"
	for _, tt := range []struct{ name, saved, want string }{
		{"nothing kept", "", usual},
		{"no JSON", "{", usual},
		{"of another kind", `["J"]`, usual},
		{"of a command that is gone", `{"Fold":"ctrl F"}`, usual},
		{"a key that is refused", `{"Join":"Escape"}`, usual},
		{"a word that is no modifier", `{"Join":"hyper J"}`, usual},
		{"two exchanged", `{"Join":"S","Split":"J"}`, "Join S, Split J, Share Ctrl+E, About"},
		{"the usual key of a command that came later", `{"About":"S"}`, "Join J, Split , Share Ctrl+E, About S"},
		{"one key for two", `{"Join":"F","Split":"F"}`, "Join F, Split S, Share Ctrl+E, About"},
		{"no key", `{"Join":""}`, "Join , Split S, Share Ctrl+E, About"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			commands := fewCommands()
			newKeyset(commands, tt.saved)
			if got := keysOf(commands); got != tt.want {
				t.Errorf("%s gives %q, want %q", tt.saved, got, tt.want)
			}
		})
	}
}

func FuzzKeptKeys(f *testing.F) {
	f.Add(`{"Join":"S","Split":"J"}`)
	f.Add(`{"Join":"ctrl shift F5","Share":""}`)
	f.Fuzz(func(t *testing.T, saved string) {
		commands := fewCommands()
		k := newKeyset(commands, saved)
		seen := map[chord]string{}
		for _, c := range k.commands {
			if key := c.chord(); key != (chord{}) {
				if seen[key] != "" || key.refused() != "" {
					t.Fatalf("%q: %v does %q and %q (%s)", saved, key, seen[key], c.name, key.refused())
				}
				seen[key] = c.name
			}
		}
		again := fewCommands()
		if newKeyset(again, k.save()); keysOf(again) != keysOf(commands) {
			t.Fatalf("%q: kept as %s the keys are %q, want %q", saved, k.save(), keysOf(again), keysOf(commands))
		}
	})
}

func TestShortcutsAndTheirKeys(t *testing.T) {
	w := openWindow(t)
	names := map[string]bool{}
	for _, c := range w.keys.commands {
		if names[c.name] {
			t.Errorf("two commands are called %q: their keys cannot be told apart", c.name)
		}
		names[c.name] = true
		if c.key == "" {
			continue
		}
		if why := c.chord().refused(); why != "" {
			t.Errorf("%s of %q: %s", c.keyName(), c.name, why)
		}
		if got := chordOf(c.shortcut()); got != c.chord() {
			t.Errorf("%s of %q comes back from the toolkit as %s", c.keyName(), c.name, got)
		}
		if got, ok := readChord(c.chord().stored()); !ok || got != c.chord() {
			t.Errorf("%s of %q is kept as %q", c.keyName(), c.name, c.chord().stored())
		}
	}
}
