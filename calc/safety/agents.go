package safety

import (
	"kerfside/calc/material"
	"kerfside/calc/source"
)

// Agent is something harmful in the air over a cut, with its limits for an
// 8 h day. C marks a ceiling, ST a short-term limit, Ca a carcinogen that NIOSH
// wants as low as can be.
type Agent struct {
	Name, PEL, REL string
	Harm           string
	Source         source.ID // where the PEL was read
	IARC           string    // its group as a carcinogen; empty for none given here
	TLV            string    // of ACGIH, where it is far below the PEL
}

var (
	nitrogenDioxide = Agent{Name: "nitrogen dioxide", PEL: "C 5 ppm", REL: "ST 1 ppm", Harm: "made by the arc from air; lung injury may show only hours later", Source: "osha-z1"}
	nitricOxide     = Agent{Name: "nitric oxide", PEL: "25 ppm", REL: "25 ppm", Harm: "made by the arc from air", Source: "osha-z1"}
	ozone           = Agent{Name: "ozone", PEL: "0.1 ppm", REL: "C 0.1 ppm", Harm: "made by the arc's light; most over bright metal", Source: "osha-z1-memory"}
	ironOxide       = Agent{Name: "iron oxide fume", PEL: "10 mg/m³", REL: "5 mg/m³", Harm: "dust in the lungs", Source: "osha-z1"}
	manganese       = Agent{Name: "manganese", PEL: "C 5 mg/m³", REL: "1 mg/m³, ST 3", Harm: "nerves", Source: "osha-z1", TLV: "0.02 mg/m³ respirable, 0.1 inhalable"}
	chromium6       = Agent{Name: "chromium VI", PEL: "5 µg/m³", REL: "0.2 µg/m³", Harm: "lungs, asthma", Source: "osha-1026", IARC: "1"}
	nickel          = Agent{Name: "nickel", PEL: "1 mg/m³", REL: "0.015 mg/m³, Ca", Harm: "lungs, asthma", Source: "osha-z1-memory", IARC: "1, its compounds"}
	zincOxide       = Agent{Name: "zinc oxide fume", PEL: "5 mg/m³", REL: "5 mg/m³, ST 10", Harm: "metal fume fever the night after", Source: "osha-z1"}
	copperFume      = Agent{Name: "copper fume", PEL: "0.1 mg/m³", REL: "0.1 mg/m³", Harm: "metal fume fever", Source: "osha-z1-memory"}
	aluminiumFume   = Agent{Name: "aluminium fume", PEL: "15 mg/m³ as dust", REL: "5 mg/m³", Harm: "dust in the lungs", Source: "osha-z1-memory"}
	lead            = Agent{Name: "lead", PEL: "50 µg/m³", REL: "50 µg/m³", Harm: "blood, nerves, children at home: wash and change before you leave", Source: "osha-z1", IARC: "2A"}
	cadmium         = Agent{Name: "cadmium", PEL: "5 µg/m³", REL: "Ca", Harm: "lungs and kidneys; one bad day can kill", Source: "osha-z1", IARC: "1"}
	beryllium       = Agent{Name: "beryllium", PEL: "0.2 µg/m³, ST 2", REL: "C 0.5 µg/m³, Ca", Harm: "lungs, for good", Source: "osha-1024", IARC: "1"}
	carbonMonoxide  = Agent{Name: "carbon monoxide", PEL: "50 ppm", REL: "35 ppm, C 200", Harm: "headache, then worse", Source: "osha-z1"}
	acrolein        = Agent{Name: "acrolein", PEL: "0.1 ppm", REL: "0.1 ppm, ST 0.3", Harm: "eyes and lungs", Source: "osha-z1"}
	phosgene        = Agent{Name: "phosgene", PEL: "0.1 ppm", REL: "0.1 ppm, C 0.2", Harm: "lungs, hours later", Source: "osha-z1"}
	hydrogenChlor   = Agent{Name: "hydrogen chloride", PEL: "C 5 ppm", REL: "C 5 ppm", Harm: "eyes and lungs", Source: "osha-z1"}
	hydrogenFluor   = Agent{Name: "hydrogen fluoride", PEL: "3 ppm", REL: "3 ppm, C 6", Harm: "eyes, skin, lungs", Source: "osha-z1"}
	hydrogenCyanide = Agent{Name: "hydrogen cyanide", PEL: "10 ppm", REL: "ST 4.7 ppm", Harm: "kills within minutes", Source: "osha-z1-memory"}
	isocyanates     = Agent{Name: "isocyanates", PEL: "C 0.02 ppm", REL: "0.005 ppm, C 0.02", Harm: "asthma, for good", Source: "osha-z1"}
	pfib            = Agent{Name: "perfluoroisobutylene", PEL: "none", REL: "none", Harm: "lungs, hours later, at a trace", Source: "from-memory"}
	polymerFume     = Agent{Name: "fluoropolymer fume", PEL: "none", REL: "none", Harm: "polymer fume fever the night after", Source: "hse-rr539"}
)

// arcGases come with every plasma cut in air.
var arcGases = []Agent{nitrogenDioxide, nitricOxide, ozone}

// metalFumes are what each metal itself gives off. Yellow and free-cutting
// brass hold lead. Galvanised steel is mild steel under zinc.
var metalFumes = map[material.Metal][]Agent{
	material.MildSteel: {ironOxide, manganese},
	material.Stainless: {chromium6, nickel, manganese, ironOxide},
	material.Aluminium: {aluminiumFume},
	material.Copper:    {copperFume},
	material.Brass:     {zincOxide, copperFume, lead},
	material.CastIron:  {ironOxide, manganese, carbonMonoxide},
}

// coat is what lies on the metal: what it gives off, and what it asks of
// whoever cuts it.
type coat struct {
	agents   []Agent
	wears    protection
	never    string // why it is not cut at all as it stands
	unstrips bool   // it is in the metal: nothing can be stripped
	source   source.ID
}

var coats = map[string]coat{
	"none":          {},
	"zinc":          {agents: []Agent{zincOxide}, wears: filtered},
	"lead":          {agents: []Agent{lead}, wears: stripped},
	"chromate":      {agents: []Agent{chromium6, lead}, wears: stripped},
	"unknown":       {agents: []Agent{lead, chromium6, isocyanates, carbonMonoxide}, wears: stripped},
	"two-pack":      {agents: []Agent{isocyanates, hydrogenCyanide, carbonMonoxide}, wears: noMask, never: PlasticStop, source: source.CommonPractice},
	"cadmium":       {agents: []Agent{cadmium}, wears: stripped, never: CadmiumStop, source: "osha-1926-353"},
	"beryllium":     {agents: []Agent{beryllium}, wears: supplied, never: BerylliumStop, unstrips: true, source: "osha-1926-353"},
	"oil":           {agents: []Agent{carbonMonoxide, acrolein}},
	"pvc":           {agents: []Agent{hydrogenChlor, carbonMonoxide}, wears: noMask, never: PlasticStop, source: source.CommonPractice},
	"fluoropolymer": {agents: []Agent{hydrogenFluor, pfib, polymerFume}, wears: noMask, never: PlasticStop, source: source.CommonPractice},
	"foam":          {agents: []Agent{isocyanates, hydrogenCyanide, carbonMonoxide}, wears: noMask, never: PlasticStop, source: source.CommonPractice},
	"plastic":       {agents: []Agent{hydrogenChlor, isocyanates, hydrogenCyanide, carbonMonoxide}, wears: noMask, never: PlasticStop, source: source.CommonPractice},
	"solvent":       {agents: []Agent{phosgene, hydrogenChlor}, wears: noMask, never: SolventStop, source: "osha-solvent"},
}
