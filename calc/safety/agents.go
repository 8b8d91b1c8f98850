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
}

var (
	nitrogenDioxide = Agent{"nitrogen dioxide", "C 5 ppm", "ST 1 ppm", "made by the arc from air; lung injury may show only hours later", "osha-z1"}
	nitricOxide     = Agent{"nitric oxide", "25 ppm", "25 ppm", "made by the arc from air", "osha-z1"}
	ozone           = Agent{"ozone", "0.1 ppm", "C 0.1 ppm", "made by the arc's light; most over bright metal", "osha-z1-memory"}
	ironOxide       = Agent{"iron oxide fume", "10 mg/m³", "5 mg/m³", "dust in the lungs", "osha-z1"}
	manganese       = Agent{"manganese", "C 5 mg/m³", "1 mg/m³, ST 3", "nerves", "osha-z1"}
	chromium6       = Agent{"chromium VI", "5 µg/m³", "0.2 µg/m³", "lung cancer, asthma", "osha-z1"}
	nickel          = Agent{"nickel", "1 mg/m³", "0.015 mg/m³, Ca", "lung cancer, asthma", "osha-z1-memory"}
	zincOxide       = Agent{"zinc oxide fume", "5 mg/m³", "5 mg/m³, ST 10", "metal fume fever the night after", "osha-z1"}
	copperFume      = Agent{"copper fume", "0.1 mg/m³", "0.1 mg/m³", "metal fume fever", "osha-z1-memory"}
	aluminiumFume   = Agent{"aluminium fume", "15 mg/m³ as dust", "5 mg/m³", "dust in the lungs", "osha-z1-memory"}
	lead            = Agent{"lead", "50 µg/m³", "50 µg/m³", "blood, nerves, children at home: wash and change before you leave", "osha-z1"}
	cadmium         = Agent{"cadmium", "5 µg/m³", "Ca", "lungs and kidneys; one bad day can kill", "osha-z1"}
	carbonMonoxide  = Agent{"carbon monoxide", "50 ppm", "35 ppm, C 200", "headache, then worse", "osha-z1"}
	phosgene        = Agent{"phosgene", "0.1 ppm", "0.1 ppm", "chlorinated solvent under the arc's light; lungs, hours later", "osha-z1-memory"}
)

// arcGases come with every plasma cut in air.
var arcGases = []Agent{nitrogenDioxide, nitricOxide, ozone}

// metalFumes are what each metal itself gives off. Yellow and free-cutting
// brass hold lead; galvanised steel fumes of its zinc first.
var metalFumes = map[material.Metal][]Agent{
	material.MildSteel:  {ironOxide, manganese},
	material.Galvanised: {zincOxide, ironOxide, manganese},
	material.Stainless:  {chromium6, nickel, manganese, ironOxide},
	material.Aluminium:  {aluminiumFume},
	material.Copper:     {copperFume},
	material.Brass:      {zincOxide, copperFume, lead},
	material.CastIron:   {ironOxide, manganese, carbonMonoxide},
}

// coat is what lies on the metal: what it gives off, and what is asked of
// whoever cuts it in an enclosed place.
type coat struct {
	agents   []Agent
	enclosed string // protection in an enclosed place; 29 CFR 1926.353(c)
	never    string // why it is not cut at all as it stands
}

const (
	exhaust        = "general or local exhaust"
	exhaustAirline = "local exhaust or an air-line respirator"
)

var coats = map[string]coat{
	"none":     {},
	"zinc":     {agents: []Agent{zincOxide}, enclosed: exhaust},
	"lead":     {agents: []Agent{lead}, enclosed: exhaustAirline},
	"chromate": {agents: []Agent{chromium6, lead}, enclosed: exhaust},
	"unknown":  {agents: []Agent{lead, chromium6, carbonMonoxide}, enclosed: exhaustAirline},
	"cadmium":  {agents: []Agent{cadmium}, enclosed: exhaustAirline},
	"oil":      {agents: []Agent{carbonMonoxide}},
	"plastic":  {agents: []Agent{carbonMonoxide}},
	"solvent":  {agents: []Agent{phosgene}, never: "chlorinated solvent near the arc makes phosgene"},
}
