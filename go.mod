module kerfside

go 1.26.0

require (
	github.com/andybalholm/brotli v1.2.8
	github.com/coder/websocket v1.8.15
	github.com/evanw/esbuild v0.28.2
	github.com/gorilla/mux v1.8.1
	github.com/klauspost/compress v1.20.4
	github.com/mattn/go-sqlite3 v1.14.53
	github.com/piglig/go-qr v1.1.0
	github.com/prometheus/client_model v0.6.3
	github.com/prometheus/common v0.74.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	github.com/tdewolff/parse/v2 v2.8.20
	github.com/yuin/goldmark v1.8.7
	golang.org/x/crypto v0.59.0
	golang.org/x/net v0.62.0
	golang.org/x/time v0.16.0
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/munnerz/goautoneg v0.0.0-20191010083416-a7dc8b61c822 // indirect
	github.com/pandatix/go-abnf v0.5.5 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/text v0.44.0 // indirect
	google.golang.org/protobuf v1.36.12 // indirect
)
