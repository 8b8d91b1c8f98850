// Package move carries one crew from one server to another, in a file. It packs what
// package store hands out of a crew that is frozen, with its pictures, checks the file
// as it lies, and unpacks one on the new server. What a row is and who serves a crew it
// leaves to package store, and speaks no SQL.
//
// The file is a tar archive with the entries, in this order:
//
//	crew.json             what is in it, a Contents
//	access.json           who may use the crew, a store.MovedAccess
//	erased.jsonl          the crew's lines of the list of erasures
//	events/000001.jsonl   arrivals, each a store.MovedEvent; some hundreds in each such entry
//	photos/SHA256         a picture, named by its bytes
//	SHA256SUMS            a line for each entry before: its SHA-256, two blanks, its name
//
// So tar and sha256sum -c can look through it. The SHA-256 of the last entry is the hash
// of the package. It vouches for the way between two servers, and for nothing about who
// wrote the file.
package move
