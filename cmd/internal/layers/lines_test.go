package layers

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// maxColumns is how wide a line of a source may be; a tab takes tabColumns.
const maxColumns, tabColumns = 120, 4

// sources are the files whose lines are held to it. A table of Markdown cannot be broken.
var sources = []string{".go", ".md", ".hcl", ".sh", ".py", ".mjs", ".js", ".css", ".html", ".mod"}

func TestLinesFitOnAScreen(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	seen := 0
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == ".git" || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if d.IsDir() || !slices.Contains(sources, filepath.Ext(file)) && d.Name() != "run" {
			return nil
		}
		seen++
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		for i, line := range bytes.Split(text, []byte("\n")) {
			columns := utf8.RuneCount(line) + (tabColumns-1)*bytes.Count(line, []byte("\t"))
			if columns > maxColumns && !strings.HasPrefix(string(line), "|") {
				t.Errorf("%s:%d: %d columns", file, i+1, columns)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 100 {
		t.Fatalf("only %d files were looked at: the walk starts in the wrong folder", seen)
	}
}
