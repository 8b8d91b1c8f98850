// @ts-check
// Made by go run ./cmd/dev types: change the Go instead.

/** Version of the fold and its views that these pages can draw. */
export const foldVersion = 8;
