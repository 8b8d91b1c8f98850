package main

// Of what the compiler loads from the stack into a local, and what it puts there, much
// is used once, at once, and never again. It is loaded where it is used: that spares the
// names of locals.

// late has what is loaded from the stack into a local to be used once, loaded where it is
// used. The first locals are the place, the stack pointer and the function's number.
func late(code []instruction) []instruction {
	live, known := liveAfter(code)
	if !known {
		return code
	}
	gone := make([]bool, len(code))
	instead := map[int]bool{}
	at := map[int]int{}
	for i := 0; i+2 < len(code); i++ {
		load, local := code[i+1], code[i+2].value
		if !code[i].is(opLocalGet, localStack) || !load.accesses() || load.op >= opI32Store || code[i+2].op != opLocalSet || local <= localNumber {
			continue
		}
		if use := usedFirst(code, i+3, load, local); use != none && live[use]&(1<<local) == 0 {
			gone[i], gone[i+1], gone[i+2] = true, true, true
			instead[use], at[use] = true, i
		}
	}
	var short []instruction
	for i, c := range code {
		switch {
		case instead[i]:
			short = append(short, code[at[i]], code[at[i]+1])
		case c.op == opLocalTee && c.value > localNumber && live[i]&(1<<c.value) == 0: // nobody reads it
		case !gone[i]:
			short = append(short, c)
		}
	}
	return short
}

// usedFirst returns where a local is read first from there on, if no jump is before that
// and the load would find the same there; else none.
func usedFirst(code []instruction, from int, load instruction, local int) int {
	const width = 8        // how many bytes an access is of at most
	var fromPointer []bool // what lies on the engine's stack: whether it is the stack pointer
	for i := from; i < len(code); i++ {
		c := code[i]
		takes, puts, straight := c.stack()
		if c.is(opLocalGet, local) {
			return i
		}
		address := false // the last that is taken
		for range takes {
			address = false
			if n := len(fromPointer); n > 0 {
				address, fromPointer = fromPointer[n-1], fromPointer[:n-1]
			}
		}
		for range puts {
			fromPointer = append(fromPointer, c.is(opLocalGet, localStack))
		}
		switch {
		case !straight, c.is(opLocalSet, localStack), c.is(opLocalTee, localStack), c.op == opMore && c.value > moreUnary:
			return none
		case c.op >= opI32Store && c.op <= opLastStore:
			if !address || c.offset < load.offset+width && load.offset < c.offset+width {
				return none
			}
		}
	}
	return none
}

// liveAfter returns for each instruction which locals may be read behind it before they
// are set, a bit each. Behind a call of Go's none is: it may be gone on with there anew.
func liveAfter(code []instruction) (live []uint64, known bool) {
	live = make([]uint64, len(code))
	begins := make([]int, len(code)) // of an end, or an else
	var open []int
	for i, c := range code {
		switch c.op {
		case opBlock, opLoop, opIf:
			open = append(open, i)
		case opElse:
			if len(open) == 0 {
				return nil, false
			}
			begins[i] = open[len(open)-1]
		case opEnd:
			begins[i] = none
			if len(open) > 0 {
				begins[i] = open[len(open)-1]
				open = open[:len(open)-1]
			}
		case opLocalGet, opLocalSet, opLocalTee:
			if c.value >= 64 {
				return nil, false
			}
		}
	}
	loops := map[int]uint64{} // what is live where they begin
	for changed := true; changed; {
		changed = false
		type label struct{ target, behind, other uint64 }
		var labels []label
		now := uint64(0)
		to := func(depth int) uint64 {
			if depth >= len(labels) {
				return 0 // the function's end
			}
			return labels[len(labels)-1-depth].target
		}
		for i := len(code) - 1; i >= 0; i-- {
			c := code[i]
			live[i] = now
			switch c.op {
			case opEnd:
				if begins[i] == none {
					now = 0
					break
				}
				l := label{target: now, behind: now, other: now}
				if code[begins[i]].op == opLoop {
					l.target = loops[begins[i]]
				}
				labels = append(labels, l)
			case opElse:
				l := &labels[len(labels)-1]
				l.other = now
				now = l.behind
			case opIf:
				now |= labels[len(labels)-1].other
				labels = labels[:len(labels)-1]
			case opLoop:
				if loops[i] != now {
					loops[i], changed = now, true
				}
				fallthrough
			case opBlock:
				labels = labels[:len(labels)-1]
			case opBr:
				now = to(c.value)
			case opBrIf:
				now |= to(c.value)
			case opBrTable:
				now = 0
				for _, depth := range c.table {
					now |= to(depth)
				}
			case opReturn, opUnreachable:
				now = 0
			case opCall, opCallIndirect:
				if i > 0 && i+3 < len(code) && code[i+1].is(opGlobalGet, 0) && code[i+2].is(opLocalSet, localStack) && code[i+3].is(opIf, noResult) {
					now = 0
				}
			case opLocalGet:
				now |= 1 << c.value
			case opLocalSet, opLocalTee:
				now &^= 1 << c.value
			}
		}
	}
	return live, true
}
