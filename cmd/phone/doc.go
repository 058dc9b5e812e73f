//go:build js && wasm

// Command phone is the pages in a phone's browser: the same package web, built
// for WebAssembly, answering messages instead of requests over a network.
//
// The script that starts it finds two functions on globalThis:
//
//	load(lines)      takes events, one JSON object a line, as another device
//	                 recorded them; gives {added, held, waiting, refused}
//	answer(request)  takes {method, path, form: [[name, value], ...], who}; gives
//	                 {status, type, html, location, who, lines}
//
// It keeps nothing by itself: its journal lasts as long as the program. What an
// answer recorded is in lines, and the script must store these, durably, before
// it shows the answer. Not there yet: the store of the script, the exchange with
// the laptop, photographs (they never pass through here) and PDF. It speaks to
// no network and knows no file.
//
// Start with phone.answer; main.go holds what touches the browser.
package main
