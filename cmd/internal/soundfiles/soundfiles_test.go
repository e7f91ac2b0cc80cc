package soundfiles

import (
	"slices"
	"testing"

	"plinth/render/heard"
)

// Singers may be called as they like; their files have plain names, no two alike even where capitals count for nothing.
func TestStemNames(t *testing.T) {
	song := &heard.Song{}
	for _, name := range []string{"Drums", "Bass", "bass", "../up", "Łucja & co", "…", "BASS"} {
		song.Parts = append(song.Parts, heard.Part{Name: name})
	}
	want := []string{"Drums", "Bass", "bass-2", "up", "Łucja-co", "singer", "BASS-3"}
	if got := stemNames(song); !slices.Equal(got, want) {
		t.Errorf("%q, expected %q", got, want)
	}
}
