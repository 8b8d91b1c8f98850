package power

import (
	"strings"

	"kerfside/calc/problem"
	"kerfside/calc/source"
	"kerfside/calc/unit"
)

// Conductor is one size of copper conductor.
type Conductor struct {
	Label  string // "10 AWG", "2.5 mm²"
	Area   unit.Area
	AWG    bool // of the American series; otherwise metric
	Source source.ID

	ohms float64          // Ω/m at the temperature
	at   unit.Temperature // of its table
	grow float64          // 1/K, growth of ohms from there
}

// Strand is the make of a conductor.
type Strand string

const (
	Flexible Strand = "flexible" // cords and leads: IEC class 5 or 6, American stranded
	Solid    Strand = "solid"    // fixed wiring: IEC class 1 or 2, American solid
	Tinned   Strand = "tinned"   // IEC class 5, tinned
)

// Resistance returns the direct-current resistance of a length at a
// temperature of the copper.
//
//	American  R = R75·[1 + 0.00323·(t − 75)]    NEC chapter 9, table 8 and its note
//	metric    R = R20·(230 + t)/250             IEC 60228
//
// At the frequency of the mains these sizes have no other resistance to speak
// of; the coil of a cord left on its reel has.
func (c Conductor) Resistance(length unit.Length, t unit.Temperature) unit.Resistance {
	return unit.Resistance(c.ohms * float64(length) * (1 + c.grow*float64(t-c.at)))
}

// Warm is the temperature at which a conductor is reckoned when nothing else
// is known: that of table 8, or the limit of PVC.
func (c Conductor) Warm() unit.Temperature {
	if c.AWG {
		return unit.Celsius(75)
	}
	return unit.Celsius(70)
}

// Series returns the conductors of one series and make, thin ones first. Not
// every size is made in every way.
func Series(awg bool, strand Strand) []Conductor {
	var list []Conductor
	if awg {
		for _, row := range awgRows {
			ohms := map[Strand]float64{Flexible: row.stranded, Solid: row.solid}[strand]
			if ohms > 0 {
				list = append(list, Conductor{Label: row.name + " AWG", Area: unit.Area(row.mils) * unit.CircularMil, AWG: true, Source: "nec-ch9-t8",
					ohms: ohms / float64(1000*unit.Foot), at: unit.Celsius(75), grow: 0.00323})
			}
		}
		return list
	}
	for _, row := range metricRows {
		ohms := map[Strand]float64{Flexible: row.flexible, Solid: row.solid, Tinned: row.tinned}[strand]
		list = append(list, Conductor{Label: row.name + " mm²", Area: unit.Area(row.area) * unit.SquareMillimetre, Source: "iec-60228",
			ohms: ohms / 1000, at: unit.Celsius(20), grow: 1.0 / 250})
	}
	return list
}

// ParseConductor reads a size such as 10AWG, #10, 1/0, 2.5mm² or 2,5 mm2, or as a
// cord's jacket prints it, with the number of conductors: 10/3, 3C/12AWG, 3G2.5 or
// 3×2,5 mm², other words around it. A bare number could be either series and is
// refused.
func ParseConductor(text string, strand Strand) (Conductor, error) {
	name, awg, ok := readSize(text)
	if !ok {
		return Conductor{}, problem.Newf(problem.Malformed, "size", "%q does not say which series the size is of", text).WithHint("%s", sizeHint)
	}
	if awg && strand == Tinned {
		return Conductor{}, problem.New(problem.Conflict, "strand", "there is no table of tinned American conductors here", "Use flexible; tin adds 3 to 5 %.")
	}
	list := Series(awg, strand)
	for _, c := range list {
		if label, _, _ := strings.Cut(c.Label, " "); label == name {
			return c, nil
		}
	}
	return Conductor{}, problem.Newf(problem.Unknown, "size", "%q is no %s conductor in the table", text, strand).
		WithHint("From %s to %s. %s", list[0].Label, list[len(list)-1].Label, sizeHint)
}

const sizeHint = "Write such as 10AWG, 1/0AWG or 2.5mm², or as the jacket prints it: 10/3 or 3G2.5."

// readSize returns the bare name of a size and its series.
func readSize(text string) (name string, awg, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	if name, awg, ok = readPlain(t); ok && isSize(name) {
		return name, awg, true
	}
	if name, awg, ok := readJacket(strings.ReplaceAll(t, " ", "")); ok {
		return name, awg, true
	}
	t = strings.ReplaceAll(t, " awg", "awg") // one word
	for _, word := range strings.FieldsFunc(t, func(r rune) bool { return strings.ContainsRune(" ();", r) }) {
		if name, awg, ok := readJacket(word); ok {
			return name, awg, true
		}
	}
	return name, awg, ok
}

// isSize reports whether a name is a number alone, or an aught such as 2/0.
func isSize(name string) bool { return strings.Trim(name, "0123456789./") == "" }

// readJacket reads one word of a jacket's print: conductors and their size.
func readJacket(t string) (name string, awg, ok bool) {
	if name, awg, ok := readPlain(t); ok && isSize(name) {
		return name, awg, true // 12awg
	}
	for _, sign := range []string{"/", "-"} {
		size, count, cut := strings.Cut(t, sign)
		size = strings.TrimSuffix(size, "awg")
		if cut && size != "" && strings.Trim(size, "0123456789") == "" && isCount(strings.TrimSuffix(count, "c")) {
			return awgName(size), true, true // 10/3, 12awg/3c
		}
	}
	for _, sign := range []string{"c/", "g", "x", "×"} {
		count, size, cut := strings.Cut(t, sign)
		if !cut || !isCount(count) {
			continue
		}
		if name, awg, ok := readPlain(size); ok && isSize(name) {
			return name, awg, true // 3c/12awg, 3x2.5mm²
		}
		if n := metricName(size); n != "" && isSize(n) && sign != "c/" {
			return n, false, true // 3g2.5
		}
	}
	return "", false, false
}

// isCount reports whether t is a number of conductors in a cord.
func isCount(t string) bool { return len(t) == 1 && t >= "1" && t <= "9" }

// readPlain reads a size that stands alone.
func readPlain(t string) (name string, awg, ok bool) {
	for _, end := range []string{"mm²", "mm2", "mm^2", "sqmm", "sq mm"} {
		if n, found := strings.CutSuffix(t, end); found {
			return metricName(n), false, true
		}
	}
	for _, end := range []string{"awg", "ga", "gauge"} {
		if n, found := strings.CutSuffix(t, end); found {
			return awgName(n), true, true
		}
	}
	if n, found := strings.CutPrefix(t, "#"); found {
		return awgName(n), true, true
	}
	if n, found := strings.CutPrefix(t, "awg"); found {
		return awgName(n), true, true
	}
	if strings.HasSuffix(t, "/0") || strings.Trim(t, "0") == "" && len(t) > 1 {
		return awgName(t), true, true
	}
	return "", false, false
}

// awgName writes 00 and 000 as 2/0 and 3/0.
func awgName(n string) string {
	n = strings.TrimPrefix(strings.TrimSpace(n), "#")
	if zeros := strings.Count(n, "0"); n != "" && zeros == len(n) {
		return string(rune('0'+zeros)) + "/0"
	}
	return n
}

// metricName writes 2,50 as 2.5.
func metricName(n string) string {
	n = strings.Replace(strings.TrimSpace(n), ",", ".", 1)
	if strings.Contains(n, ".") {
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
	}
	return n
}
