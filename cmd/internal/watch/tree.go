package watch

import (
	"path/filepath"
	"runtime"
	"strings"
)

// tree is the set of folders to watch and the names in them that matter. Files are never
// watched themselves, because most editors replace a file and its watch goes with the old
// one.
type tree struct {
	files map[string]bool // the files read and, where they are links, what they lead to
	other map[string]bool // links and folders on the way to them
	dirs  map[string]bool // folders whose watch is needed for that
	extra map[string]bool // their parents, to see a folder come back
}

// watchParents reports whether the folders above are watched too. Not where a watch needs
// a descriptor for each file of the folder, or keeps folders from being renamed: there the
// poll finds such changes.
const watchParents = runtime.GOOS == "linux"

// newTree returns the tree for a set of paths.
func newTree(d disk, paths []string) tree {
	t := tree{map[string]bool{}, map[string]bool{}, map[string]bool{}, map[string]bool{}}
	for _, p := range paths {
		trail, whole := d.Trail(p)
		for i, name := range trail {
			if i == 0 || whole && i == len(trail)-1 {
				t.files[name] = true
			} else {
				t.other[name] = true
			}
			t.addFolder(d, filepath.Dir(name))
		}
	}
	for dir := range t.dirs {
		delete(t.extra, dir)
	}
	return t
}

// addFolder adds a folder or, while it is missing, the nearest one above it.
func (t *tree) addFolder(d disk, dir string) {
	for !d.Stamp(dir).there {
		t.other[dir] = true
		up := filepath.Dir(dir)
		if up == dir {
			return
		}
		dir = up
	}
	t.dirs[dir] = true
	if up := filepath.Dir(dir); watchParents && up != dir {
		t.other[dir] = true
		t.extra[up] = true
	}
}

// role is what a name means to the tree.
type role uint8

const (
	stranger role = iota // a swap file, a backup, our own output
	onTheWay             // a folder or a link that leads to a file
	aFile
)

// role looks up the name of an event.
func (t *tree) role(name string) role {
	name = filepath.Clean(name)
	among := func(names map[string]bool) bool {
		found := names[name]
		if foldCase {
			for n := range names {
				found = found || strings.EqualFold(n, name)
			}
		}
		return found
	}
	switch {
	case among(t.files):
		return aFile
	case among(t.other):
		return onTheWay
	}
	return stranger
}

// foldCase reports whether two names that differ in case are usually one file on this
// system.
const foldCase = runtime.GOOS == "windows" || runtime.GOOS == "darwin"

// watchSet has the folders that are watched now, and which folder each was when it was
// added.
type watchSet map[string]stamp

// sync adds and removes watches until they fit the tree. A folder that was replaced by
// another of the same name is added again. The error is the first that leaves a needed
// folder without a watch.
func (p watchSet) sync(n notifier, d disk, t tree) error {
	for dir, old := range p {
		now := d.Stamp(dir)
		if (t.dirs[dir] || t.extra[dir]) && now.there && now.sameFile(old) {
			continue
		}
		n.Remove(dir) // an error says that it is gone already
		delete(p, dir)
	}
	var first error
	for _, set := range []map[string]bool{t.dirs, t.extra} {
		for dir := range set {
			err := p.add(n, d, dir)
			if err != nil && t.dirs[dir] && first == nil {
				first = err
			}
		}
	}
	return first
}

// add watches a folder, again if it has a watch already: when a folder is moved away and
// back its watch is gone, though the folder is the same. Adding twice does nothing.
func (p watchSet) add(n notifier, d disk, dir string) error {
	now := d.Stamp(dir)
	if !now.there {
		return nil // gone since: the poll or the parent tells when it is back
	}
	if err := n.Add(dir); err != nil {
		if !d.Stamp(dir).there {
			return nil
		}
		return err
	}
	p[dir] = now
	return nil
}
