package main

// boardTests are of what an ARM board could do otherwise than this machine: the store on
// its disk, the bytes of the journal, and sums with all their rounding. An emulator is
// slow, and can start no further program of its kind nor ask one of this machine.
var boardTests = [][]string{
	{"-run", "^Test(CheckNotices|Contract|DamageMet|RecentIsWhatTheFileHolds|Released|StandingOfOldStores)$", "./server/store"},
	{"-skip", "Against|^TestScanIsLinear$", "./calc/journal/event", "./calc/journal/exchange", "./calc/unit", "./calc/air", "./calc/power"},
}

// checkBoard compiles those tests for a 64-bit ARM board, as a release is compiled, and
// runs them under QEMU.
func checkBoard(s *score) error { return testFor(s, "linux-arm64", "qemu-aarch64-static") }

// testFor runs the tests of boardTests for a target under an emulator.
func testFor(s *score, target, emulator string) error {
	targets, err := chooseTargets(target)
	if err != nil {
		return err
	}
	if err := need("an emulator of "+target, onPath(emulator), "qemu-user-static"); err != nil {
		return err
	}
	for _, t := range targets {
		if err := t.compiler().run(); err != nil {
			return err
		}
		for _, words := range boardTests {
			goTest(s, t.test(emulator, words...))
		}
	}
	return nil
}

// test is the command that compiles tests for the target, as the program is, and runs
// them by another.
func (t releaseTarget) test(emulator string, words ...string) command {
	all := append([]string{"test", "-json", "-count=1", "-short", "-timeout", "20m", "-exec", emulator}, t.Flags()...)
	return cmd("go", append(all, words...)...).with(t.Env()...)
}
