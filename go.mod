module kerfside

go 1.26

require (
	github.com/andybalholm/brotli v1.2.8 // indirect
	github.com/chromedp/cdproto v0.159.0 // indirect
	github.com/chromedp/chromedp v0.23.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/gorilla/mux v1.8.1 // indirect
	github.com/mattn/go-sqlite3 v1.14.53 // indirect
	github.com/yuin/goldmark v1.8.7 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
