package exchange

import (
	"bytes"
	"encoding/json"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
)

// Push is one event of a request as the server reads it.
type Push struct {
	Event     event.Event
	O         event.Stamp // the o it once got, else its t; still to be clamped
	Sum       event.Sum
	Reoffered bool // it is offered again with the o that a server gave it
}

// ReadRequest reads the body of a request. Its errors are problems. Their field is the
// key of the event that is to blame, or "head" for the first line, so that a phone
// rejects no event for it.
func ReadRequest(body []byte) (RequestHead, []Push, error) {
	first, rest, whole := bytes.Cut(body, []byte("\n"))
	if !whole {
		return RequestHead{}, nil, problem.New(problem.Cut, "head", "the request ended within its first line", "Send it again.")
	}
	if len(first) > MaxHead {
		return RequestHead{}, nil, problem.Newf(problem.Malformed, "head", "the first line of the request has %d bytes", len(first)).
			WithHint("At most %d. Update the app.", MaxHead)
	}
	head, err := readHead(first)
	if err != nil {
		return RequestHead{}, nil, err
	}
	// Counted before they are split: a million empty lines would take 24 bytes each.
	if came := bytes.Count(rest, []byte("\n")); came != head.Count {
		return head, nil, problem.Newf(problem.Cut, "count", "%d entries came of %d", came, head.Count).
			WithHint("Nothing was stored; send it again.")
	}
	list := splitRows(rest)
	pushes := make([]Push, 0, len(list))
	for _, line := range list {
		p, err := ReadPush(line)
		if err != nil {
			return head, nil, err
		}
		pushes = append(pushes, p)
	}
	return head, pushes, nil
}

func readHead(line []byte) (RequestHead, error) {
	var head RequestHead
	if err := json.Unmarshal(line, &head); err != nil {
		return head, problem.New(problem.Malformed, "head", "the first line of the request cannot be read", "Update the app.").WithCause(err)
	}
	switch {
	case head.Proto != Proto:
		return head, problem.Newf(problem.OldApp, "head", "the app speaks version %d of the sync", head.Proto).
			WithHint("This server speaks version %d. Update whichever is older.", Proto)
	case head.Crew != "" && !event.IsName(head.Crew):
		return head, problem.New(problem.Malformed, "head", "the crew's id cannot be read", "Update the app.")
	case head.Count < 0 || head.At.N < 0 || head.Gen < 0:
		return head, problem.New(problem.Malformed, "head", "the request counts below zero", "Update the app.")
	case head.Count > MaxPush:
		return head, problem.Newf(problem.TooLarge, "count", "%d entries in one request", head.Count).
			WithHint("At most %d.", MaxPush)
	case len(head.Marks) > 0 && head.Count > 0:
		return head, problem.New(problem.Malformed, "head", "marks and entries in one request", "Update the app.")
	}
	return head, nil
}

// ReadPush reads {"o","raw"} or raw as it is.
func ReadPush(line []byte) (Push, error) {
	if len(line) > event.MaxEvent+maxAround { // before anything reads it
		return Push{}, event.TooLong(len(line))
	}
	outer, err := event.ReadObject(line)
	if err != nil {
		return Push{}, event.Malformed("raw", err.Error())
	}
	list := outer.Members
	if len(list) != 2 || list[0].Key != "o" || list[1].Key != "raw" || outer.Twice != "" {
		e, err := event.Decode(line)
		if err != nil {
			return Push{}, err
		}
		return Push{Event: e, O: e.T, Sum: event.SumOf(line)}, nil
	}
	s, _ := event.Unquote(list[0].Value)
	o, err := event.ParseStamp(s)
	if err != nil || o == 0 {
		return Push{}, event.Malformed("o", "a stamp has 16 lower-case hex digits, not all of them 0")
	}
	e, err := event.Decode(list[1].Value)
	if err != nil {
		return Push{}, err
	}
	return Push{Event: e, O: o, Sum: event.SumOf(e.Raw), Reoffered: true}, nil
}
