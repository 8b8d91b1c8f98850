package unit

// Speed is a distance per time in metres per second.
type Speed float64

const (
	MetrePerSecond      Speed = 1
	MetrePerMinute      Speed = 1.0 / 60
	MillimetrePerMinute Speed = 1e-3 / 60
	InchPerMinute       Speed = 0.0254 / 60
	FootPerMinute       Speed = 0.3048 / 60
)

// Quantity says that a Speed is a speed.
func (Speed) Quantity() *Quantity { return speed }

// A travel speed is told in steps of 5 in/min or 100 mm/min, which is as finely as
// anyone moves a torch or a plan knows it. Of a slow cut that would be too much, so
// no step is more than a fifth of the speed, and none is rounded off by more than a
// tenth.
var speed = &Quantity{
	Name: "speed", SI: "m/s",
	Units: []Unit{
		{Name: "mm/min", Size: 1e-3 / 60, Grains: []Grain{{250, 50}, {500, 100}}},
		{Name: "m/min", Size: 1.0 / 60, Grains: []Grain{{0.25, 0.05}, {0.5, 0.1}, {10, 1}}},
		{Name: "mm/s", Size: 1e-3},
		{Name: "m/s", Size: 1},
		{Name: "in/min", Size: 0.0254 / 60, Also: []string{"ipm", "inch/min"}, Grains: []Grain{{5, 0.5}, {10, 1}, {25, 5}}},
		{Name: "in/s", Size: 0.0254},
		{Name: "ft/min", Size: 0.3048 / 60, Also: []string{"fpm"}},
	},
	Metric: []Show{{0.05, "mm/min"}, {0, "m/s"}},
	US:     []Show{{0.1, "in/min"}, {0, "ft/min"}},
}

// Pace is a time per distance in seconds per metre: what a hand can count.
type Pace float64

// Quantity says that a Pace is a pace.
func (Pace) Quantity() *Quantity { return pace }

var pace = &Quantity{
	Name: "pace", SI: "s/m",
	Units: []Unit{
		{Name: "s per 100 mm", Size: 10, Also: []string{"s/100mm"}},
		{Name: "s per 4 in", Size: 1 / (4 * 0.0254), Also: []string{"s/4in"}},
		{Name: "s/m", Size: 1},
		{Name: "s/in", Size: 1 / 0.0254},
		{Name: "s/ft", Size: 1 / 0.3048},
	},
	Metric: []Show{{0, "s per 100 mm"}},
	US:     []Show{{0, "s per 4 in"}},
}

// Duration is a span of time in seconds.
type Duration float64

const (
	Second Duration = 1
	Minute Duration = 60
	Hour   Duration = 3600
)

// Quantity says that a Duration is a time.
func (Duration) Quantity() *Quantity { return duration }

var duration = &Quantity{
	Name: "time", SI: "s", Compound: true,
	Units: []Unit{
		{Name: "s", Size: 1, Also: []string{"sec", "second", "seconds"}, Grains: []Grain{{10, 1}, {120, 10}}},
		{Name: "min", Size: 60, Also: []string{"minute", "minutes"}, Grains: whole},
		{Name: "h", Size: 3600, Also: []string{"hr", "hour", "hours"}},
		{Name: "d", Size: 86400, Also: []string{"day", "days"}},
	},
	Metric: []Show{{120, "s"}, {2 * 3600, "min"}, {0, "h"}},
	US:     []Show{{120, "s"}, {2 * 3600, "min"}, {0, "h"}},
}
