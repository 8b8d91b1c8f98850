package store

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"testing"
)

// halfway is a database that prepares one statement and no more.
type halfway struct{ open, prepared int }

func (h *halfway) Connect(context.Context) (driver.Conn, error) { return h, nil }
func (h *halfway) Driver() driver.Driver                        { return nil }
func (h *halfway) Begin() (driver.Tx, error)                    { return nil, errors.New("not asked for") }
func (h *halfway) Prepare(string) (driver.Stmt, error) {
	if h.prepared++; h.prepared > 1 {
		return nil, errors.New("the disk is gone")
	}
	h.open++
	return (*halfwayStatement)(h), nil
}
func (h *halfway) Close() error { return nil }

type halfwayStatement halfway

func (s *halfwayStatement) Close() error { s.open--; return nil }
func (*halfwayStatement) NumInput() int  { return -1 }
func (*halfwayStatement) Exec([]driver.Value) (driver.Result, error) {
	return nil, errors.New("not asked for")
}
func (*halfwayStatement) Query([]driver.Value) (driver.Rows, error) {
	return nil, errors.New("not asked for")
}

// TestPrepareAllOrNothing: when the second statement cannot be prepared the writer
// gets none, so that it tries again, and the first is not left open.
func TestPrepareAllOrNothing(t *testing.T) {
	h := &halfway{}
	db := sql.OpenDB(h)
	defer db.Close()
	st, err := (&Store{write: db}).prepare()
	if st != nil || err == nil {
		t.Errorf("prepare = %v, %v, want nothing and an error", st, err)
	}
	if h.open != 0 {
		t.Errorf("%d statements stay open", h.open)
	}
}
