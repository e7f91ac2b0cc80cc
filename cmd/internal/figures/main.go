// Figures measures what the band plays, and holds it against what a good band does.
//
//	go run ./cmd/internal/figures                           songs of its own, every feel, every player
//	go run ./cmd/internal/figures -player piano -feels ballad-eighths,bossa
//	go run ./cmd/internal/figures a.song.hcl b.song.hcl     these songs
//
// It prints a table: the figure, its aim, its value, and whether the value is within the aim.
// An aim "-" is a figure to look at. Each song is performed as it is written, in the take
// after that, and at each energy throughout; each figure says which of these it measures, and
// the comment of the function that measures it is its definition.
//
// With PLINTH_DATA set, the pianist is also measured under the voices of
// PLINTH_DATA/pop909-dev.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"

	"plinth/groove/library"
	"plinth/songspec/timeline"
)

func main() {
	songs := flag.Int("songs", 156, "songs of its own, where no song files are given")
	seed := flag.Int64("seed", 1, "another number, other songs")
	player := flag.String("player", "", "measure one player: drums, bass or piano")
	feels := flag.String("feels", "", "play only these grooves: a,b (of song files, measure only these)")
	flag.Parse()
	if err := run(flag.Args(), *songs, *seed, *player, *feels); err != nil {
		fmt.Fprintln(os.Stderr, "figures:", err)
		os.Exit(1)
	}
}

func run(paths []string, count int, seed int64, player, feels string) error {
	if player != "" && !slices.Contains(timeline.PlayerNames[:], player) {
		return fmt.Errorf("-player takes drums, bass or piano, not %q", player)
	}
	if len(paths) == 0 && count < 1 {
		return errors.New("no songs: no song files are given, and -songs is under 1")
	}
	var wanted []string
	if feels != "" {
		wanted = strings.Split(feels, ",")
	}
	var all []*song
	var err error
	if len(paths) > 0 {
		all, err = readSongs(paths, wanted)
	} else {
		for _, name := range wanted {
			if !slices.Contains(library.Names(), name) {
				return fmt.Errorf("there is no groove %q", name)
			}
		}
		all, err = ownSongs(count, seed, wanted)
	}
	if err != nil {
		return err
	}
	t := &table{}
	if player == "" || player == "piano" {
		pianoFigures(t, all)
		if err := vocalFigures(t, os.Getenv("PLINTH_DATA")); err != nil {
			return err
		}
	}
	if player == "" || player == "bass" {
		bassFigures(t, all)
	}
	if player == "" || player == "drums" {
		drumFigures(t, all)
	}
	if player == "" {
		bandFigures(t, all)
	}
	return t.write(os.Stdout)
}
