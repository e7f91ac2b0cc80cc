//go:build unix

package then

import (
	"context"
	"os"
	"os/exec"
	"sync"
	"syscall"
	"time"
)

// shell runs a line in a process group of its own, so that what it started ends
// with it. That also keeps the terminal's Ctrl-C from reaching it twice. The group
// is asked to end when ctx is done; sweep, called after that and after the shell's
// end, returns when all of the group are gone or have been made to go. (A process
// that has ended counts until its new parent has taken note, which some containers'
// do late.)
func shell(ctx context.Context, line string) (cmd *exec.Cmd, sweep func()) {
	cmd = exec.CommandContext(ctx, "sh", "-c", line)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	var once sync.Once
	var asked time.Time
	ask := func() (err error) {
		once.Do(func() {
			asked = time.Now()
			err = syscall.Kill(-cmd.Process.Pid, syscall.SIGTERM)
		})
		if err == syscall.ESRCH {
			err = os.ErrProcessDone
		}
		return err
	}
	cmd.Cancel = ask
	sweep = func() {
		for ask(); time.Since(asked) < patience; time.Sleep(10 * time.Millisecond) {
			if syscall.Kill(-cmd.Process.Pid, 0) != nil {
				return
			}
		}
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
	}
	return cmd, sweep
}
