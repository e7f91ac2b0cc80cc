//go:build unix

package then

import (
	"context"
	"os/exec"
	"syscall"
	"time"
)

// shell runs a line in a process group of its own, so that what it started ends
// with it: asked first, then made to. It also keeps the terminal's Ctrl-C from
// reaching it twice.
func shell(ctx context.Context, line string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, "sh", "-c", line)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Cancel = func() error {
		group := -cmd.Process.Pid
		err := syscall.Kill(group, syscall.SIGTERM)
		go func() {
			for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
				if syscall.Kill(group, 0) != nil {
					return // all of the group are gone
				}
			}
			syscall.Kill(group, syscall.SIGKILL)
		}()
		return err
	}
	return cmd
}
