package main

import (
	"bufio"
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
		Args: takes(0, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			names := library.Names()
			if len(args) == 1 {
				if _, ok := library.Source(args[0]); !ok {
					return misused("there is no feel %q; %s", args[0], offer(args[0], names))
				}
				names = args
			}
			w := bufio.NewWriter(a.out)
			switch {
			case asHCL && len(args) == 0:
				return misused("--hcl prints one feel: name it")
			case asHCL:
				src, _ := library.Source(args[0])
				w.Write(src) // Flush has the error
			default:
				if err := pictures(w, names); err != nil {
					return machine(err)
				}
			}
			if err := w.Flush(); err != nil {
				return machine(err)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asHCL, "hcl", false, "print the named feel as a groove file")
	return cmd
}

// pictures draws feels, and when they are several, lists them at the end, where
// they are still on the screen.
func pictures(w io.Writer, names []string) error {
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

// offer is the nearest name, or all of them.
func offer(written string, names []string) string {
	if n := wording.Nearest(written, names); n != "" {
		return fmt.Sprintf("is it %q?", n)
	}
	return "there is " + strings.Join(names, ", ")
}
