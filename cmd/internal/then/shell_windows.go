package then

import (
	"context"
	"os/exec"
	"strconv"
	"syscall"
)

// shell runs a line as typed; cmd has rules for quotes of its own, so the line
// goes to it untouched. With the command ends all that it started; of what it has
// left behind at its own end nothing is known any more, so sweep has nothing to do.
func shell(ctx context.Context, line string) (cmd *exec.Cmd, sweep func()) {
	cmd = exec.CommandContext(ctx, "cmd")
	cmd.SysProcAttr = &syscall.SysProcAttr{CmdLine: `cmd /D /S /C "` + line + `"`,
		CreationFlags: syscall.CREATE_NEW_PROCESS_GROUP}
	cmd.Cancel = func() error {
		if err := exec.Command("taskkill", "/T", "/F", "/PID", strconv.Itoa(cmd.Process.Pid)).Run(); err != nil {
			return cmd.Process.Kill()
		}
		return nil
	}
	return cmd, func() {}
}
