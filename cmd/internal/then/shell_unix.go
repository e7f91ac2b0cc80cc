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

// shell prepares a command line in a process group of its own, so that what it started ends
// with it and the terminal's Ctrl-C does not reach it twice. The group is asked to end
// when ctx is done. sweep is called after that and after the shell's end; it returns when
// the whole group has ended or was killed. (A process that has ended counts until its new
// parent has collected it, which takes long in some containers.)
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
