package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"plinth/groove/library"
	"plinth/songspec/wording"
)

func (a *app) groovesCommand() *cobra.Command {
	var asHCL bool
	cmd := &cobra.Command{
		Use:   "grooves [NAME]",
		Short: "Show the feels as pictures",
		Long: `Shows each feel, or the one named, with its meter, the tempo range where it sits
well, and a picture of what the band plays at each energy; all of them end with a
list by name. With --hcl the named one is printed as a groove file: save it beside
a song, give it a name of its own, and name the file in the song's grooves.`,
		Args:              argCount(0, 1),
		ValidArgsFunction: firstArg(completeFeels),
		RunE: func(_ *cobra.Command, args []string) error {
			names := library.Names()
			if len(args) == 1 {
				if _, ok := library.Source(args[0]); !ok {
					if n := wording.Nearest(args[0], names); n != "" {
						return misuse("there is no feel %q; is it %q?", args[0], n)
					}
					return misuse("there is no feel %q; there is %s", args[0], strings.Join(names, ", "))
				}
				names = args
			}
			switch {
			case asHCL && len(args) == 0:
				return misuse("--hcl prints one feel: name it")
			case asHCL:
				src, _ := library.Source(args[0])
				return a.print(func(w io.Writer) error { _, err := w.Write(src); return err })
			}
			return a.print(func(w io.Writer) error { return writePictures(w, names) })
		},
	}
	cmd.Flags().BoolVar(&asHCL, "hcl", false, "print the named feel as a groove file")
	return cmd
}

// writePictures writes the pictures of feels. Where there are several, a list of all feels
// comes last, so that it is still on the screen.
func writePictures(w io.Writer, names []string) error {
	set := library.Load(names...)
	for i, name := range names {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if err := library.PictureAll(w, set.Feels[name]); err != nil {
			return err
		}
	}
	if len(names) == 1 {
		return nil
	}
	fmt.Fprintln(w)
	for _, e := range library.Index() {
		fmt.Fprintf(w, "%-18s %-5s %3d to %3d  %s\n", e.Name, e.Meters, e.TempoLow, e.TempoHigh, e.About)
	}
	return nil
}
