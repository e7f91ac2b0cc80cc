package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/live"
	"plinth/cmd/internal/serve"
	"plinth/cmd/internal/soundbank"
	"plinth/render/page"
	"plinth/songspec"
)

func (a *app) watchCommand() *cobra.Command {
	var o live.Options
	var out, then, only, soundFont *textFlag
	var withPage bool
	var port int
	var replace *songspec.Override
	cmd := &cobra.Command{
		Use:   "watch FILE",
		Short: "Build, and build again on every save",
		Long: `Builds, and builds again whenever the song file, one of its groove files or its
guide vocal is saved, by any editor. What it says of a rebuild is one line: the
time of day, the bars, what changed in the music, and how long it took. A song with
a mistake leaves the last good files as they are. Ctrl-C ends it.

A file counts as saved when nothing has happened to it for 75 ms; a save without a
change does nothing. A file of ours that was deleted by hand comes back with the
next save that changes something.

Where the system sends no word of changes, as on network folders, the files are
looked at four times a second; --poll does so from the start.

--then runs a command of the system's shell after each good build. One that still
runs when the next build is done is ended first, with all that it started, so there
are never two. A program left in the background counts as long as it may print here.

--page also plays the song in a browser of this machine: open the address that is
printed. It plays on while you write, and what you save at the next bar line. The
address has a key, new each time: who has it hears the song, and nobody else does.
--port is for another port; what was set in the page is remembered by its port.
--soundfont is that of plinth build.

--only, --looseness, --take and --transpose are those of plinth build.`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 2 && cmd.Flags().Changed("poll") {
				if _, err := time.ParseDuration(args[1]); err == nil {
					return misuse("the time belongs to its flag: --poll=%s", args[1])
				}
			}
			return argCount(1, 1)(cmd, args)
		},
		ValidArgsFunction: firstArg(songFiles),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.Song, o.To, o.Color, o.MaxDiags = args[0], a.err, a.colorErr, maxShown
			o.Out, o.Then, o.Only, o.Override = out.text, then.text, only.text, *replace
			o.Poll = cmd.Flags().Changed("poll")
			switch {
			case withPage:
				found, err := soundbank.Find(soundFont.text)
				if err != nil {
					return machineFailure(err)
				}
				ports := serve.UsualPorts()
				if cmd.Flags().Changed("port") {
					ports = []int{port}
				}
				o.Page = &live.Page{Ports: ports, Sounds: page.Sounds{Bank: found, Sketch: found.Sketch}}
			case cmd.Flags().Changed("port"):
				return misuse("--port is for the page: --page --port %d", port)
			case soundFont.text != "":
				return misuse("--soundfont is for the page: --page --soundfont %s", quotedPath(soundFont.text))
			}
			ctx, stop := signal.NotifyContext(context.Background(), ends()...)
			defer stop()
			// A second Ctrl-C is for somebody who will not wait.
			context.AfterFunc(ctx, stop)
			if err := live.Run(ctx, o); err != nil {
				return readFailure(err)
			}
			return nil
		},
	}
	out, only, replace = outFlag(cmd), onlyFlag(cmd), replaceFlags(cmd)
	cmd.Flags().Var(&textFlag{value: "TIME", check: func(text string) (err error) {
		o.PollEvery, err = pollTime(text)
		return err
	}}, "poll", "look at the files every TIME (250ms), and wait for no word of the system")
	cmd.Flags().Lookup("poll").NoOptDefVal = "250ms"
	cmd.RegisterFlagCompletionFunc("poll", cobra.NoFileCompletions)
	cmd.Flags().BoolVar(&withPage, "page", false, "play the song in a browser of this machine, on and on as you save")
	cmd.Flags().Var(&textFlag{value: "N", check: func(text string) (err error) {
		port, err = portNumber(text)
		return err
	}}, "port", "serve the page on port N (default: the first of 27480 to 27487 that is free)")
	cmd.RegisterFlagCompletionFunc("port", cobra.NoFileCompletions)
	soundFont = soundFontFlag(cmd)
	then = nameFlag(cmd, "then", "COMMAND", "a command of the shell, in quotes", "run COMMAND after each good build")
	return cmd
}

// ends are the signals that end a command.
func ends() []os.Signal {
	out := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) { // nohup has it ignored
		out = append(out, syscall.SIGHUP) // the terminal is closed
	}
	return out
}
