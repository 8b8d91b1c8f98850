package layout

import (
	"math"
	"strings"
	"testing"

	"kerfside/calc/form"
	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// pipeForm asks for one pipe and answers nothing.
func pipeForm() *form.Calculator {
	return &form.Calculator{Name: "pipe", Fields: append(pipeFields("header", "Header"), tapeField())}
}

func pipeOf(values map[string]any) (Pipe, error) {
	r := form.NewReader(pipeForm(), values)
	p := readPipe(r, "header")
	return p, r.Err()
}

// TestPipeSizes holds the sizes to what a second copy of the tables says.
func TestPipeSizes(t *testing.T) {
	walls := map[string]map[string]float64{ // 0 where none is listed
		"1/2in":   {"5": 1.65, "10": 2.11, "80": 3.73, "160": 4.78, "xxs": 7.47},
		"3/4in":   {"5": 1.65, "10": 2.11, "40": 2.87, "80": 3.91, "160": 5.56, "xxs": 7.82},
		"1in":     {"5": 1.65, "10": 2.77, "80": 4.55, "160": 6.35, "xxs": 9.09},
		"1-1/4in": {"5": 1.65, "10": 2.77, "80": 4.85, "160": 6.35, "xxs": 9.70},
		"1-1/2in": {"5": 1.65, "10": 2.77, "80": 5.08, "160": 7.14, "xxs": 10.15},
		"2in":     {"5": 1.65, "10": 2.77, "160": 8.74, "xxs": 11.07},
		"2-1/2in": {"5": 2.11, "10": 3.05, "80": 7.01, "160": 9.53, "xxs": 14.02},
		"3in":     {"5": 2.11, "10": 3.05, "160": 11.13, "xxs": 15.24},
		"3-1/2in": {"5": 2.11, "10": 3.05, "40": 5.74, "80": 8.08, "160": 0, "xxs": 0},
		"4in":     {"5": 2.11, "10": 3.05, "160": 13.49, "xxs": 17.12},
		"5in":     {"5": 2.77, "10": 3.40, "80": 9.53, "160": 15.88, "xxs": 19.05},
		"6in":     {"5": 2.77, "10": 3.40, "160": 18.26, "xxs": 21.95},
		"8in":     {"5": 2.77, "10": 3.76, "80": 12.70, "160": 23.01, "xxs": 22.23},
		"10in":    {"5": 3.40, "10": 4.19, "xs": 12.70, "80": 15.09, "160": 28.58, "xxs": 25.40},
		"12in":    {"5": 3.96, "10": 4.57, "std": 9.53, "40": 10.31, "xs": 12.70, "80": 17.48, "160": 33.32, "xxs": 25.40},
		"dn15":    {"std": 2.6}, "dn20": {"std": 2.6}, "dn25": {"std": 3.2}, "dn40": {"std": 3.2}, "dn50": {"std": 3.6}, "dn65": {"std": 3.6}, "dn80": {"std": 4.0}, "dn100": {"std": 4.5},
		"dn125": {"std": 5.0}, "dn150-threaded": {"std": 5.0},
	}
	for size, by := range walls {
		for schedule, want := range by {
			p, err := pipeOf(map[string]any{"header_size": size, "header_schedule": schedule})
			if want == 0 {
				if problem.From(err) == nil || problem.From(err).Field != "header_schedule" {
					t.Errorf("%s %s: want a refusal of the schedule, got %v, %v", size, schedule, p, err)
				}
			} else if got := float64(p.Wall) * 1000; err != nil || math.Abs(got-want) > 1e-9 {
				t.Errorf("%s %s: %.4g mm, %v, want %v mm", size, schedule, got, err, want)
			}
		}
	}
	diameters := map[string]float64{"3/4in": 26.7, "3-1/2in": 101.6, "12in": 323.8, "dn20": 26.9, "dn32": 42.4, "dn300": 323.9, "dn150-threaded": 165.1}
	for size, want := range diameters {
		if p, err := pipeOf(map[string]any{"header_size": size}); err != nil || math.Abs(float64(p.OD)*1000-want) > 1e-9 {
			t.Errorf("%s: %v outside, %v, want %v mm", size, p.OD, err, want)
		}
	}
}

// TestPipeTables: diameters rise, walls leave a bore, and where two names mean one
// wall they have one.
func TestPipeTables(t *testing.T) {
	inches := []float64{.84, 1.05, 1.315, 1.66, 1.9, 2.375, 2.875, 3.5, 4, 4.5, 5.563, 6.625, 8.625, 10.75, 12.75, 14, 16, 18, 20, 24}
	for i, s := range inchPipes {
		if i > 0 && s.od <= inchPipes[i-1].od {
			t.Errorf("%s in is no larger than the size before", s.name)
		}
		if off := float64(s.od)/100 - 25.4*inches[i]; math.Abs(off) > 0.41 { // 18 in and 24 in are whole millimetres
			t.Errorf("%s in: %v of the inches are off by %.2f mm", s.name, inches[i], off)
		}
		std, xs, forty, eighty := s.wall[0], s.wall[1], s.wall[4], s.wall[5]
		if i <= 13 != (std == forty) {
			t.Errorf("%s in: STD %d and Schedule 40 %d", s.name, std, forty)
		}
		if i <= 12 != (xs == eighty) {
			t.Errorf("%s in: XS %d and Schedule 80 %d", s.name, xs, eighty)
		}
		if !(s.wall[2] < s.wall[3] && s.wall[3] < std && std < xs && forty < eighty) {
			t.Errorf("%s in: walls out of order: %v", s.name, s.wall)
		}
	}
	for i, s := range dnTubes {
		if i > 0 && s.od <= dnTubes[i-1].od {
			t.Errorf("DN %s is no larger than the size before", s.name)
		}
	}
	for _, s := range append(inchPipes[:], dnTubes[:]...) {
		for i, w := range s.wall {
			if 2*w >= s.od {
				t.Errorf("%s %s leaves no bore", s.name, schedules[i])
			}
		}
	}
	for _, pair := range [][2]string{{"dn65", "2-1/2in"}, {"dn125", "5in"}, {"dn150-threaded", "6in"}} {
		a, _ := pipeOf(map[string]any{"header_size": pair[0]})
		b, _ := pipeOf(map[string]any{"header_size": pair[1]})
		if math.Abs(float64(a.OD-b.OD)) < 0.0015 {
			t.Errorf("%s and %s are taken for one", pair[0], pair[1])
		}
	}
}

// TestPipeMeasured: what is measured wins over the size and is said, and a girth is
// less by the tape.
func TestPipeMeasured(t *testing.T) {
	p, err := pipeOf(map[string]any{"header_size": "2in", "header_od": "61mm"})
	if err != nil || p.OD != 61*unit.Millimetre || !strings.Contains(p.Name, "as measured") || math.Abs(float64(p.Wall)-0.00391) > 1e-12 {
		t.Errorf("2 in, measured 61 mm: %+v, %v", p, err)
	}
	for _, tape := range []float64{0, 0.1, 0.5} {
		girth := unit.In(unit.Length(math.Pi*(60.3+tape)*1e-3), "mm")
		p, err := pipeOf(map[string]any{"header_size": "measured", "header_girth": math.Pi * (60.3 + tape), "header_wall": "4mm", "tape_thickness": tape})
		if err != nil || math.Abs(float64(p.OD)-0.0603) > 1e-9 || p.Bore() != p.OD-8*unit.Millimetre || p.Name != "pipe as measured" {
			t.Errorf("girth %s, tape %v: %+v, %v", girth, tape, p, err)
		}
	}
	for _, bad := range []struct {
		values map[string]any
		field  string
	}{
		{map[string]any{}, "header_size"},
		{map[string]any{"header_size": "measured", "header_wall": "4mm"}, "header_od"},
		{map[string]any{"header_size": "measured", "header_od": "60mm"}, "header_wall"},
		{map[string]any{"header_size": "measured", "header_od": "60mm", "header_girth": "190mm", "header_wall": "4mm"}, "header_girth"},
		{map[string]any{"header_size": "measured", "header_od": "60mm", "header_wall": "30mm"}, "header_wall"},
		{map[string]any{"header_size": "dn200", "header_schedule": "xs"}, "header_schedule"},
	} {
		p, err := pipeOf(bad.values)
		if e := problem.From(err); err == nil || e.Field != bad.field || e.Hint == "" {
			t.Errorf("%v: %+v, %v, want a trouble with %s", bad.values, p, err, bad.field)
		}
	}
}
