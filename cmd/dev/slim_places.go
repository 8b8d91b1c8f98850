package main

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"slices"
)

// The places at which a function can go on have numbers with gaps between them, made
// for traces, so that the table at its beginning, its jumps, its calls and the
// runtime's tables all say uneven things. Here the places are numbered anew without
// gaps. A place keeps its own number if the function goes on there, if a call leads
// back there, or if one of the runtime's tables, whose lines are gone by then, says
// something else from there on; the others get the number of the one before. The
// runtime asks of a call for the place before the one that it leads back to, so those
// two stay neighbours.

// places is what a function's code says of its places.
type places struct {
	table []int        // at which of its blocks each goes on; behind the end, as the last
	backs map[int]bool // those that calls lead back to
	last  int          // the last that the code names
}

// readPlaces returns them for each function of a code section, and nil for one whose
// code is not as usual.
func readPlaces(section []byte) (all []*places, err error) {
	err = eachCode(section, func(i int, code []instruction) {
		all = append(all, placesIn(code, firstCode+i))
	})
	return all, err
}

func placesIn(code []instruction, number int) *places {
	b, begun := readBegin(code)
	if !begun {
		return nil
	}
	p := &places{table: b.table, backs: map[int]bool{}}
	for i, c := range code {
		switch {
		case goesOn(code, i, number):
			if i < 2 || !code[i-2].is(opGlobalSet, 0) {
				return nil // no call: those have made room for it on the stack
			}
			place := c.value & (1<<placeBits - 1)
			p.backs[place] = true
			p.last = max(p.last, place)
		case jumps(code, i):
			p.last = max(p.last, c.value)
		case c.op == opI64Const && c.value>>placeBits == number && c.value != number<<placeBits:
			return nil // a place that is used otherwise
		case c.is(opLocalSet, localPlace) && !jumps(code, i-1) && !(i+1 < len(code) && code[i+1].is(opI32Const, 0)):
			return nil
		}
	}
	return p
}

// jumps says whether at i a jump to a place begins.
func jumps(code []instruction, i int) bool {
	return i >= 0 && i+2 < len(code) && code[i].op == opI32Const && code[i+1].is(opLocalSet, localPlace) && code[i+2].op == opBr
}

// numbers returns the new number of each place of a function, and of one more, the end.
// The others are those from which on its tables in the runtime say something else.
func (p *places) numbers(others map[int]bool, end int) []int {
	at := func(place int) int { return p.table[min(place, len(p.table)-1)] }
	numbers := []int{0}
	for place := 1; place < max(end, len(p.table)); place++ {
		number := numbers[place-1]
		if at(place) != at(place-1) || p.backs[place] || others[place] {
			number++
		}
		numbers = append(numbers, number)
	}
	return append(numbers, numbers[len(numbers)-1]+1)
}

// renumber gives the places in a body their new numbers.
func renumber(body []byte, number int, numbers []int) ([]byte, error) {
	_, r, err := readLocals(body)
	if err != nil {
		return nil, err
	}
	code, err := readCode(r.rest)
	if err != nil {
		return nil, err
	}
	short := slices.Clone(body[:len(body)-len(r.rest)])
	for i, c := range code {
		switch {
		case goesOn(code, i, number):
			place := number<<placeBits | numbers[c.value&(1<<placeBits-1)]
			short = appendSigned(append(short, opI64Const), int64(place))
		case jumps(code, i):
			short = appendSigned(append(short, opI32Const), int64(numbers[c.value]))
		case c.op == opBrTable:
			var table []int
			for place, block := range c.table {
				if numbers[place] == len(table) {
					table = append(table, block)
				}
			}
			short = binary.AppendUvarint(append(short, c.op), uint64(len(table)-1))
			for _, block := range table {
				short = binary.AppendUvarint(short, uint64(block))
			}
		default:
			short = append(short, c.bytes...)
		}
	}
	return short, nil
}

// stretch is that a table of the runtime's has a value until a place; the value is given
// by what is added to the one before, as it is written.
type stretch struct {
	value uint64
	until int
}

// readSteps reads a table of the runtime's: what is added to the value and how many
// places it holds for, until nothing is added. The first may add nothing.
func readSteps(table []byte) (steps []stretch, err error) {
	r := bytes.NewReader(table)
	for until := 0; ; {
		value, err := binary.ReadUvarint(r)
		if err != nil {
			return nil, errOtherTable
		}
		if value == 0 && until > 0 {
			return steps, nil
		}
		n, err := binary.ReadUvarint(r)
		if err != nil || n == 0 || n > 1<<placeBits {
			return nil, errOtherTable
		}
		until += int(n)
		steps = append(steps, stretch{value, until})
	}
}

// longEnd is how many places the last stretch of a table holds for. Nobody asks behind
// the end of a function, and so the tables of long and of short ones are the same.
const longEnd = 1<<14 - 1

// appendSteps appends them with the places' new numbers.
func appendSteps(to []byte, steps []stretch, numbers []int) []byte {
	last := 0
	for i, s := range steps {
		until := s.until
		if numbers != nil {
			until = numbers[until]
		}
		if i == len(steps)-1 {
			until = max(until, last+longEnd)
		}
		to = binary.AppendUvarint(binary.AppendUvarint(to, s.value), uint64(until-last))
		last = until
	}
	return append(to, 0)
}

// tablesAnew is the runtime's tables of places of all functions, each once.
type tablesAnew struct {
	tables [][]byte
	fields map[string][]functionField // that say where a table is
}

type functionField struct {
	function function
	field    int
}

// move takes the tables of a function from the old ones. With its code it gives its
// places new numbers, which it returns.
func (t *tablesAnew) move(f function, old []byte, code *places) ([]int, error) {
	read := map[int][]stretch{}
	others, end := map[int]bool{}, 0
	for _, field := range f.tables() {
		at := int(f.word(field))
		if at == 0 {
			continue // it has none
		}
		if at > len(old) {
			return nil, errOtherTable
		}
		steps, err := readSteps(old[at:])
		if err != nil {
			return nil, err
		}
		read[field] = steps
		for _, s := range steps {
			others[s.until], end = true, max(end, s.until)
		}
	}
	var numbers []int
	if code != nil && code.last < max(end, len(code.table)) && !f.inlined() {
		numbers = code.numbers(others, end)
		if d := f.word(funcDefer); int(d) < len(numbers) {
			f.put(funcDefer, uint32(numbers[d]))
		} else {
			return nil, errOtherTable
		}
	}
	for _, field := range f.tables() {
		if steps := read[field]; steps != nil {
			t.add(appendSteps(nil, steps, numbers), functionField{f, field})
		}
	}
	return numbers, nil
}

func (t *tablesAnew) add(table []byte, at functionField) {
	key := string(table)
	if t.fields == nil {
		t.fields = map[string][]functionField{}
	}
	if t.fields[key] == nil {
		t.tables = append(t.tables, table)
	}
	t.fields[key] = append(t.fields[key], at)
}

// place puts the tables behind each other, those that most functions have first, for
// small numbers pack better, and has each description say where its own are.
func (t *tablesAnew) place() []byte {
	uses := func(table []byte) int { return len(t.fields[string(table)]) }
	slices.SortStableFunc(t.tables, func(a, b []byte) int { return cmp.Compare(uses(b), uses(a)) })
	placed := []byte{0} // no table is there
	for _, table := range t.tables {
		for _, at := range t.fields[string(table)] {
			at.function.put(at.field, uint32(len(placed)))
		}
		placed = append(placed, table...)
	}
	return placed
}
