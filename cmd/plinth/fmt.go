package main

import (
	"bytes"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/groove/load"
	"plinth/songspec"
)

func (a *app) fmtCommand() *cobra.Command {
	var check bool
	cmd := &cobra.Command{
		Use:   "fmt FILE...",
		Short: "Lay song files out in the usual way",
		Long: `Rewrites each file in the usual layout: blocks indented, equals signs under one
another, in a chart the bar lines under one another, and what is too much for one line
on lines of its own. Chords, comments and blank lines stay, and so does the whole of a
file that cannot be read otherwise: what is wrong in it is said. With --check nothing
is written: the files that would change are named, and the exit code is 1 when there
is one. The file name - reads standard input and writes standard output.`,
		Args:              argCount(1, -1),
		ValidArgsFunction: songFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			worst := done
			for _, path := range args {
				code, err := a.layOut(path, check)
				if err != nil {
					return err
				}
				worst = max(worst, code)
			}
			if worst != done {
				return reported(worst)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&check, "check", false, "write nothing, name the files that would change")
	return cmd
}

// maxText is how much fmt reads, in bytes. The song file's own limit is lower and has its
// own message.
const maxText = 8 << 20

// layOut lays a file out, or standard input on standard output for the name "-", and
// returns the exit code for it.
func (a *app) layOut(path string, check bool) (int, error) {
	var src []byte
	var err error
	if path == "-" {
		if src, err = io.ReadAll(io.LimitReader(a.in, maxText+1)); err != nil {
			return 0, machineFailure(fmt.Errorf("cannot read standard input: %s", files.Reason(err)))
		}
	} else if src, err = files.Read(path, maxText); err != nil {
		return 0, readFailure(&bed.SongError{Path: path, Err: err})
	}
	out, code, err := a.format(path, src)
	switch same := bytes.Equal(src, out); {
	case err != nil || code != done:
		return code, err
	case check && !same:
		fmt.Fprintln(a.out, path)
		return songWrong, nil
	case check, same && path != "-":
		return done, nil
	case path == "-":
		_, err = a.out.Write(out)
	default:
		if _, err = files.Rewrite(path, out); err == nil {
			fmt.Fprintf(a.err, "laid out %s\n", path)
		}
	}
	if err != nil {
		return 0, machineFailure(err)
	}
	return done, nil
}

// format lays a text out. Its mistakes are shown, and then the code is songWrong.
func (a *app) format(name string, src []byte) (out []byte, code int, err error) {
	out, diags := songspec.Format(name, src)
	res := &bed.Result{Song: &load.Song{Diags: diags, Sources: map[string][]byte{name: src}}}
	if err := a.show(a.err, a.colorErr, res); err != nil {
		return nil, 0, machineFailure(err)
	}
	if res.Failed() {
		return nil, songWrong, nil
	}
	return out, done, nil
}
