//go:build linux

package process

import (
	"bufio"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// helper is set for the program in between, which this test starts of itself.
const helper = "KERFSIDE_TEST_STARTS_A_PROGRAM"

// A program ends with the one that started it, although that one is killed and can
// do nothing about it, and although the program has a group of its own.
func TestEndWithUs(t *testing.T) {
	if os.Getenv(helper) != "" {
		c := exec.Command("sleep", "300")
		OwnGroup(c)
		EndWithUs(c)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		os.Stdout.WriteString("pid " + strconv.Itoa(c.Process.Pid) + "\n")
		c.Wait()
		return
	}
	between := exec.Command(os.Args[0], "-test.run=^TestEndWithUs$")
	between.Env = append(os.Environ(), helper+"=1")
	out, err := between.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := between.Start(); err != nil {
		t.Fatal(err)
	}
	pid := ""
	for lines := bufio.NewScanner(out); pid == "" && lines.Scan(); {
		pid, _ = strings.CutPrefix(lines.Text(), "pid ")
	}
	if err := between.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	between.Wait()
	for { // until the system has done it; the time limit of the tests ends a wait in vain
		stat, err := os.ReadFile("/proc/" + pid + "/stat")
		_, rest, _ := strings.Cut(string(stat), ") ")
		if err != nil || strings.HasPrefix(rest, "Z") || strings.HasPrefix(rest, "X") {
			return
		}
		time.Sleep(time.Millisecond)
	}
}
