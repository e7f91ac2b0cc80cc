// Package library holds the grooves that come with plinth, as groove files, and
// reads groove files into feels: its own and a user's alike.
//
// A groove file is HCL. Its rows are drum tabs, one character a step; what the
// characters mean is said in package feel. Bars may be parted by |, and blanks
// between steps mean nothing. A level that starts "from" another changes only
// the rows that it writes.
//
// The voice of the messages: a summary of a few words that names the thing
// ("Unknown row"), then full sentences that say what is there and what to write
// instead, in the words of the groove file. No "invalid", no "please".
package library

import (
	"embed"
	"fmt"
	"slices"
	"sync"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
)

//go:embed grooves/*.hcl fills/*.hcl
var files embed.FS

// Source is the groove file of one built-in groove. It is a whole file that a
// song can name at once as a groove of its own.
func Source(name string) ([]byte, bool) {
	if entryNamed(name) == nil {
		return nil, false
	}
	return mustRead("grooves/" + name + ".hcl"), true
}

// Builtin is the whole library, decoded once. A build wants Load, which decodes
// only what a song names.
func Builtin() *feel.Set { return builtin() }

var builtin = sync.OnceValue(func() *feel.Set { return Load(Names()...) })

// Load decodes the named grooves and the fills they use, each file once in a
// process; feels and fills are shared and must not be changed. A name that is
// not of the library is left out: it is the song's own groove, whose file
// Decode reads. The fills of such a groove come with LoadFills.
func Load(names ...string) *feel.Set {
	set := &feel.Set{Feels: map[string]*feel.Feel{}}
	var use []string
	for _, name := range names {
		if entryNamed(name) == nil || set.Feels[name] != nil {
			continue
		}
		f := loadFeel(name)
		set.Feels[name] = f
		use = append(use, f.Fills)
	}
	set.Fills = LoadFills(use...)
	return set
}

// LoadFills decodes the built-in fills of the named families. A name that is
// not a built-in family, "" with them, is left out.
func LoadFills(names ...string) []feel.Fill {
	var out []feel.Fill
	for _, f := range families {
		if slices.Contains(names, f) {
			out = append(out, load("fills/"+f+".hcl").fills...)
		}
	}
	return out
}

// cache holds what has been decoded, by the file's path. It is filled from constant data
// only, so that its state can never be seen.
var cache struct {
	sync.Mutex
	files map[string]decoded
}

// decoded is what stands in a groove file.
type decoded struct {
	feels []*feel.Feel
	fills []feel.Fill
}

// load decodes a file of the library, once.
func load(path string) decoded {
	cache.Lock()
	defer cache.Unlock()
	f, ok := cache.files[path]
	if !ok {
		f = mustDecode(path)
		if cache.files == nil {
			cache.files = map[string]decoded{}
		}
		cache.files[path] = f
	}
	return f
}

func mustDecode(path string) decoded {
	feels, fills, diags := decode(hcltext.NewSource(path, mustRead(path)))
	if diags.HasErrors() {
		panic("library: " + diags.Error())
	}
	return decoded{feels, fills}
}

func loadFeel(name string) *feel.Feel {
	path := "grooves/" + name + ".hcl"
	feels := load(path).feels
	if len(feels) != 1 || feels[0].Name != name {
		panic(fmt.Sprintf("library: %s must hold the groove %q and no other", path, name))
	}
	return feels[0]
}

func mustRead(path string) []byte {
	b, err := files.ReadFile(path)
	if err != nil {
		panic("library: " + err.Error())
	}
	return b
}
