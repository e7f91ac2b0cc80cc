package plan_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plinth/groove/groovetest"
)

// frozen are the labels under which chance is drawn, each with its draw below 1000 for a
// verse at take 1. They are data: another label, or another hash, plays every song of
// every user otherwise. Lanes go on with the name of an instrument.
var frozen = map[string]int{
	"answer": 234, "band": 374, "bass figure": 274, "comp ahead": 929, "comp answer": 184, "comp close": 9,
	"comp figure": 855, "comp figures": 969, "comp hold": 206, "comp release": 649, "comp voices": 766,
	"drum bar": 482, "drum entry": 462, "drum hit": 300, "drum home": 720, "drum joint": 43, "drum lead": 938,
	"fill": 512, "lane ": 56, "lane bass": 702, "lane kick": 621, "lane piano": 809, "phrase": 128, "sway": 83,
	"variant": 639,
}

func TestLabelsOfChanceAreFrozen(t *testing.T) {
	p := groovetest.PlanOf(groovetest.PassOf(t, "C", 3), groovetest.CompFeel("c==============="))
	for _, label := range slices.Sorted(maps.Keys(frozen)) {
		if got := p.Chance(label).Below(1000); got != frozen[label] {
			t.Errorf("%q: drew %d, and in songs that are built already %d", label, got, frozen[label])
		}
	}
	used := map[string]bool{}
	err := filepath.WalkDir("..", func(file string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") ||
			strings.HasSuffix(file, "plan/chance.go") {
			return err
		}
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(tree, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) != 1 {
				return true
			}
			if f, ok := call.Fun.(*ast.SelectorExpr); !ok || f.Sel.Name != "Chance" && f.Sel.Name != "SectionChance" {
				return true
			}
			arg := call.Args[0]
			if sum, ok := arg.(*ast.BinaryExpr); ok {
				arg = sum.X
			}
			label, ok := arg.(*ast.BasicLit)
			if !ok {
				t.Errorf("%s draws under a label that is not written there", file)
				return true
			}
			word, _ := strconv.Unquote(label.Value)
			used[word] = true
			if _, known := frozen[word]; !known {
				t.Errorf("%s draws under %s, which is a new label", file, label.Value)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for label := range frozen {
		if !used[label] && !strings.HasPrefix(label, "lane ") {
			t.Errorf("nothing is drawn under %q any more", label)
		}
	}
}
