// Package problem holds the one error shape of Kerfside: what went wrong, in
// which field, and what to do about it. It travels unchanged from a formula to
// the command line, the HTTP API and the thumb on the phone.
//
// On the wire it stands under one key:
//
//	{"error": {"kind": "range", "field": "thickness", "msg": "…", "hint": "…"}}
package problem

import (
	"errors"
	"fmt"
)

// Kind says what sort of trouble it is, in a word that programs can compare.
type Kind string

// Kinds that a person's input can cause.
const (
	Missing   Kind = "missing"   // a field that has no default was left empty
	Malformed Kind = "malformed" // the text cannot be read as what the field takes
	Unit      Kind = "unit"      // a number was read, but its unit belongs elsewhere
	Range     Kind = "range"     // read, but outside what is allowed
	Unknown   Kind = "unknown"   // no such field, calculator or choice
	Conflict  Kind = "conflict"  // two fields that do not go together
	Refused   Kind = "refused"   // understood, but it cannot or must not be done
	NotFound  Kind = "not-found" // nothing is stored under that name
)

// Kinds that belong to the journal's wire (package calc/journal/exchange) and to the
// server as such.
const (
	Cut       Kind = "cut"        // the request ended before its announced count
	TooLarge  Kind = "too-large"  // more than the announced limit
	NoToken   Kind = "no-token"   // no device token, or not a known one
	Revoked   Kind = "revoked"    // the token was withdrawn
	WrongCrew Kind = "wrong-crew" // the token belongs to another crew
	Rewound   Kind = "rewound"    // the two histories differ: find the last common mark
	OldApp    Kind = "old-app"    // the app is older than the server understands
	SlowDown  Kind = "slow-down"  // too many requests
	Busy      Kind = "busy"       // try again in a moment
	DiskFull  Kind = "disk-full"  // the server cannot write
	Forbidden Kind = "forbidden"  // not from here (host, origin, role)
	Internal  Kind = "internal"   // our fault; the log knows more
)

// Error is a problem that may be shown to a person as it stands.
type Error struct {
	Kind  Kind     `json:"kind"`
	Field string   `json:"field,omitempty"` // key of the field to blame, if one is
	Msg   string   `json:"msg"`             // what was wrong, with what was read
	Hint  string   `json:"hint,omitempty"`  // what is allowed, or what to do
	Retry int      `json:"retry,omitempty"` // seconds to wait before trying again
	Also  []*Error `json:"also,omitempty"`  // further fields with troubles of their own

	cause error // for the log only
}

// Error returns "field: msg (hint)".
func (e *Error) Error() string {
	s := e.Msg
	if e.Field != "" {
		s = e.Field + ": " + s
	}
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

// Unwrap returns the cause, which is meant for the log and never shown.
func (e *Error) Unwrap() error { return e.cause }

// New returns a problem of that kind. field may be empty.
func New(kind Kind, field, msg, hint string) *Error {
	return &Error{Kind: kind, Field: field, Msg: msg, Hint: hint}
}

// Newf is New with a formatted message and no hint.
func Newf(kind Kind, field, format string, args ...any) *Error {
	return &Error{Kind: kind, Field: field, Msg: fmt.Sprintf(format, args...)}
}

// WithHint returns a copy of e that says what to do.
func (e *Error) WithHint(format string, args ...any) *Error {
	c := *e
	c.Hint = fmt.Sprintf(format, args...)
	return &c
}

// WithField returns a copy of e that blames field, unless e blames one already.
func (e *Error) WithField(field string) *Error {
	c := *e
	if c.Field == "" {
		c.Field = field
	}
	return &c
}

// WithCause returns a copy of e that remembers err for the log.
func (e *Error) WithCause(err error) *Error {
	c := *e
	c.cause = err
	return &c
}

// From returns err as a problem. An error that is none becomes a bland
// Internal one that keeps err as its cause, so that nothing private is shown.
func From(err error) *Error {
	if err == nil {
		return nil
	}
	var p *Error
	if errors.As(err, &p) {
		return p
	}
	return &Error{
		Kind:  Internal,
		Msg:   "something went wrong inside Kerfside",
		Hint:  "Try again; if it stays, note what you did and tell whoever runs the server.",
		cause: err,
	}
}

// KindOf returns the kind of err, or "" if it is nil.
func KindOf(err error) Kind {
	if err == nil {
		return ""
	}
	return From(err).Kind
}

// Envelope is the shape in which an error crosses a boundary.
type Envelope struct {
	Error *Error `json:"error"`
}
