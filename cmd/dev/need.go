package main

import (
	"fmt"
	"os"
	"os/exec"
	"path"
	"runtime"
	"strings"

	"kerfside/calc/outside"
	"kerfside/cmd/internal/browser"
)

// need makes sure that a program is there: it looks, else installs the Debian
// packages that hold it, else says what to install.
func need(what string, find func() error, packages ...string) error {
	if find() == nil {
		return nil
	}
	apt, err := aptGet()
	if err != nil {
		return fail(fmt.Sprintf("%s is missing and cannot be installed from here: %v", what, err),
			"Install it (on Debian and Ubuntu: apt-get install "+strings.Join(packages, " ")+") and run the task again.")
	}
	say("installing %s (%s)", what, strings.Join(packages, " "))
	if err := apt("update", "-q").quiet(); err != nil {
		return err
	}
	if err := apt(append([]string{"install", "-q", "-y", "--no-install-recommends"}, packages...)...).quiet(); err != nil {
		return err
	}
	if err := find(); err != nil {
		return fail(fmt.Sprintf("installed %s, yet %s does not run: %v", strings.Join(packages, " "), what, err), "Install "+what+" by hand and run the task again.")
	}
	return nil
}

// aptGet returns how apt-get is called by this user, without a password.
func aptGet() (func(args ...string) command, error) {
	if runtime.GOOS != "linux" {
		return nil, fmt.Errorf("this is %s, not Debian", runtime.GOOS)
	}
	if _, err := exec.LookPath("apt-get"); err != nil {
		return nil, fmt.Errorf("there is no apt-get")
	}
	words := []string{"apt-get"}
	if os.Geteuid() != 0 {
		if err := cmd("sudo", "-n", "true").quiet(); err != nil {
			return nil, fmt.Errorf("apt-get needs root, and sudo asks for a password")
		}
		words = []string{"sudo", "-n", "DEBIAN_FRONTEND=noninteractive", "apt-get"}
	}
	return func(args ...string) command {
		all := append(append([]string(nil), words...), args...)
		return cmd(all[0], all[1:]...).with("DEBIAN_FRONTEND=noninteractive")
	}, nil
}

// onPath returns a finder for a program on the PATH.
func onPath(name string) func() error {
	return func() error {
		_, err := exec.LookPath(name)
		return err
	}
}

// needCompiler makes sure of a C compiler, which the SQLite driver needs.
func needCompiler() error {
	return need("a C compiler", func() error {
		if cc, err := cmd("go", "env", "CC").output(); err == nil {
			if words := strings.Fields(cc); len(words) > 0 && onPath(words[0])() == nil {
				return nil
			}
		}
		return onPath("gcc")()
	}, "gcc", "libc6-dev")
}

// needNode makes sure of Node and npm.
func needNode() error {
	if err := need("Node", onPath("node"), "nodejs"); err != nil {
		return err
	}
	return need("npm", onPath("npm"), "npm")
}

// needChromium makes sure of a Chromium that starts.
func needChromium() error {
	return need("Chromium", func() error {
		_, err := browser.Find()
		return err
	}, "chromium")
}

// needFirefox makes sure of a Firefox.
func needFirefox() error {
	return need("Firefox", func() error {
		_, err := browser.FindFirefox()
		return err
	}, "firefox-esr")
}

// needWebKit makes sure of a WebKit that can be driven, on a screen that nobody
// sees.
func needWebKit() error {
	return need("WebKit", browser.FindWebKit, "webkit2gtk-driver", "gir1.2-webkit2-4.1", "gjs", "xvfb")
}

// needPages makes sure of what stands in front of a server, or beside it, on the
// pages of /help.
func needPages() error {
	for _, program := range []string{"/usr/sbin/nginx", "caddy", "sqlite3", "rsync", "curl"} {
		if err := need(path.Base(program), onPath(program), path.Base(program)); err != nil {
			return err
		}
	}
	return nil
}

// needOutside makes sure of all that the sums are compared with.
func needOutside() error {
	var packages []string
	for _, tool := range outside.Tools {
		packages = append(packages, tool.Debian)
	}
	return need("what the sums are compared with", func() error {
		for _, tool := range outside.Tools {
			if err := tool.Find(); err != nil {
				return err
			}
		}
		return nil
	}, packages...)
}

// needReaders makes sure of what reads the man page and the completion of command
// lines.
func needReaders() error {
	return need("readers of man pages and shells", func() error {
		for _, name := range []string{"mandoc", "man", "groff", "bash", "zsh", "fish"} {
			if err := onPath(name)(); err != nil {
				return err
			}
		}
		return nil
	}, "mandoc", "man-db", "groff-base", "bash", "zsh", "fish")
}
