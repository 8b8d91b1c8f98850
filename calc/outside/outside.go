// Package outside asks programs of other people what our sums should give, for
// tests alone: GNU Units, PsychroLib, R's survival analysis, LibreOffice's spreadsheet,
// Poppler and qpdf for pages, and Python's libraries of flow, statistics, geometry,
// pictures, tables, calendars and drawings.
// No file that is not a test imports it.
//
// Drivers are small scripts in testdata/outside. Each reads one JSON value from
// its standard input and writes one to its standard output. Programs and
// libraries are what Debian packages and cmd/dev/npm hold; the task test -long
// installs them.
//
// Where a program is missing the test is skipped, and so listed as not run; in
// the long test, which sets KERFSIDE_COMPARE=1, it fails.
package outside

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
)

// Tool is a program or library that a test compares with.
type Tool struct {
	Name    string // as people know it
	Program string // on the PATH
	Module  string // of Python
	Library string // of R
	Debian  string // package that holds it
}

// The tools, by what a driver has to name. Node and PsychroLib come with the
// tools of the phone's tests.
var (
	GNUUnits    = Tool{Name: "GNU Units", Program: "units", Debian: "units"}
	SciPy       = Tool{Name: "SciPy", Module: "scipy", Debian: "python3-scipy"}
	Fluids      = Tool{Name: "fluids", Module: "fluids", Debian: "python3-fluids"}
	ScikitImage = Tool{Name: "scikit-image", Module: "skimage", Debian: "python3-skimage"}
	Shapely     = Tool{Name: "Shapely", Module: "shapely", Debian: "python3-shapely"}
	Survival    = Tool{Name: "R's survival", Library: "survival", Debian: "r-cran-survival"}
	Calc        = Tool{Name: "LibreOffice Calc", Program: "soffice", Debian: "libreoffice-calc-nogui"}
	CSV         = Tool{Name: "Python's csv", Module: "csv", Debian: "python3"}
	VObject     = Tool{Name: "vobject", Module: "vobject", Debian: "python3-vobject"}
	Poppler     = Tool{Name: "Poppler", Program: "pdftoppm", Debian: "poppler-utils"}
	QPDF        = Tool{Name: "qpdf", Program: "qpdf", Debian: "qpdf"}
	Ezdxf       = Tool{Name: "ezdxf", Module: "ezdxf", Debian: "python3-ezdxf"}
	Recurring   = Tool{Name: "recurring-ical-events", Module: "recurring_ical_events", Debian: "python3-recurring-ical-events"}
)

// Tools lists all that the long test installs for comparisons.
var Tools = []Tool{GNUUnits, SciPy, Fluids, ScikitImage, Shapely, Survival, Calc, CSV, VObject, Recurring, Poppler, QPDF, Ezdxf}

// Find returns an error that names the tool if it cannot be run here.
func (t Tool) Find() error {
	var err error
	switch {
	case t.Module != "":
		_, err = python(t)
	case t.Library != "":
		err = exec.Command(rscript, "--vanilla", "-e", "q(status = !nzchar(system.file(package = '"+t.Library+"')))").Run()
	default:
		_, err = exec.LookPath(t.Program)
	}
	if err != nil {
		return fmt.Errorf("%s is missing (on Debian: apt-get install %s; test -long does that)", t.Name, t.Debian)
	}
	return nil
}

// python returns the interpreter that has the module of t. Debian's own is tried
// first: another one on the PATH does not see Debian's libraries.
func python(t Tool) (string, error) {
	const look = "import importlib.util, sys; sys.exit(importlib.util.find_spec(sys.argv[1]) is None)"
	err := fmt.Errorf("no Python found")
	for _, name := range []string{"/usr/bin/python3", "python3"} {
		if err = exec.Command(name, "-c", look, t.Module).Run(); err == nil {
			return name, nil
		}
	}
	return "", err
}

// Python runs a driver that needs the tool, gives it ask as JSON and reads its
// answer into answer.
func Python(t testing.TB, tool Tool, driver string, ask, answer any) {
	t.Helper()
	program, err := python(tool)
	if err != nil {
		absent(t, tool.Find())
	}
	talk(t, exec.Command(program, path("testdata", "outside", driver)), ask, answer)
}

// rscript runs R's scripts; the libraries of R that Debian packages bring it along.
const rscript = "Rscript"

// R runs a driver that needs the library, and gives it lines; it answers each with
// one line of numbers.
func R(t testing.TB, tool Tool, driver string, lines []string) [][]float64 {
	t.Helper()
	if err := tool.Find(); err != nil {
		absent(t, err)
	}
	var said bytes.Buffer
	cmd := exec.Command(rscript, "--vanilla", path("testdata", "outside", driver))
	cmd.Stdin, cmd.Stderr = strings.NewReader(strings.Join(lines, "\n")+"\n"), &said
	out, err := cmd.Output()
	answers := strings.Split(strings.TrimSpace(string(out)), "\n")
	if err != nil || len(answers) != len(lines) {
		t.Fatalf("%s answered %d of %d: %v\n%s", driver, len(answers), len(lines), err, said.String())
	}
	numbers := make([][]float64, len(answers))
	for i, answer := range answers {
		for _, word := range strings.Fields(answer) {
			number, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatalf("%s on %s: %s", driver, lines[i], answer)
			}
			numbers[i] = append(numbers[i], number)
		}
	}
	return numbers
}

// PsychroLib runs the driver of the npm package psychrolib.
func PsychroLib(t testing.TB, ask, answer any) {
	t.Helper()
	library := path("cmd", "dev", "npm", "node_modules", "psychrolib")
	node, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat(library)
	}
	if err != nil {
		absent(t, fmt.Errorf("PsychroLib is missing (go run ./cmd/dev test installs it): %w", err))
	}
	talk(t, exec.Command(node, path("testdata", "outside", "psychrolib.js"), library), ask, answer)
}

// Units asks GNU Units for each pair of expressions what the first is in terms of
// the second. "tempF(70)" is 70 °F; the second of a temperature is "K".
func Units(t testing.TB, pairs [][2]string) []float64 {
	t.Helper()
	if err := GNUUnits.Find(); err != nil {
		absent(t, err)
	}
	var ask strings.Builder
	for _, p := range pairs {
		fmt.Fprintf(&ask, "%s\n%s\n", p[0], p[1])
	}
	cmd := exec.Command(GNUUnits.Program, "--quiet", "--terse", "--output-format", "%.15g")
	cmd.Env = append(os.Environ(), "LC_ALL=C", "UNITS_ENGLISH=US")
	cmd.Stdin = strings.NewReader(ask.String())
	out, err := cmd.Output()
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if err != nil || len(lines) != len(pairs) {
		t.Fatalf("GNU Units answered %d of %d: %v\n%s", len(lines), len(pairs), err, out)
	}
	numbers := make([]float64, len(lines))
	for i, line := range lines {
		if numbers[i], err = strconv.ParseFloat(strings.TrimSpace(line), 64); err != nil {
			t.Fatalf("GNU Units on %s in %s: %s", pairs[i][0], pairs[i][1], line)
		}
	}
	return numbers
}

// Near reports whether got and want differ by at most that share of want.
func Near(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// absent ends the test: as a failure where comparing is what was asked for.
func absent(t testing.TB, err error) {
	t.Helper()
	if os.Getenv("KERFSIDE_COMPARE") == "1" {
		t.Fatalf("not compared: %v", err)
	}
	t.Skipf("not compared: %v", err)
}

// talk runs a driver.
func talk(t testing.TB, cmd *exec.Cmd, ask, answer any) {
	t.Helper()
	question, err := json.Marshal(ask)
	if err != nil {
		t.Fatal(err)
	}
	var said bytes.Buffer
	cmd.Stdin, cmd.Stderr = bytes.NewReader(question), &said
	cmd.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1", "OPENBLAS_NUM_THREADS=1")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s", filepath.Base(cmd.Args[1]), err, said.String())
	}
	if err := json.Unmarshal(out, answer); err != nil {
		t.Fatalf("%s answered %.200q: %v", filepath.Base(cmd.Args[1]), out, err)
	}
}

// path returns a path from the top of the module.
func path(parts ...string) string {
	_, file, _, _ := runtime.Caller(0)
	return filepath.Join(append([]string{filepath.Dir(file), "..", ".."}, parts...)...)
}
