//go:build js && wasm

package main

import (
	"syscall/js"
	"time"
)

// main offers load and answer to the script that started the program, and waits
// for them to be called.
func main() {
	p, err := newPhone(deviceSeed(), time.Now)
	if err != nil {
		panic(err) // an empty journal in memory cannot fail
	}
	offer("load", js.TypeString, func(v js.Value) (map[string]any, error) { return p.load(v.String()) })
	offer("answer", js.TypeObject, func(v js.Value) (map[string]any, error) { return p.answer(requestOf(v)) })
	select {}
}

// offer puts a function of one argument on globalThis. It stays for ever, so it
// is never released.
func offer(name string, wants js.Type, do func(js.Value) (map[string]any, error)) {
	js.Global().Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 || args[0].Type() != wants {
			return says(name + " wants one argument of another type.")
		}
		out, err := do(args[0])
		if err != nil {
			return says(err.Error())
		}
		return out
	}))
}

// says is an answer that tells what went wrong.
func says(text string) map[string]any { return map[string]any{"error": text} }

// deviceSeed draws the seed of the device's name from the browser's own source.
func deviceSeed() [32]byte {
	var seed [32]byte
	bytes := js.Global().Get("Uint8Array").New(len(seed))
	js.Global().Get("crypto").Call("getRandomValues", bytes)
	js.CopyBytesToGo(seed[:], bytes)
	return seed
}

// requestOf reads a request: {method, path, form: [[name, value], ...], who}.
func requestOf(v js.Value) request {
	r := request{Method: text(v, "method"), Path: text(v, "path"), Who: text(v, "who"), Form: map[string][]string{}}
	if r.Method == "" {
		r.Method = "GET"
	}
	form := v.Get("form")
	if form.Type() != js.TypeObject {
		return r
	}
	for i := range form.Length() {
		name := form.Index(i).Index(0).String()
		r.Form[name] = append(r.Form[name], form.Index(i).Index(1).String())
	}
	return r
}

// text is a property that is a string; empty when it is not.
func text(v js.Value, name string) string {
	if got := v.Get(name); got.Type() == js.TypeString {
		return got.String()
	}
	return ""
}
