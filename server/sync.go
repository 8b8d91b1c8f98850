package server

import (
	"bytes"
	"cmp"
	"errors"
	"net/http"
	"slices"
	"sort"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// maxSyncBody holds a full request: the events, what is put around those that
// are offered again, and the marks of a replica many years old.
const maxSyncBody = exchange.MaxBody + 256<<10

// syncJournal takes what a phone brings and hands out what it lacks, in one
// round trip. calc/journal/protocol.md describes the lines.
func (s *Server) syncJournal(w http.ResponseWriter, r *http.Request, who store.Device) error {
	var body bytes.Buffer
	body.Grow(int(min(max(r.ContentLength, 0), maxSyncBody)) + bytes.MinRead)
	if _, err := body.ReadFrom(http.MaxBytesReader(w, r.Body, maxSyncBody)); err != nil {
		return readTrouble(err)
	}
	head, pushes, err := exchange.ReadRequest(body.Bytes())
	if err != nil {
		return err
	}
	crew := who.Crew
	if head.Crew != "" && head.Crew != crew {
		return problem.New(problem.WrongCrew, "crew", "this phone's journal belongs to another crew",
			"What you enter stays on this phone. Check the address, or ask an owner for an invitation.")
	}
	if len(head.Marks) > 0 {
		return s.answerMarks(w, r, who, head.Marks)
	}
	chain, ok, err := s.store.At(r.Context(), crew, head.At.N)
	if err != nil {
		return err
	}
	if !ok || chain != head.At.H {
		return problem.New(problem.Rewound, "at", "the server's history is not the one this phone knows",
			"The phone finds the last common entry and brings back what is missing, by itself.")
	}
	if err := s.store.NoteErasures(r.Context()); err != nil {
		return err
	}
	now := s.now()
	fresh, older := cost(pushes, now)
	if err := s.budgets.check(who, fresh, older, now, s.log); err != nil {
		return err
	}
	before, _ := s.store.State(crew)
	acks, err := s.store.Append(r.Context(), store.Batch{Crew: crew, Relay: who.ID, Now: now.UnixMilli(), Events: pushes})
	if err != nil {
		return err
	}
	took := stored(pushes, acks, before.Max)
	s.figures.taken.Add(int64(len(took)))
	fresh, older = cost(took, now)
	s.budgets.spend(who, fresh, older, now)
	if bringsPictures(took, now) {
		s.budgets.heal(who, now)
	}
	return sendLines(w, r, func(room []byte) ([]byte, error) { return s.answer(r, room, crew, head, pushes, acks) })
}

// answer writes the reply to a request whose events are stored.
func (s *Server) answer(r *http.Request, room []byte, crew string, head exchange.RequestHead, pushes []exchange.Push, acks []exchange.Ack) ([]byte, error) {
	erased, digest, err := s.erasedSince(r, crew, head) // before the page: what is erased meanwhile is told next time
	if err != nil {
		return room, err
	}
	soon, err := s.earlyArrivals(r, crew, head)
	if err != nil {
		return room, err
	}
	var page []store.Row
	if !soon.only {
		if page, err = s.store.After(r.Context(), crew, head.At.N, cmp.Or(s.page, exchange.MaxPage), exchange.MaxBody); err != nil {
			return room, err
		}
	}
	if head.ErasuresDigest == nil {
		page = beforeErased(page)
	}
	first := s.replyHead(crew, page)
	first.ErasuresDigest, first.Erasures, first.Early = digest, len(erased), soon.head
	brought := make(map[string]event.Sum, len(pushes))
	for _, p := range pushes {
		brought[p.Event.ID] = p.Sum
	}
	shorten := func(a exchange.Arrival) exchange.Arrival {
		if sum, ok := brought[a.ID]; ok && sum == a.Sum && !a.Erased {
			a.Raw = nil // the phone has these bytes
		}
		return a
	}
	reply := exchange.NewReplyIn(room, first)
	for _, a := range acks {
		reply.Ack(a)
	}
	for _, a := range erased {
		reply.Erased(a)
	}
	for _, row := range soon.rows {
		reply.Early(shorten(row.Arrival))
	}
	for _, row := range page {
		reply.Arrival(shorten(row.Arrival), row.Chain)
	}
	return reply.Bytes(), nil
}

// maxErasures is how many lines of the list of erasures a reply goes through, two for
// an entry: a phone that was forgotten may have left a hundred thousand entries.
const maxErasures = 4000

// erasedSince returns erased events among those that the phone holds, early ones too,
// if it has not followed the list to its end, and how far it has with them. The rest
// comes with its next requests.
func (s *Server) erasedSince(r *http.Request, crew string, head exchange.RequestHead) ([]exchange.Arrival, string, error) {
	if head.ErasuresDigest == nil {
		return nil, s.store.ErasuresDigest(crew), nil
	}
	upTo := head.At.N
	if head.Early != nil {
		if at, ok := store.ParseEarly(*head.Early); ok {
			upTo = max(upTo, at.Top)
		}
	}
	return s.store.ErasedUpTo(r.Context(), crew, upTo, *head.ErasuresDigest, cmp.Or(s.erasures, maxErasures))
}

// beforeErased returns the arrivals before the first erased one, which an older
// app would take for a break of the chain. It goes on once it is updated.
func beforeErased(page []store.Row) []store.Row {
	if i := slices.IndexFunc(page, func(r store.Row) bool { return r.Erased }); i >= 0 {
		return page[:i]
	}
	return page
}

// answerMarks names the highest mark that the store holds too. The chain makes
// equality at one arrival mean equality at all before it, so halving finds it.
func (s *Server) answerMarks(w http.ResponseWriter, r *http.Request, who store.Device, marks []exchange.Mark) error {
	crew := who.Crew
	var failed error
	first := sort.Search(len(marks), func(i int) bool {
		chain, ok, err := s.store.At(r.Context(), crew, marks[i].N)
		failed = errors.Join(failed, err)
		return !ok || chain != marks[i].H
	})
	if failed != nil {
		return failed
	}
	if first < len(marks) {
		s.budgets.heal(who, s.now())
	}
	head := s.replyHead(crew, nil)
	head.Rewound = &exchange.Mark{}
	if first > 0 {
		head.Rewound = &marks[first-1]
	}
	return sendLines(w, r, func(room []byte) ([]byte, error) { return exchange.NewReplyIn(room, head).Bytes(), nil })
}

// replyHead tells where the journal stands. page may have been read a moment
// after an arrival that the state does not count yet.
func (s *Server) replyHead(crew string, page []store.Row) exchange.ReplyHead {
	state, _ := s.store.State(crew)
	now, behind := event.ServerNow(s.now().UnixMilli(), state.Highest)
	head := exchange.ReplyHead{Crew: crew, Now: now.Ms(), Max: state.Max, BackedUp: state.BackedUp, SameDisk: state.SameDisk, Behind: behind, Resend: s.store.Damaged(crew)}
	if len(page) > 0 {
		head.Max = max(head.Max, page[len(page)-1].N)
	}
	return head
}

// readTrouble says why a request's body could not be read to its end.
func readTrouble(err error) error {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		return problem.Newf(problem.TooLarge, "", "the request has more than %d bytes", large.Limit).
			WithHint("Send fewer entries at once.")
	}
	return problem.New(problem.Cut, "", "the request ended early", "Nothing was stored; send it again.").WithCause(err)
}
