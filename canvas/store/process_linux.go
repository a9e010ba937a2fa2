package store

import (
	"bytes"
	"os"
	"strconv"
	"syscall"
)

// processMark tells a process from every other that has or had its number:
// the boot it runs in and the tick it started at, as proc(5) gives them in
// /proc/sys/kernel/random/boot_id and field 22 of /proc/PID/stat. Empty if
// there is no such process, or no /proc.
func processMark(pid int) string {
	stat, err := os.ReadFile("/proc/" + strconv.Itoa(pid) + "/stat")
	if err != nil {
		return ""
	}
	boot, err := os.ReadFile("/proc/sys/kernel/random/boot_id")
	if err != nil {
		return ""
	}
	// Field 2 is the program's name in brackets and may hold blanks: count
	// from behind the last bracket, where field 3 begins.
	fields := bytes.Fields(stat[bytes.LastIndexByte(stat, ')')+1:])
	const startTime = 22 - 3
	if len(fields) <= startTime {
		return ""
	}
	if state := fields[0][0]; state == 'Z' || state == 'X' {
		return "" // ended, and its number not yet given back
	}
	return string(bytes.TrimSpace(boot)) + "/" + string(fields[startTime])
}

func processRuns(pid int) bool {
	err := syscall.Kill(pid, 0)
	return err == nil || err == syscall.EPERM
}
