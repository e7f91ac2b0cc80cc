package watch

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// folders are scenarios with folders, links and several files.
var folders = []save{
	{name: "folder removed, made again with a new song", why: "the watch dies with its folder",
		do: func(r *rig) { renewFolder(r) }, builds: 1},
	{name: "folder removed and made again, then a save", why: "the second save shows that the watch came back",
		do: func(r *rig) { renewFolder(r); r.await(2); r.write(r.song, "# after\n") }, builds: 2, last: "# after\n"},
	{name: "folder moved away, edited, moved back", why: "tidying up in the file manager",
		do: func(r *rig) {
			away := filepath.Join(r.dir, "away")
			r.rename(filepath.Dir(r.song), away)
			r.write(filepath.Join(away, filepath.Base(r.song)), second)
			r.pause(50, 400)
			r.rename(away, filepath.Dir(r.song))
		}, builds: 1},
	{name: "folder moved away and back, then a save", why: "the same folder has lost its watch",
		do: func(r *rig) {
			away := filepath.Join(r.dir, "away")
			r.rename(filepath.Dir(r.song), away)
			r.pause(20, 400)
			r.rename(away, filepath.Dir(r.song))
			time.Sleep(200 * time.Millisecond)
			r.unhurry()
			r.write(r.song, second)
		}, builds: 1},
	{name: "the target of a link is written", why: "no event comes in the link's folder",
		prepare: linkSong,
		do:      func(r *rig) { r.write(filepath.Join(r.dir, "store", "a.hcl"), second) }, builds: 1},
	{name: "the target of a link is renamed over", why: "the same with a better editor",
		prepare: linkSong,
		do: func(r *rig) {
			p := filepath.Join(r.dir, "store", "a.hcl")
			r.write(p+".new", second)
			r.rename(p+".new", p)
		}, builds: 1},
	{name: "the link is pointed to another file", why: "switching arrangements",
		prepare: linkSong,
		do: func(r *rig) {
			r.write(filepath.Join(r.dir, "store", "b.hcl"), second)
			r.must(os.Symlink(filepath.Join("..", "store", "b.hcl"), r.beside("l")))
			r.rename(r.beside("l"), r.song)
		}, builds: 1},
	{name: "the link is pointed elsewhere, then that file is written", why: "the watch moves with the link",
		prepare: linkSong,
		do: func(r *rig) {
			b := filepath.Join(r.dir, "store2", "b.hcl")
			r.must(os.Mkdir(filepath.Dir(b), 0o755))
			r.write(b, "# b\n")
			r.must(os.Symlink(filepath.Join("..", "store2", "b.hcl"), r.beside("l")))
			r.rename(r.beside("l"), r.song)
			r.await(2)
			r.write(b, second)
		}, builds: 2},
	{name: "a link to a folder on the way is swapped", why: "a deployment's ..data: no event names the song",
		prepare: func(r *rig) {
			for name, text := range map[string]string{"v1": first, "v2": second} {
				r.must(os.Mkdir(r.beside(name), 0o755))
				r.write(filepath.Join(r.beside(name), "s.hcl"), text)
			}
			r.must(os.Symlink("v1", r.beside("..data")))
			r.remove(r.song)
			r.must(os.Symlink(filepath.Join("..data", "s.hcl"), r.song))
		},
		do: func(r *rig) {
			r.must(os.Symlink("v2", r.beside("..tmp")))
			r.rename(r.beside("..tmp"), r.beside("..data"))
		}, builds: 1},

	{name: "two files of the song saved in one go", why: "save all is one save",
		text: "read own.groove.hcl\n", prepare: grooveBeside,
		do: func(r *rig) {
			r.write(r.beside("own.groove.hcl"), "# g2\n")
			r.pause(0, 60)
			r.write(r.song, "read own.groove.hcl\n# s2\n")
		}, builds: 1,
		last: "read own.groove.hcl\n# s2\n# g2\n"},
	{name: "two files renamed over in one go", why: "the same with whole files: the shorter window gathers them too",
		text: "read own.groove.hcl\n", prepare: grooveBeside,
		do: func(r *rig) {
			r.write(r.beside("a"), "# g2\n")
			r.pause(0, 25)
			r.write(r.beside("b"), "read own.groove.hcl\n# s2\n")
			r.pause(0, 25)
			r.rename(r.beside("a"), r.beside("own.groove.hcl"))
			r.pause(0, 25)
			r.rename(r.beside("b"), r.song)
		}, builds: 1, last: "read own.groove.hcl\n# s2\n# g2\n"},
	{name: "only the groove is saved", why: "everything that is read is watched",
		text: "read own.groove.hcl\n", prepare: grooveBeside,
		do: func(r *rig) { r.write(r.beside("own.groove.hcl"), "# g2\n") }, builds: 1,
		last: "read own.groove.hcl\n# g2\n"},
	{name: "a file in a folder that does not exist yet", why: "what was looked for in vain is waited for",
		text: "read takes/deep/vocal.mid\n",
		do: func(r *rig) {
			r.must(os.MkdirAll(r.beside("takes/deep"), 0o755))
			r.write(r.beside("takes/deep/vocal.mid"), "# sung\n")
		}, builds: 1, last: "read takes/deep/vocal.mid\n# sung\n"},
	{name: "a groove goes for good", why: "the song can say where it is named, so this is a build that fails",
		text: "read own.groove.hcl\n", prepare: grooveBeside,
		do: func(r *rig) { r.remove(r.beside("own.groove.hcl")) }, builds: 1,
		last: "read own.groove.hcl\nerror: own.groove.hcl"},
	{name: "a file that is no longer read is saved", why: "it does not count any more",
		text: "read own.groove.hcl\n", prepare: grooveBeside,
		do:     func(r *rig) { r.write(r.song, second); r.await(2); r.write(r.beside("own.groove.hcl"), "# g2\n") },
		builds: 1},
	{name: "a file that the build names and does not read",
		why:  "it was missing when the build looked for it by another way",
		text: "name vocal.mid\n",
		do:   func(r *rig) { r.write(r.beside("vocal.mid"), "# sung\n") }, builds: 1, last: "name vocal.mid\n"},
	{name: "a file that comes just after the build has looked for it", why: "no watch was there yet",
		text: "late vocal.mid\n", do: func(*rig) {}, builds: 1, last: "late vocal.mid\n"},
	{name: "another song in the folder is saved", why: "only the saved one rebuilds",
		prepare: func(r *rig) { r.write(r.beside("weir.song.hcl"), "# other\n") },
		do:      func(r *rig) { r.write(r.beside("weir.song.hcl"), "# another\n") }, last: first},
	{name: "replaced by a folder", why: "an error, and no crash",
		do: func(r *rig) { r.remove(r.song); r.must(os.Mkdir(r.song, 0o755)) }, builds: 1,
		last: "error: read SONG: it is not a regular file"},
	{name: "replaced by 10 MB", why: "refused by its size, before it is read",
		do: func(r *rig) { r.must(os.Truncate(r.song, 10<<20)) }, builds: 1,
		last: "error: read SONG: it is too large: 10485760 bytes, and at most 8388608 are read"},
}

func renewFolder(r *rig) {
	r.remove(filepath.Dir(r.song))
	r.pause(50, 400)
	r.step(func() error { return os.Mkdir(filepath.Dir(r.song), 0o755) })
	r.write(r.song, second)
}

func linkSong(r *rig) {
	store := filepath.Join(r.dir, "store")
	r.must(os.Mkdir(store, 0o755))
	r.rename(r.song, filepath.Join(store, "a.hcl"))
	r.must(os.Symlink(filepath.Join("..", "store", "a.hcl"), r.song))
}

func grooveBeside(r *rig) { r.write(r.beside("own.groove.hcl"), "# g\n") }

// gitSaves are what real git does to a song's folder. They are skipped without git.
var gitSaves = []save{
	{name: "git checkout of a branch", why: "git deletes and creates, three files here",
		text: "read own.groove.hcl\n", prepare: gitRepo,
		do: func(r *rig) { r.git("checkout", "-q", "other") }, builds: 1,
		last: "read own.groove.hcl\n# other\n# g other\n"},
	{name: "git stash", why: "back to what was committed",
		text: "read own.groove.hcl\n", prepare: func(r *rig) { gitRepo(r); r.write(r.song, second) },
		do: func(r *rig) { r.git("stash", "-q") }, builds: 1, last: "read own.groove.hcl\n# g\n"},
	{name: "git reset --hard", why: "to another commit",
		text: "read own.groove.hcl\n", prepare: gitRepo,
		do: func(r *rig) { r.git("reset", "-q", "--hard", "other") }, builds: 1,
		last: "read own.groove.hcl\n# other\n# g other\n"},
}

func gitRepo(r *rig) {
	if _, err := exec.LookPath("git"); err != nil {
		r.t.Skip("git is not installed")
	}
	grooveBeside(r)
	r.write(r.beside("notes.txt"), "one\n")
	r.git("init", "-q", "-b", "main")
	r.git("add", ".")
	r.git("commit", "-q", "-m", "one")
	r.git("checkout", "-q", "-b", "other")
	r.write(r.song, "read own.groove.hcl\n# other\n")
	r.write(r.beside("own.groove.hcl"), "# g other\n")
	r.write(r.beside("notes.txt"), "two\n")
	r.git("commit", "-q", "-a", "-m", "two")
	r.git("checkout", "-q", "main")
}

// git runs git. The run does not count where git was held up between two files, or for so
// long that a file may have been away for longer than the watcher waits.
func (r *rig) git(args ...string) {
	r.t.Helper()
	started := time.Now()
	defer func() {
		song, err := os.Stat(r.song)
		r.must(err)
		groove, err := os.Stat(r.beside("own.groove.hcl"))
		r.must(err)
		apart := song.ModTime().Sub(groove.ModTime()).Abs()
		r.late = r.late || time.Since(started) > unhurried*time.Millisecond || song.ModTime().After(started) &&
			groove.ModTime().After(started) && apart > 50*time.Millisecond
	}()
	cmd := exec.Command("git", append([]string{"-c", "user.name=A", "-c", "user.email=a@example.org", "-c",
		"core.autocrlf=false"}, args...)...)
	cmd.Dir = filepath.Dir(r.song)
	// Neither the user's settings for git nor those of a hook that runs this test.
	cmd.Env = slices.DeleteFunc(os.Environ(), func(v string) bool { return strings.HasPrefix(v, "GIT_") })
	cmd.Env = append(cmd.Env, "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_NOSYSTEM=1")
	if out, err := cmd.CombinedOutput(); err != nil {
		r.t.Fatalf("git %v: %v\n%s", args, err, out)
	}
}

// TestRealTools saves with tools that are on most machines.
func TestRealTools(t *testing.T) {
	if _, err := exec.LookPath("sed"); err != nil {
		t.Skip("sed is not installed")
	}
	r := newRig(t, settings{})
	if out, err := exec.Command("sed", "-i", "s/one/uno/", r.song).CombinedOutput(); err != nil {
		t.Skipf("this sed does not replace in place: %s", out)
	}
	r.await(2)
}
