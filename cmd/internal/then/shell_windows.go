package then

import (
	"context"
	"os/exec"
	"strconv"
	"syscall"
)

// shell prepares a command line as it was typed: cmd has its own rules for quotes. When
// ctx is done the command ends with all that it started. What it left behind at its own
// end cannot be found any more, so sweep does nothing.
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
