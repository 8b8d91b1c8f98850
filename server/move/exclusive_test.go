package move

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"kerfside/server/store"
	"kerfside/server/store/storetest"
)

// Whoever runs three servers does whatever comes to mind, in any order, with files,
// receipts and keys of any time: at no moment do two servers answer the crew's phones,
// and each entry that was acknowledged is with the one that does, or with one that can
// still be made to.
func TestNeverTwoServers(t *testing.T) {
	rounds, steps := 4, 60
	if os.Getenv("KERFSIDE_LONG") != "" {
		rounds = 20
	}
	moves := 0
	for seed := range rounds {
		chance := rand.New(rand.NewPCG(uint64(seed), 3))
		hosts := []*host{newHost(t, "a", crew), newHost(t, "b", ""), newHost(t, "c", "")}
		var beside []*store.Access
		for _, h := range hosts {
			beside = append(beside, h.beside())
		}
		dir := t.TempDir()
		var files, keys []string
		var receipts []store.Receipt
		story := ""
		at := 0 // who serves, or served last
		acked := 0
		for step := range steps {
			i := chance.IntN(len(hosts))
			if chance.IntN(2) == 0 {
				i = at // else the crew would hardly ever get away
			}
			a := beside[i]
			ctx := context.Background()
			switch chance.IntN(7) {
			case 0, 1:
				file := filepath.Join(dir, fmt.Sprintf("%d.kerfside", chance.IntN(4)))
				if _, err := Pack(ctx, a, crew, file, storetest.Now); err == nil {
					files = append(files, file)
					story += fmt.Sprintf("%d packs; ", i)
				}
			case 2, 3:
				if len(files) == 0 {
					continue
				}
				to := chance.IntN(len(hosts))
				if r, _, err := Unpack(ctx, beside[to], files[len(files)-1-chance.IntN(min(2, len(files)))]); err == nil {
					receipts = append(receipts, r)
					story += fmt.Sprintf("%d unpacks; ", to)
				}
			case 4:
				if len(receipts) == 0 {
					continue
				}
				if key, err := a.HandOver(receipts[len(receipts)-1-chance.IntN(min(3, len(receipts)))], storetest.Now); err == nil {
					keys = append(keys, key)
					story += fmt.Sprintf("%d hands over; ", i)
				}
			case 5:
				for _, key := range keys[max(0, len(keys)-3):] {
					for to := range beside {
						if _, err := beside[to].TakeUp(key, storetest.Now); err == nil {
							story += fmt.Sprintf("%d takes up; ", to)
						}
					}
				}
			case 6:
				if chance.IntN(2) == 0 {
					if a.Drop(ctx, crew) == nil {
						story += fmt.Sprintf("%d drops; ", i)
					}
				} else if a.Keep(crew, false, storetest.Now) == nil {
					story += fmt.Sprintf("%d keeps; ", i)
				}
			}
			serving := 0
			for k, h := range hosts {
				if h.IsHere(ctx, crew) != nil {
					continue
				}
				serving++
				if k != at {
					moves++
				}
				at = k
				if _, err := h.Append(ctx, store.Batch{Crew: crew, Now: storetest.Now, Events: storetest.Events(t, fmt.Sprintf("s%05d", step), 1)}); err != nil {
					t.Fatalf("seed %d: %d serves and takes nothing: %v\n%s", seed, k, err, story)
				}
				acked++
				if state, _ := h.State(crew); state.Max != int64(acked) {
					t.Fatalf("seed %d, step %d: %d holds %d of %d entries\n%s", seed, step, k, state.Max, acked, story)
				}
			}
			if serving > 1 {
				t.Fatalf("seed %d, step %d: %d servers answer\n%s", seed, step, serving, story)
			}
		}
	}
	if moves < rounds {
		t.Errorf("only %d moves came to pass in %d rounds", moves, rounds)
	}
	t.Logf("tally: %d moves among three servers", moves)
}
