// Package soundbank takes a SoundFont's name, or looks for one on this machine, and returns a bank of
// sounds; where there is none, plinth's own sketch.
package soundbank

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"plinth/cmd/internal/files"
	"plinth/render/audio/bank"
	"plinth/render/audio/sketch"
	"plinth/render/audio/soundfont"
)

// variable is the environment variable that names a SoundFont.
const variable = "PLINTH_SOUNDFONT"

// Found is a bank and where it comes from.
type Found struct {
	bank.Bank
	Sketch bool // plinth computes it: no SoundFont was named or found
	// noDrums says that it has no kit, so that the drums are silent.
	noDrums bool
}

// Name is the bank's name, with what it lacks.
func (f Found) Name() string {
	if f.noDrums {
		return f.Bank.Name() + ", which has no drums"
	}
	return f.Bank.Name()
}

// Find is the bank of the SoundFont that is named; of the one that variable names where named is empty; or of
// the first one in the system's usual folders that has a drum kit. A file that is named and cannot be
// used is an error; one that was found is passed over.
func Find(named string) (Found, error) { return find(named, folders(runtime.GOOS, os.Getenv)) }

func find(named string, dirs []string) (Found, error) {
	from := ""
	if named == "" {
		named, from = os.Getenv(variable), variable+": "
	}
	if named != "" {
		b, err := open(named)
		if err != nil {
			return Found{}, fmt.Errorf("%scannot read the SoundFont %s: %w", from, named, err)
		}
		return Found{Bank: b, noDrums: !b.Has(bank.Patch{Drums: true})}, nil
	}
	for _, path := range candidates(dirs) {
		if b, err := open(path); err == nil && b.Has(bank.Patch{Drums: true}) {
			return Found{Bank: b}, nil
		}
	}
	return Found{Bank: sketch.New(), Sketch: true}, nil
}

// open reads a SoundFont. It is called by the name of the file behind its links: "default-GM.sf2" says
// nothing.
func open(path string) (*soundfont.Bank, error) {
	data, err := files.Read(path, soundfont.MaxSize)
	if err != nil {
		return nil, errors.New(files.Reason(err))
	}
	name := path
	if real, err := filepath.EvalSymlinks(path); err == nil {
		name = real
	}
	return soundfont.Open(data, filepath.Base(name))
}

// folders are where a system and its users keep SoundFonts, the user's own first. Linux: the folders
// that Debian's, Fedora's and Arch's packages use, below those of the XDG Base Directory Specification;
// macOS: File System Programming Guide, "Audio/Sounds/Banks"; Windows has no custom, so plinth's is said in its help.
func folders(system string, env func(string) string) (out []string) {
	add := func(base string, below ...string) {
		for _, b := range below {
			if base != "" {
				out = append(out, filepath.Join(base, filepath.FromSlash(b)))
			}
		}
	}
	switch system {
	case "windows":
		add(env("APPDATA"), "SoundFonts")
		add(env("USERPROFILE"), "SoundFonts", "Documents/SoundFonts", "Music/SoundFonts")
		add(env("PROGRAMDATA"), "SoundFonts")
		return out
	case "darwin":
		add(env("HOME"), "Library/Audio/Sounds/Banks")
		add("/Library", "Audio/Sounds/Banks")
		add("/opt/homebrew/share", "sounds/sf2", "soundfonts")
	default:
		data := env("XDG_DATA_HOME")
		if data == "" && env("HOME") != "" {
			data = filepath.Join(env("HOME"), ".local", "share")
		}
		add(data, "sounds/sf2", "soundfonts")
	}
	add("/usr/local/share", "sounds/sf2", "soundfonts")
	if system != "darwin" {
		add("/usr/share", "sounds/sf2", "soundfonts")
	}
	return out
}

// preferred are the names of whole General MIDI banks, the system's choice first.
var preferred = []string{"default-gm.sf2", "default.sf2", "fluidr3_gm.sf2", "fluidr3gm.sf2", "timgm6mb.sf2"}

// candidates are the SoundFonts of the folders: a folder's preferred names first, then those whose name says
// that they are General MIDI. Others may hold a single instrument, and are used where they are named.
func candidates(dirs []string) (out []string) {
	for _, dir := range dirs {
		entries, err := os.ReadDir(dir) // sorted by name
		if err != nil {
			continue
		}
		rank := func(name string) int {
			name = strings.ToLower(name)
			if i := slices.Index(preferred, name); i >= 0 {
				return i
			}
			return len(preferred)
		}
		var names []string
		for _, e := range entries {
			name := strings.ToLower(e.Name())
			if strings.HasSuffix(name, ".sf2") && (rank(name) < len(preferred) || strings.Contains(name, "gm") ||
				strings.Contains(name, "general")) {
				names = append(names, e.Name())
			}
		}
		slices.SortStableFunc(names, func(a, b string) int { return rank(a) - rank(b) })
		for _, n := range names {
			out = append(out, filepath.Join(dir, n))
		}
	}
	return out
}
