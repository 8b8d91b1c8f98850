package book

// sessions reports the sessions as a table, the newest first.
func (b *book) sessions() (Report, error) {
	t := Table{Columns: []Column{
		{Key: "session", Title: "Session"}, {Key: "opened", Title: "Opened", Number: true}, {Key: "closed", Title: "Ended", Number: true}, {Key: "rig", Title: "Rig"},
		{Key: "arc", Title: "Arc", Unit: "min", Number: true}, {Key: "starts", Title: "Starts", Number: true}, {Key: "new_parts", Title: "New parts", Number: true},
		{Key: "drains", Title: "Drained", Number: true}, {Key: "judged", Title: "Cuts judged", Number: true},
	}}
	for _, s := range b.fold.Book("", mostRows).Sessions {
		title, ended, rig := s.Title, Cell{Text: "open", Value: float64(b.Now)}, ""
		if title == "" {
			title = "Session"
		}
		if !s.Open {
			ended = Cell{Text: b.clock(s.Closed), Value: float64(s.Closed), Plain: b.stamp(s.Closed)}
		}
		if s.Rig != "" {
			rig = b.rig(s.Rig)
		}
		t.Rows = append(t.Rows, []Cell{
			{Text: title, Href: "/session/" + s.ID}, {Text: b.when(s.Opened), Value: float64(s.Opened), Plain: b.stamp(s.Opened)}, ended, {Text: rig},
			minutesCell(s.Ms), count(s.Starts), count(int64(s.Parts)), count(int64(s.Drains)), count(int64(s.Cuts)),
		})
	}
	if len(t.Rows) == 0 {
		return Report{Title: "All sessions", Says: []string{"Nothing entered yet. The first arc opens a session."}}, nil
	}
	return Report{Title: "All sessions", Sections: []Section{{Table: &t}}}, nil
}
