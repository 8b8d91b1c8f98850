package main

import (
	"errors"
	"flag"
	"fmt"
	"time"
)

// roundSeeds is how many seeds a round of the simulation takes: more than the long
// test has time for.
const roundSeeds = 50_000

// soak spends the given time on what gets better with more of it: half on
// the fuzzers, and half on rounds of the tests at their
// big sizes, each round with seeds of its own; before the rounds browser and
// store are killed amid writes again and again, and pages are left amid entries in
// every engine, and the continuous copies of the page on backups are made. A seed
// or an input that fails is printed, and belongs into the tests as a named case. Twenty rounds from -seed 1 are the first million histories of the simulation; several machines share them by
// beginning at seeds of their own.
func soak(args []string) error {
	flags := flag.NewFlagSet("soak", flag.ContinueOnError)
	total := flags.Duration("for", 10*time.Minute, "how long")
	seed := flags.Int64("seed", time.Now().Unix(), "first seed of the rounds")
	if err := readFlags(flags, args); err != nil {
		return err
	}
	if *total < time.Minute {
		return fail(fmt.Sprintf("-for %v is too short to find anything", *total), "Give a minute or more, like -for 30m.")
	}
	if err := setUp(append(browserParts, partFirefox, partWebKit)...); err != nil {
		return err
	}
	heading("fuzzers")
	targets, err := fuzzTargets()
	if err != nil {
		return err
	}
	rounds := time.Duration((len(targets) + atOnce - 1) / atOnce)
	if err := errors.Join(fuzzAll(targets, (*total / 2 / rounds).Round(time.Second))...); err != nil {
		return err
	}
	end := time.Now().Add(*total / 2)
	if err := soakStream(); err != nil {
		return err
	}
	if err := soakBrowsers(int(*total/time.Minute), *seed); err != nil {
		return err
	}
	heading("rounds of growing seeds")
	for ; time.Now().Before(end); *seed += roundSeeds {
		say("KERFSIDE_SEED=%d", *seed)
		env := []string{"KERFSIDE_LONG=1", "KERFSIDE_SOAK=1", fmt.Sprintf("KERFSIDE_SEED=%d", *seed), fmt.Sprintf("KERFSIDE_SEEDS=%d", roundSeeds)}
		err := cmd("go", "test", "-count=1", "-timeout", "90m", "-skip", browserTests, "./calc/...", "./server/...", "./guides/...").with(env...).quiet()
		if err != nil {
			return err
		}
	}
	return nil
}

// soakBrowsers kills the browser and the store amid writes and leaves pages amid
// entries, as often as there is time for, and prints what became of it.
func soakBrowsers(minutes int, seed int64) error {
	began := time.Now()
	var total score
	test := func(count int, pkg, name string, env ...string) {
		words := []string{"test", "-json", fmt.Sprintf("-count=%d", count), "-timeout", "6h", "-run", name, pkg}
		goTest(&total, cmd("go", words...).with(env...))
	}
	// The store is killed in batches, each on a file of its own.
	const batch = 1000
	browsers, stores, loads := min(1000, 20*minutes), min(10*batch, 20*minutes), min(200, 20*minutes)
	heading("kills: %d of the browser, %d of the store", browsers, stores)
	test(1, "./cmd/kerfside", "^TestBrowserKilled", "KERFSIDE_LONG=1", fmt.Sprintf("KERFSIDE_KILLS=%d", browsers))
	test(max(1, stores/batch), "./server/store", "^TestKill$", fmt.Sprintf("KERFSIDE_KILLS=%d", min(stores, batch)))
	heading("reloads: %d in each engine", loads)
	test(1, "./cmd/kerfside", "^TestBrowserReloads$", "KERFSIDE_LONG=1", fmt.Sprintf("KERFSIDE_LOADS=%d", loads), fmt.Sprintf("KERFSIDE_SEED=%d", seed))
	heading("all journeys in each engine, and all screens in large text, on their side and in forced colours")
	test(1, "./cmd/kerfside", "^TestBrowser(Journeys|ReadOtherwise)$", "KERFSIDE_LONG=1", "KERFSIDE_SOAK=1")
	return total.end(time.Since(began))
}
