package diagnose

// SignPicture is the small picture of a sign, in paths on a ground 96 wide and 60
// high. The words beside it say all.
type SignPicture struct {
	Thin  string `json:"thin"`            // the things
	Heavy string `json:"heavy,omitempty"` // what is wrong with them
}

// Things that stand in several pictures.
const (
	drawnTorch   = "M38 2V12L44 22H52L58 12V2"
	drawnPlate   = "M6 34H90V46H6Z"
	drawnKerf    = "M6 34H44V46H6ZM52 34H90V46H52Z"
	drawnMachine = "M22 8H74V52H22ZM30 44H42"
	drawnAir     = "M42 27Q38 34 42 41T42 55M54 27Q50 34 54 41T54 55"
	drawnPart    = "M12 44V24L18 14H26L32 24V44Z"
)

// SignPictures has one for each sign that is no fact.
var SignPictures = map[string]SignPicture{
	"shock":            {Thin: "M48 4L86 56H10Z", Heavy: "M52 18L42 36H52L46 50"},
	"green-flame":      {Thin: drawnTorch, Heavy: "M48 24C36 38 40 52 48 58C56 52 60 38 48 24Z"},
	"burnt-smell":      {Thin: "M22 24H74V56H22ZM30 48H42", Heavy: "M34 20Q29 15 34 11T34 3M48 20Q43 15 48 11T48 3M62 20Q57 15 62 11T62 3"},
	"dead":             {Thin: drawnMachine, Heavy: "M34 16L62 36M62 16L34 36"},
	"no-arc":           {Thin: drawnTorch + drawnPlate, Heavy: "M43 24L53 32M53 24L43 32"},
	"no-air":           {Thin: drawnTorch + drawnAir, Heavy: "M32 28L64 56M64 28L32 56"},
	"air-no-pilot":     {Thin: drawnTorch + drawnAir + "M78 16L70 32H79L73 46", Heavy: "M64 18L88 44"},
	"no-transfer":      {Thin: drawnTorch + drawnPlate, Heavy: "M43 22C39 30 57 30 53 22"},
	"hard-start":       {Thin: drawnTorch + drawnPlate + "M48 24V31", Heavy: "M70 6V22M78 6V22M86 6V22"},
	"goes-on":          {Thin: drawnTorch + drawnKerf, Heavy: "M48 24V56M84 20A10 10 0 1 1 76 10M72 4L77 10L71 15"},
	"cuts-out":         {Thin: "M6 10H90V50H6ZM6 27H46V33H6", Heavy: "M54 23L68 37M68 23L54 37"},
	"dies-end":         {Thin: "M6 10H90V50H6ZM6 27H70V33H6", Heavy: "M75 23L87 37M87 23L75 37"},
	"unsteady":         {Thin: drawnTorch + drawnPlate, Heavy: "M48 22L42 25L54 28L44 31L50 34M34 30L26 24M62 30L70 24"},
	"spits":            {Thin: drawnTorch, Heavy: "M34 32C29 39 29 44 34 44C39 44 39 39 34 32ZM62 32C57 39 57 44 62 44C67 44 67 39 62 32ZM48 40C43 47 43 54 48 54C53 54 53 47 48 40Z"},
	"blows-sideways":   {Thin: drawnTorch + drawnPlate, Heavy: "M58 12L80 6M57 16L84 17M54 20L78 28"},
	"blows-back":       {Thin: drawnTorch + drawnPlate, Heavy: "M44 33C34 29 30 22 28 10M52 33C62 29 66 22 68 10M23 16L28 10L34 15M62 15L68 10L73 16"},
	"snaps-out":        {Thin: drawnTorch + "M6 40H90", Heavy: "M43 26L53 35M53 26L43 35M34 36Q26 34 26 26M62 36Q70 34 70 26"},
	"not-through":      {Thin: drawnTorch + "M6 34H42L48 42L54 34H90V54H6Z", Heavy: "M48 22V42"},
	"no-pierce":        {Thin: drawnTorch + "M6 36H40Q48 46 56 36H90V54H6Z", Heavy: "M38 32L28 26M58 32L68 26M42 27L36 18M54 27L60 18"},
	"head-hot":         {Thin: drawnTorch + "M44 22V30M52 22V30", Heavy: "M26 6Q20 13 26 20T26 34M70 6Q64 13 70 20T70 34M14 10Q8 17 14 24M82 10Q76 17 82 24"},
	"heavy-dross":      {Thin: "M6 22H44V36H6ZM52 22H90V36H52Z", Heavy: "M22 36Q24 50 31 40Q36 56 44 36M52 36Q56 56 62 42Q70 52 74 36"},
	"hard-bead":        {Thin: "M6 22H44V36H6ZM52 22H90V36H52Z", Heavy: "M36 37Q42 43 44 36M52 36Q54 43 60 37"},
	"top-spatter":      {Thin: drawnKerf, Heavy: "M30 33Q40 20 44 33M52 33Q56 20 66 33M22 22V20M34 14V12M62 14V12M74 22V20"},
	"wide-cut":         {Thin: "M6 30H30V48H6ZM66 30H90V48H66Z", Heavy: "M30 18H66M37 12L30 18L37 24M59 12L66 18L59 24"},
	"bevel-one":        {Thin: "M6 14H42V46H6ZM66 14H90V46H50", Heavy: "M66 14L50 46"},
	"bevel-both":       {Thin: "M30 14H6V46H46M66 14H90V46H50", Heavy: "M30 14L46 46M66 14L50 46"},
	"wavy":             {Thin: "M6 8H90V52H6Z", Heavy: "M6 30Q13 20 20 30T34 30T48 30T62 30T76 30T90 30"},
	"parts-short":      {Thin: drawnPart + "M64 44V24L70 14H78L84 24V44Z", Heavy: "M14 22L30 40M30 22L14 40M66 22L82 40M82 22L66 40"},
	"tip-spoiled":      {Thin: drawnPart + "M86 32A14 14 0 1 1 72 18M72 22V32L79 36", Heavy: "M14 22L30 40M30 22L14 40"},
	"hiss":             {Thin: "M4 26H36M4 34H36M36 20H60V40H36ZM60 26H92M60 34H92", Heavy: "M42 14L38 5M54 14L58 5M48 46V56"},
	"air-on":           {Thin: drawnTorch + drawnAir, Heavy: "M86 22A10 10 0 1 1 78 12M74 6L79 12L73 17"},
	"oil-smell":        {Thin: "M6 12H50V24H6M50 8V28", Heavy: "M66 24C57 38 56 50 66 50C76 50 75 38 66 24Z"},
	"clamp-hot":        {Thin: "M4 20L50 28L66 22V31M4 44L50 36L66 42V33M54 32H92", Heavy: "M76 4Q71 9 76 14T76 24M86 4Q81 9 86 14T86 24M66 2Q61 7 66 12T66 17"},
	"lead-marked":      {Thin: "M6 26C30 2 60 46 90 18M6 38C30 14 60 58 90 30", Heavy: "M44 16L52 26L44 30L54 42"},
	"heat-light":       {Thin: drawnMachine, Heavy: "M58 18A5 5 0 1 1 57.9 18ZM36 16Q32 22 36 28T36 38M46 16Q42 22 46 28T46 38"},
	"fault-light":      {Thin: drawnMachine, Heavy: "M48 16V30M48 37V38"},
	"trips-on":         {Thin: "M6 8H34V52H6ZM14 16H26V44H14ZM54 20H92V52H54ZM73 28V35M67 30A9 9 0 1 0 79 30", Heavy: "M14 36H26M44 14V38M38 31L44 38L50 31"},
	"breaker":          {Thin: "M32 6H64V54H32ZM42 16H54V44H42Z", Heavy: "M42 36H54M74 16V40M68 33L74 40L80 33"},
	"rcd":              {Thin: "M32 4H64V34H32ZM48 34V42M36 42H60M41 48H55M46 54H50", Heavy: "M52 8L44 18H52L46 30"},
	"generator":        {Thin: "M10 20H68V48H10ZM68 30H82V20M18 48V54M60 48V54", Heavy: "M39 25V43M31 36L39 43L47 36"},
	"one-side-squarer": {Thin: "M6 14H42V46H6ZM57 14H90V46H52Z"},
	"sparks-trail":     {Thin: drawnTorch + drawnPlate + "M48 46L42 58M47 46L34 57M48 46L38 59M66 20H84M78 14L84 20L78 26"},
	"after-flow":       {Thin: drawnTorch + drawnAir},
	"click-first":      {Thin: drawnTorch + "M66 8Q72 14 66 20M74 3Q84 14 74 25"},
	"thin-dross":       {Thin: drawnKerf + "M38 48V51M43 48V52M53 48V52M58 48V50"},
	"pilot-ends":       {Thin: drawnTorch + "M48 24V34M44 24L42 32M52 24L54 32M84 44A12 12 0 1 1 72 32M72 24V32L79 36"},
	"dark-edge":        {Thin: "M6 14H44V46H6ZM52 14H90V46H52ZM36 16V44M40 16V44M56 16V44M60 16V44M32 18V42M64 18V42"},
	"pierce-crater":    {Thin: "M6 34H38Q42 27 45 34V46H6ZM51 34Q54 27 58 34H90V46H51ZM36 24L32 18M60 24L64 18M30 28L24 24M66 28L72 24"},
	"fan-on":           {Thin: "M48 6A24 24 0 1 1 47.9 6ZM48 30Q38 22 48 12Q54 20 48 30Q62 28 63 40Q52 40 48 30Q44 44 33 40Q36 30 48 30Z"},
}
