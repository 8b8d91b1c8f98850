package main

import (
	"encoding/binary"
	"slices"
)

// The linker's table says of each function in turn what packs badly in that order:
// numbers that count up, and words that are like those of the same kind and unlike
// their neighbours. So the words lie here kind by kind, and what counts up is left out.
// A start function, WebAssembly Core Specification 2.0, 5.5.11, which the engine calls
// before all others, puts them where the runtime looks for them. It writes the list
// that functions are found by, and their names, which are their numbers.

const (
	// The list that functions are found by, findfuncbucket in runtime/symtab.go: for each
	// stretch of instructions a function, and what to add in each part of the stretch,
	// which is nothing in wasm. The last stretch has no more parts than there are.
	findStretch = 4096
	findPart    = 256
	findHead    = 4
	findBytes   = findHead + findStretch/findPart
	findEach    = 1 << placeBits / findStretch // how many stretches a function takes

	// A name reads like a method's: the runtime takes that of a wrapper apart, and a
	// trace leaves out names without a point. Between these two stands the number that
	// the engine knows the function by in its own traces.
	nameHead   = "wasm.(*"
	nameTail   = ").f\x00"
	nameBytes  = 16
	nameDigits = nameBytes - len(nameHead) - len(nameTail)

	// kinds of words: those of a _func, of its tables, and of what follows those
	kindTables = funcBytes / 4
	kindLast   = kindTables + kindsEach
	kinds      = kindLast + kindsEach
	kindsEach  = 8
)

// knownNames are what the runtime knows functions by when it walks a stack.
var knownNames = []string{"reflect.makeFuncStub", "reflect.methodValueCall"}

// starter is what the start function puts down, and where.
type starter struct {
	functions, imports int // how many the table has, and how many the engine counts before them

	// addresses: of the list of functions, behind which lies what is said of each; of
	// names; and of the list that functions are found by, where the words lie until then
	list, names, find, findEnd int
	stretches                  int

	types           int // address that the first step to a type with a hash to be made is from
	steps, stepsEnd int
}

// takeTables takes out of a program's memory what the start function will put there. The
// constants are those of its code.
func takeTables(p piece, imports int, constants map[uint32]bool) (*starter, error) {
	t, err := readFunctions(p.bytes)
	if err != nil {
		return nil, err
	}
	module, err := p.module(t.start, t.names)
	if err != nil {
		return nil, err
	}
	s := &starter{functions: t.functions, imports: imports}
	s.list, s.names = int(p.at)+t.start+t.list, int(p.at)+t.start+t.names
	instructions := int(module.word(moduleMax) - module.word(moduleMin))
	s.stretches = (instructions + findStretch - 1) / findStretch
	s.find = int(module.word(moduleFind))
	s.findEnd = s.find + s.stretches*findHead + (instructions+findPart-1)/findPart
	find, err := module.between(int64(s.find), int64(s.findEnd))
	if err != nil {
		return nil, err
	}
	for i := range s.stretches {
		if int(binary.LittleEndian.Uint32(find[i*findBytes:])) != i/findEach {
			return nil, errOtherTable
		}
	}
	clear(find)
	words, err := t.takeWords()
	if err != nil {
		return nil, err
	}
	to := 4 * kinds // first where each kind begins
	for k, of := range words {
		if to+len(of) > len(find) {
			return nil, errOtherTable
		}
		binary.LittleEndian.PutUint32(find[4*k:], uint32(s.find+to))
		to += copy(find[to:], of)
	}
	steps, err := module.takeHashes(constants)
	if err != nil {
		return nil, err
	}
	if to+len(steps) > len(find) {
		return nil, errOtherTable
	}
	s.types = module.firstType()
	s.steps, s.stepsEnd = s.find+to, s.find+to+copy(find[to:], steps)
	if s.list%8 != 0 || imports+t.functions >= 100_000 {
		return nil, errOtherTable
	}
	return s, nil
}

// takeWords takes the words kind by kind out of the table, and the names.
func (t functionTable) takeWords() (words [kinds][]byte, err error) {
	kept := map[int]string{}
	end := (t.functions + 1) * entryBytes // where the next is described; the list ends in one that is none
	for i := range t.functions {
		f, name, err := t.function(i)
		if err != nil {
			return words, err
		}
		entry := t.bytes[t.list+i*entryBytes:][:entryBytes]
		twins, last := int(f.word(funcTwins)), int(f[funcLast])
		if int(binary.LittleEndian.Uint32(entry)) != firstCode+i || int(binary.LittleEndian.Uint32(entry[4:])) != end ||
			f.word(0) != uint32(firstCode+i) || twins > kindsEach || last > kindsEach {
			return words, errOtherTable
		}
		f.put(0, 0)
		f.put(funcName, 0)
		if slices.Contains(knownNames, string(name)) {
			at := (t.functions + 1 + 2*len(kept)) * nameBytes
			kept[at] = string(name)
			f.put(funcName, uint32(at))
		}
		for k := range len(f) / 4 {
			kind := k
			if k >= kindTables+twins {
				kind += kindsEach - twins
			}
			words[kind] = append(words[kind], f[4*k:][:4]...)
		}
		end = (end + len(f) + 7) &^ 7
		clear(f)
		clear(entry)
	}
	names := t.bytes[t.names:t.units]
	if len(names) < (t.functions+1+2*len(knownNames))*nameBytes {
		return words, errOtherTable
	}
	clear(names)
	for at, name := range kept {
		copy(names[at:], name)
	}
	return words, nil
}

// addTo adds the start function to a program's sections: its type, that it is there,
// its code behind all other, and that it starts.
func (s *starter) addTo(sections []section) ([]section, error) {
	types, functions := 0, 0
	for i, to := range sections {
		var more []byte
		count, size := binary.Uvarint(to.bytes)
		switch to.id {
		case sectionType:
			types = int(count)
			more = []byte{typeFunc, 3, typeI32, typeI32, typeI32, 1, typeI32, typeFunc, 0, 0}
		case sectionFunction:
			functions = s.imports + int(count)
			more = binary.AppendUvarint(binary.AppendUvarint(nil, uint64(types)), uint64(types+1))
		case sectionCode:
			more = slices.Concat(s.words(), s.start(functions))
		default:
			continue
		}
		if size <= 0 {
			return nil, errNotLinked
		}
		sections[i].bytes = slices.Concat(binary.AppendUvarint(nil, count+2), to.bytes[size:], more)
	}
	behind := slices.IndexFunc(sections, func(s section) bool { return s.id > sectionStart })
	if types == 0 || functions == 0 || behind < 0 {
		return nil, errNotLinked
	}
	return slices.Insert(sections, behind, section{sectionStart, binary.AppendUvarint(nil, uint64(functions+1))}), nil
}

// words returns a function that puts down words from a kind on. It takes where to, where
// it stands which word of the kind is next, and how many, and returns where it ended.
func (s *starter) words() []byte {
	const to, kind, n = 0, 1, 2
	var a assembly
	a.until(func() { a.get(n).op(opI32Eqz) }, func() {
		a.get(to).get(kind).at(opI32Load, 0).at(opI32Load, 0).at(opI32Store, 0)
		a.get(kind).get(kind).at(opI32Load, 0).i32(4).op(opI32Add).at(opI32Store, 0)
		a.add(to, 4).add(kind, 4).add(n, -1)
	})
	return a.get(to).body(0)
}

// start returns the start function, which calls the one with that number for words.
func (s *starter) start(words int) []byte {
	const i, f, name, n, digit, locals = 0, 1, 2, 3, 4, 5
	var a assembly
	a.i32(s.list + (s.functions+1)*entryBytes).set(f)
	a.i32(s.names).set(name)
	a.until(func() { a.get(i).i32(s.functions).op(opI32Eq) }, func() {
		a.add(name, nameBytes)
		a.get(i).i32(entryBytes).op(opI32Mul).get(i).i32(firstCode).op(opI32Add).at(opI32Store, s.list)
		a.get(i).i32(entryBytes).op(opI32Mul).get(f).i32(s.list).op(opI32Sub).at(opI32Store, s.list+4)

		a.get(f).i32(s.find).i32(kindTables).call(words)
		a.i32(s.find+4*kindTables).get(f).at(opI32Load, funcTwins).call(words)
		a.i32(s.find+4*kindLast).get(f).at(opI32Load8U, funcLast).call(words)
		a.get(f).get(i).i32(firstCode).op(opI32Add).at(opI32Store, 0)
		a.get(f).at(opI32Load, funcName).op(opI32Eqz).op(opIf, noResult)
		a.get(f).get(name).i32(s.names).op(opI32Sub).at(opI32Store, funcName)
		a.op(opEnd)
		a.i32(7).op(opI32Add).i32(-8).op(opI32And).set(f)

		a.get(name).i64(nameHead+"0").at(opI64Store, 0)
		a.get(name).i64("0000"+nameTail).at(opI64Store, 8)
		a.get(i).i32(s.imports).op(opI32Add).set(n)
		a.get(name).set(digit)
		a.until(func() { a.get(n).op(opI32Eqz) }, func() {
			a.get(digit).get(n).i32(10).op(opI32RemU).i32('0').op(opI32Add).at(opI32Store8, len(nameHead)+nameDigits-1)
			a.get(n).i32(10).op(opI32DivU).set(n)
			a.add(digit, -1)
		})
		a.add(i, 1)
	})
	a.i32(s.types).set(f)
	a.i32(s.steps).set(i)
	a.until(func() { a.get(i).i32(s.stepsEnd).op(opI32Eq) }, func() {
		a.get(f).get(i).at(opI32Load8U, 0).set(n).get(n).i32(hashStep).op(opI32Mul).op(opI32Add).set(f)
		a.get(n).i32(hashSkip).op(opI32Eq, opI32Eqz, opIf, noResult)
		a.get(f).get(f).i32(hashFactor-1<<32).op(opI32Mul).i32(hashShift).op(opI32ShrU).at(opI32Store, typeHash)
		a.op(opEnd)
		a.add(i, 1)
	})
	a.i32(s.find).i32(0).i32(s.findEnd-s.find).op(opMore, moreFill, 0)
	a.i32(0).set(i)
	a.i32(s.find).set(f)
	a.until(func() { a.get(i).i32(s.stretches).op(opI32Eq) }, func() {
		a.get(f).get(i).i32(findEach).op(opI32DivU).at(opI32Store, 0)
		a.add(f, findBytes).add(i, 1)
	})
	return a.body(locals)
}
