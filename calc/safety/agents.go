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
	nitrogenDioxide = Agent{"nitrogen dioxide", "C 5 ppm", "ST 1 ppm", "made by the arc from air; lung injury may show only hours later", "osha-z1", "", ""}
	nitricOxide     = Agent{"nitric oxide", "25 ppm", "25 ppm", "made by the arc from air", "osha-z1", "", ""}
	ozone           = Agent{"ozone", "0.1 ppm", "C 0.1 ppm", "made by the arc's light; most over bright metal", "osha-z1-memory", "", ""}
	ironOxide       = Agent{"iron oxide fume", "10 mg/m³", "5 mg/m³", "dust in the lungs", "osha-z1", "", ""}
	manganese       = Agent{"manganese", "C 5 mg/m³", "1 mg/m³, ST 3", "nerves", "osha-z1", "", "0.02 mg/m³ respirable, 0.1 inhalable"}
	chromium6       = Agent{"chromium VI", "5 µg/m³", "0.2 µg/m³", "lungs, asthma", "osha-1026", "1", ""}
	nickel          = Agent{"nickel", "1 mg/m³", "0.015 mg/m³, Ca", "lungs, asthma", "osha-z1-memory", "1, its compounds", ""}
	zincOxide       = Agent{"zinc oxide fume", "5 mg/m³", "5 mg/m³, ST 10", "metal fume fever the night after", "osha-z1", "", ""}
	copperFume      = Agent{"copper fume", "0.1 mg/m³", "0.1 mg/m³", "metal fume fever", "osha-z1-memory", "", ""}
	aluminiumFume   = Agent{"aluminium fume", "15 mg/m³ as dust", "5 mg/m³", "dust in the lungs", "osha-z1-memory", "", ""}
	lead            = Agent{"lead", "50 µg/m³", "50 µg/m³", "blood, nerves, children at home: wash and change before you leave", "osha-z1", "2A", ""}
	cadmium         = Agent{"cadmium", "5 µg/m³", "Ca", "lungs and kidneys; one bad day can kill", "osha-z1", "1", ""}
	beryllium       = Agent{"beryllium", "0.2 µg/m³, ST 2", "C 0.5 µg/m³, Ca", "lungs, for good", "osha-1024", "1", ""}
	carbonMonoxide  = Agent{"carbon monoxide", "50 ppm", "35 ppm, C 200", "headache, then worse", "osha-z1", "", ""}
	acrolein        = Agent{"acrolein", "0.1 ppm", "0.1 ppm, ST 0.3", "eyes and lungs", "osha-z1", "", ""}
	phosgene        = Agent{"phosgene", "0.1 ppm", "0.1 ppm, C 0.2", "lungs, hours later", "osha-z1", "", ""}
	hydrogenChlor   = Agent{"hydrogen chloride", "C 5 ppm", "C 5 ppm", "eyes and lungs", "osha-z1", "", ""}
	hydrogenFluor   = Agent{"hydrogen fluoride", "3 ppm", "3 ppm, C 6", "eyes, skin, lungs", "osha-z1", "", ""}
	hydrogenCyanide = Agent{"hydrogen cyanide", "10 ppm", "ST 4.7 ppm", "kills within minutes", "osha-z1-memory", "", ""}
	isocyanates     = Agent{"isocyanates", "C 0.02 ppm", "0.005 ppm, C 0.02", "asthma, for good", "osha-z1", "", ""}
	pfib            = Agent{"perfluoroisobutylene", "none", "none", "lungs, hours later, at a trace", "from-memory", "", ""}
	polymerFume     = Agent{"fluoropolymer fume", "none", "none", "polymer fume fever the night after", "hse-rr539", "", ""}
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
