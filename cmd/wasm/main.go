//go:build js && wasm

// Command wasm is the calculators and the journal for the phone. It exports one
// function, kerfsideCall(name, json) → json, which runs in the app's worker;
// errors come back in the shape of package problem. This is the only file that
// imports syscall/js.
package main

import (
	"encoding/json"
	"strings"
	"syscall/js"

	"kerfside/calc/journal/engine"
	"kerfside/calc/listen"
	"kerfside/calc/problem"
	"kerfside/calc/registry"
)

func main() {
	journal, ear := engine.New(), &listen.Ear{}
	js.Global().Set("kerfsideCall", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return call(journal, ear, args[0].String(), []byte(args[1].String()))
	}))
	js.Global().Call("kerfsideReady")
	select {} // keeps the function alive
}

// call returns the reply as JSON text. A panic becomes an error like any
// other: the worker must live on to take the next call.
func call(journal *engine.Engine, ear *listen.Ear, name string, input []byte) (reply string) {
	defer func() {
		if r := recover(); r != nil {
			reply = `{"error":{"kind":"internal","msg":"the calculator broke off","hint":"Note what was entered and tell whoever runs the server."}}`
		}
	}()
	text, err := answer(journal, ear, name, input)
	if err != nil {
		if text, err = json.Marshal(problem.Envelope{Error: problem.From(err)}); err != nil {
			panic(err)
		}
	}
	return string(text)
}

// answer returns {"ok": the result} as JSON.
func answer(journal *engine.Engine, ear *listen.Ear, name string, input []byte) ([]byte, error) {
	var result any
	var err error
	switch {
	case strings.HasPrefix(name, "journal-"):
		return journal.Reply(name, input)
	case name == "listen":
		result, err = ear.Call(input)
	default:
		result, err = registry.Call(name, input)
	}
	if err != nil {
		return nil, err
	}
	return json.Marshal(map[string]any{"ok": result})
}
