package main

import "strings"

// idleParts are functions that are linked because something could call them, and that
// nothing does in a program whose GODEBUG is empty, as it is in a browser, and that
// has none of idleWithout. Each is the beginning of names.
var idleParts = []string{
	// the tracer of executions: runtime/trace starts it
	"runtime.traceAdvance", "runtime.traceSyncBatch", "runtime.traceStack", "runtime.traceReadCPU",
	"runtime.traceStopReadCPU", "runtime.traceCPUFlush", "runtime.traceRegisterLabelsAndReasons", "runtime.traceThreadDestroy",
	"runtime.traceLocker.GC", "runtime.traceLocker.Go", "runtime.traceLocker.Heap", "runtime.traceLocker.Proc",
	"runtime.traceLocker.STW", "runtime.traceLocker.Span", "runtime.traceLocker.em", "runtime.traceLocker.eventWriter",
	"runtime.traceWriter.", "runtime.traceEventWriter.", "runtime.makeTraceFrame",
	"runtime.(*traceBuf).", "runtime.(*traceMap).", "runtime.(*traceRegionAlloc).", "runtime.(*traceSchedResourceState).acquireStatus",
	"runtime.(*traceStackTable).", "runtime.(*traceStringTable).", "runtime.(*traceTypeTable).",
	"runtime.dumpStacksRec", "runtime.dumpTypesRec", "runtime.fpunwindExpand",
	// what runtime/metrics and runtime/pprof read
	"runtime.initMetrics", "runtime.(*profBuf).", "runtime.findGoroutineLeaks",
	"runtime.doRecordGoroutineProfile", "runtime.tryRecordGoroutineProfile",
	// what GODEBUG asks for
	"runtime.schedtrace", "runtime.printScavTrace", "runtime.startCheckmarks", "runtime.runCheckmark", "runtime.setCheckmark",
	"runtime.checkFinalizersAndCleanups", "runtime.dumpScanStats", "runtime.printAncestorTraceback", "internal/bisect.",
	// C, and a program in several modules
	"runtime.expandCgoFrames", "runtime.printCgoTraceback", "runtime.printOneCgoTraceback", "runtime.callCgoSymbolizer",
	"runtime.typesEqual",
	// what testing/synctest and arena are for
	"runtime.(*synctestBubble).", "runtime.(*mspan).setUserArenaChunkToFault",
	// what FIPS 140 has crypto/sha256 bring along beside itself
	"crypto/internal/fips140/aes.", "crypto/internal/fips140/aes/gcm.", "crypto/internal/fips140/drbg.",
	"crypto/internal/fips140/hmac.", "crypto/internal/fips140/sha3.", "crypto/internal/fips140/sha512.",
}

// idleWithout are the packages that would call them.
var idleWithout = []string{
	"arena", "crypto/aes", "crypto/hmac", "crypto/rand", "crypto/sha3", "crypto/sha512", "plugin",
	"runtime/cgo", "runtime/metrics", "runtime/pprof", "runtime/trace", "testing", "testing/synctest",
}

// neverRuns says whether a function belongs to an idle part. A package is made ready
// by its init even so.
func neverRuns(name string) bool {
	for _, part := range idleParts {
		if rest, ok := strings.CutPrefix(name, part); ok {
			return !isInit(rest)
		}
	}
	return false
}

// isInit says whether it is init or init.0, and not a function within.
func isInit(name string) bool {
	rest, ok := strings.CutPrefix(name, "init")
	return ok && strings.Trim(rest, ".0123456789") == ""
}
