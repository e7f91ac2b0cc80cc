package library

import (
	"flag"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden pictures")

// TestPictureGolden: three grooves as they are shown, one of a plain meter, one
// in triplets over two bars, one of any meter.
func TestPictureGolden(t *testing.T) {
	for _, name := range []string{"ballad-eighths", "swing", "pulse"} {
		var b strings.Builder
		if err := PictureAll(&b, Builtin().Feels[name]); err != nil {
			t.Fatal(err)
		}
		path := "testdata/picture-" + name + ".txt"
		if *update {
			if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if b.String() != string(want) {
			t.Errorf("%s: the picture has changed (go test -update rewrites it):\n%s", name, b.String())
		}
	}
}

// TestPictureFits: every picture stays within 80 columns.
func TestPictureFits(t *testing.T) {
	for _, name := range Names() {
		for e := 1; e <= 5; e++ {
			for _, l := range strings.Split(Picture(Builtin().Feels[name], e), "\n") {
				if len(l) > 80 {
					t.Errorf("%s %d: %d columns: %s", name, e, len(l), l)
				}
			}
		}
	}
}

// TestPictureIsAGroove: the rows of a picture, put into a groove file, are the
// level again.
func TestPictureIsAGroove(t *testing.T) {
	for _, name := range Names() {
		f := Builtin().Feels[name]
		if len(f.Meters) == 0 {
			continue
		}
		for e := 1; e <= 5; e++ {
			rows, order, figures := map[string]string{}, []string{}, []string(nil)
			for _, l := range strings.Split(Picture(f, e), "\n") {
				if l == "and in answer" {
					break
				}
				word, row, ok := strings.Cut(strings.TrimSpace(l), "  ")
				if !ok || strings.HasPrefix(l, "energy") || strings.HasPrefix(l, "   ") {
					continue
				}
				if n := len(figures); strings.HasPrefix(word, "comp ") {
					figures = append(figures, strings.TrimSpace(row))
					continue
				} else if word == "left" && n > 0 {
					figures[n-1] += "/" + strings.TrimSpace(row)
					continue
				}
				if rows[word] == "" {
					order = append(order, word)
				}
				rows[word] += strings.TrimSpace(row)
			}
			src := "groove \"again\" {\n meter = \"" + f.Meters[0].String() + "\"\n kit = " +
				"\"" + f.Kit + "\"\n grid = " + strconv.Itoa(f.Grid) + "\n level \"1\" {\n"
			for _, w := range order {
				src += w + " = \"" + rows[w] + "\"\n"
			}
			if len(figures) > 0 {
				src += "comp = [\"" + strings.Join(figures, "\", \"") + "\"]\n"
			}
			feels, _, diags := Decode("again.hcl", []byte(src+" }\n}\n"))
			if len(diags) > 0 {
				t.Fatalf("%s %d: %v\n%s", name, e, diags, src)
			}
			got, want := feels[0].Levels[0], f.Levels[e-1]
			got.Energy, got.Voices, got.Centre = want.Energy, want.Voices, want.Centre
			want.Answer = nil
			if !reflect.DeepEqual(got, want) {
				t.Errorf("%s %d: read back from its picture it differs:\n%s", name, e, src)
			}
		}
	}
}
