package job

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/vector"
)

// TestJobs compares invented jobs with what is to be said of them, and prints them as a
// table. The middle of each was worked by hand; its range is as it was told when the
// sentence was read and found right, for nobody plays 128 jobs by hand.
func TestJobs(t *testing.T) {
	text, err := os.ReadFile("../../testdata/job/jobs.txt")
	if err != nil {
		t.Fatal(err)
	}
	cases, err := vector.Parse(string(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		a, err := JobPlan.Calculator().Calculate(c.Input)
		var reply []byte
		if err != nil {
			reply, _ = json.Marshal(map[string]any{"error": err})
		} else if reply, err = json.Marshal(a); err != nil {
			t.Fatal(err)
		}
		for _, wrong := range c.Check(reply) {
			t.Errorf("line %d, %s: %s", c.Line, c.Name, wrong)
		}
		if a != nil {
			verdict, _ := a.Results().Get("verdict")
			t.Logf("%-50s %v", c.Name, verdict)
		}
	}
	if runtime.GOOS != "js" { // once is enough to be counted
		t.Logf("tally: %d invented jobs, and what is said of each", len(cases))
	}
}

// drawnJob is a job at random, as it is entered.
func drawnJob(r *rand.Rand) map[string]any {
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	var cuts []map[string]any
	for range 1 + r.IntN(5) {
		cuts = append(cuts, map[string]any{"metal": pick("mild-steel", "stainless", "aluminium"), "thickness": pick("1.5mm", "3mm", "6mm", "10mm", "20mm"), "length": fmt.Sprintf("%dmm", 50+r.IntN(2500)),
			"count": 1 + r.IntN(8), "pierces": r.IntN(3), "hand": pick("guided", "freehand")})
	}
	job := map[string]any{"cuts": cuts, "tips": "25:0.8mm,45:1.05mm", "min_current": "20A", "max_current": "45A", "pressure": "5bar", "labour": "60", "set_price": "9", "window": fmt.Sprintf("%dmin", 10+r.IntN(300)),
		"window_for": pick("daylight", "customer"), "marking": pick("each", "waits", "first", "helper"), "tip_minutes": fmt.Sprintf("%dmin", r.IntN(60)), "mark_own": r.IntN(20)}
	if r.IntN(4) > 0 {
		job["air_need"], job["free_air"], job["tank"] = pick("120l/min", "170l/min"), pick("60l/min", "120l/min", "250l/min"), pick("24l", "50l", "200l")
	}
	if r.IntN(4) > 0 {
		job["duty_points"] = pick("45A:35%,27A:60%", "45A:60%", "45A:100%")
	}
	if r.IntN(3) > 0 {
		job["volts"], job["cord_length"], job["size"], job["breaker"] = "230V", pick("10m", "25m", "100m"), pick("2.5mm²", "6mm²"), "32A"
	}
	if r.IntN(3) == 0 {
		job["units"] = "us"
	}
	return job
}

var figures = regexp.MustCompile(`about ([\d.]+)(?: to ([\d.]+))? `)

// endRange is when the last cut, or all, is done against the end of the window.
var endRange = regexp.MustCompile(`fits?: .*? about ([\d.]+)(?: to ([\d.]+))? (s|min|h) (before|after) (?:dark|the time is up)`)

// TestWordsAgree holds what is told of any job to its own figures: each range holds its
// value and its text holds the range; a job is said to fit only where its chance and its
// window say so, and sides of the window are those of the plan.
func TestWordsAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 6))
	told := map[string]int{}
	for i := range 200 {
		job := drawnJob(r)
		a, err := JobPlan.Calculator().CalculateValues(job)
		if err != nil {
			continue
		}
		get := func(key string) form.Value {
			v, _ := a.Results().Get(key)
			n, _ := v.(form.Value)
			return n
		}
		for _, key := range []string{"elapsed", "work", "arc", "price", "cost", "per_length"} {
			v := get(key)
			if v.Low > v.Value || v.Value > v.High || v.Low <= 0 {
				t.Errorf("job %d: %s is %g of %g to %g", i, key, v.Value, v.Low, v.High)
			}
			m := figures.FindStringSubmatch(v.Text + " ")
			if m == nil {
				t.Fatalf("job %d: %s is told as %q", i, key, v.Text)
			}
			size := map[bool]float64{true: 1}[key == "price" || key == "cost"]
			for word, seconds := range map[string]float64{" s": 1, " min": 60, " h": 3600} {
				if strings.HasSuffix(v.Text, word) {
					size = seconds
				}
			}
			if low, high := atof(m[1])*size, atof(m[2])*size; size > 0 && m[2] != "" && (low > v.Low*1.0001 || high < v.High*0.9999) {
				t.Errorf("job %d: %s, %g to %g, is told as %q", i, key, v.Low, v.High, v.Text)
			}
		}
		verdict, _ := a.Results().Get("verdict")
		say, chance := verdict.(string), get("chance").Value
		took := get("work")
		if job["window_for"] == "customer" {
			took = get("elapsed")
		}
		var window float64
		fmt.Sscanf(job["window"].(string), "%fmin", &window)
		spare := window*60 - took.Value
		lower := " " + strings.ToLower(say)
		kind := "in doubt"
		switch {
		case strings.Contains(lower, " fits: "):
			kind = "fits"
		case strings.Contains(lower, " does not fit: "):
			kind = "does not fit"
		}
		told[kind]++
		if want := map[string]bool{"fits": chance >= sure, "does not fit": chance <= 1-sure, "in doubt": chance > 1-sure && chance < sure}; !want[kind] {
			t.Errorf("job %d: chance %g, and it says %q", i, chance, say)
		}
		if kind == "fits" && (spare < 0 || window*60 < took.Low) || kind == "does not fit" && (spare > 0 || window*60 > took.High) {
			t.Errorf("job %d: %g s to spare of %g to %g, and it says %q", i, spare, took.Low, took.High, say)
		}
		if m := endRange.FindStringSubmatch(say); kind != "in doubt" && m != nil {
			size := map[string]float64{"s": 1, "min": 60, "h": 3600}[m[3]]
			low, high := atof(m[1])*size, atof(m[2])*size
			if m[2] == "" { // up to about
				low, high = 0, low
			}
			from, to := max(0, window*60-took.High), window*60-took.Low
			if m[4] == "after" {
				from, to = max(0, took.Low-window*60), took.High-window*60
			}
			if low > from+1 || high < to-1 || (m[4] == "before") != (kind == "fits") {
				t.Errorf("job %d: %g to %g s are left, and it says %q", i, from, to, say)
			}
		}
		if unknown := job["air_need"] == nil || job["duty_points"] == nil || job["volts"] == nil; unknown != strings.HasPrefix(say, "Not known: ") {
			if !strings.Contains(say, "left out") || unknown {
				t.Errorf("job %d: air %v, duty %v, volts %v, and it begins %q", i, job["air_need"], job["duty_points"], job["volts"], say)
			}
		}
	}
	t.Logf("%v", told)
	for _, kind := range []string{"fits", "does not fit", "in doubt"} {
		if told[kind] < 20 {
			t.Errorf("only %d jobs were told as %s", told[kind], kind)
		}
	}
}

func atof(s string) (v float64) {
	fmt.Sscanf(s, "%f", &v)
	return v
}
