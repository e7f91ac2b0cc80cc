package live

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/groove"
	"plinth/songspec/outline"
)

// BenchmarkRebuild is what lies between a save that was found to be whole and
// the new file: one chord of the long example changes each time.
func BenchmarkRebuild(b *testing.B) {
	song, err := filepath.Abs(filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	if err != nil {
		b.Fatal(err)
	}
	src, err := os.ReadFile(song)
	if err != nil {
		b.Fatal(err)
	}
	texts := []string{string(src), strings.Replace(string(src), "| Cm7 ", "| C7 ", 1)}
	cache := &groove.Cache{}
	dir := b.TempDir()
	var last *bed.Result
	for i := 0; i < b.N; i++ {
		res, err := bed.Build(bed.Request{Song: song, Cache: cache, ReadFile: func(p string) ([]byte, error) {
			if p == song {
				return []byte(texts[i%2]), nil
			}
			return os.ReadFile(p)
		}})
		if err != nil || res.Failed() {
			b.Fatal(err, res.Diags)
		}
		if written, err := files.WriteAll(dir, res.Outputs); err != nil || len(written) != 1 {
			b.Fatal(written, err)
		}
		if last != nil && outline.Summary(outline.Diff(last.Timeline, res.Timeline)) == "" {
			b.Fatal("no difference")
		}
		last = res
	}
}
