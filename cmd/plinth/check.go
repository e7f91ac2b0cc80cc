package main

import (
	"errors"
	"fmt"

	"github.com/hashicorp/hcl/v2"
	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
)

func (a *app) checkCommand() *cobra.Command {
	var format *textFlag
	cmd := &cobra.Command{
		Use:   "check FILE...",
		Short: "Say everything that is wrong or doubtful, and write nothing",
		Long: `Reads and plays each song and says everything that is wrong or doubtful in it and
in its own groove files, and, bar by bar, what a player could not play or what is
more than a bed needs. Nothing is written. The exit code is 1 when there is an
error; a warning alone is no error. plinth help WORD tells what a word of the song
file may say, and plinth help song all of them.`,
		Args:              argCount(1, -1),
		ValidArgsFunction: songFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			worst := done
			findings := []finding{} // an empty list is [] in JSON
			for _, song := range args {
				res, err := bed.Build(bed.Request{Song: song})
				res.Diags = append(res.Diags, res.Remarks...)
				res.Diags = append(res.Diags, res.VoiceCheck()...)
				res.Diags = append(res.Diags, res.Audit(song)...)
				if format.text == "json" {
					findings = append(findings, findingsOf(res.Diags)...)
				} else if err := a.show(a.out, a.colorOut, res); err != nil {
					return machineFailure(err)
				}
				switch {
				case err != nil:
					f := &failure{}
					errors.As(readFailure(err), &f)
					fmt.Fprintf(a.err, "plinth: %v\n", f)
					worst = max(worst, f.code)
				case res.Failed():
					worst = max(worst, songWrong)
				case len(res.Diags) == 0 && format.text == "text":
					fmt.Fprintf(a.err, "%s: nothing wrong\n", song)
				}
			}
			if format.text == "json" {
				if err := writeJSON(a.out, findings); err != nil {
					return machineFailure(err)
				}
			}
			if worst != done {
				return reported(worst)
			}
			return nil
		},
	}
	format = formatFlag(cmd, "FORMAT is text (the default), or json for editors and scripts", "text", "json")
	return cmd
}

// finding is a mistake or a doubt as JSON. Lines and columns count from 1, columns in
// characters. The end is the first column after the finding.
type finding struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
	Severity  string `json:"severity"` // "error" or "warning"
	Summary   string `json:"summary"`
	Detail    string `json:"detail"`
}

func findingsOf(diags hcl.Diagnostics) []finding {
	var out []finding
	for _, d := range diags {
		f := finding{Severity: "error", Summary: d.Summary, Detail: d.Detail}
		if d.Severity == hcl.DiagWarning {
			f.Severity = "warning"
		}
		if s := d.Subject; s != nil {
			f.File, f.Line, f.Column, f.EndLine, f.EndColumn = s.Filename, s.Start.Line, s.Start.Column, s.End.Line,
				s.End.Column
		}
		out = append(out, f)
	}
	return out
}
